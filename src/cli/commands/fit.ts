import { stepEdits } from '../../circuit/edit/steps.ts';
import { edited } from '../../circuit/edit/textEdit.ts';
import { quantityText } from '../../circuit/quantity.ts';
import { fitReadings } from '../../report/circuitEdit/fitReadings.ts';
import { textTable } from '../../report/textTable.ts';
import { type Fit, fitted } from '../../solve/fit.ts';
import { circuitFile } from '../circuitFile.ts';
import { type Command, printJson, sayProblems } from '../command.ts';

export const fit: Command = {
  name: 'fit',
  usage: 'fit FILE --read READING… [-o FILE.yaml]',
  about: 'Figures of the circuit brought closer to readings on the healthy vehicle, each within its range',
  takes: { least: 1, most: 1 },
  options: {
    read: {
      type: 'string',
      multiple: true,
      value: 'READING',
      about: '`ON: 12.4 V at G1.+`, `key out: 9 mA at G1.-`; several count together',
    },
    output: { type: 'string', short: 'o', value: 'FILE.yaml', about: 'the circuit with the fitted figures, comments kept' },
  },
  examples: [
    { line: 'fit circuits/light-van.yaml --read "key out: 12.5 V at G1.+"', gives: 'what the battery must be charged to' },
    {
      line: 'fit van.yaml --read "START: 10.1 V at G1.+" --read "ON: 5.6 A at M2.1" -o mine.yaml',
      gives: 'before and after, and the file',
    },
  ],
  run: (args, io) => {
    const path = args.positionals[0]!;
    const { circuit, problems, texts } = circuitFile(path, io);
    if (!circuit) return sayProblems(problems, args, io, texts);
    const { readings, problems: wrong } = fitReadings(args.texts('read'), circuit, '--read');
    if (wrong.length > 0) return sayProblems(wrong, args, io);
    const result = fitted(circuit, readings);
    const off = result.readings.some((r) => !r.agrees);
    const output = args.text('output');
    let text = texts.get(path) ?? '';
    for (const { part, parameter, dimension, before, after } of result.figures)
      if (after !== before)
        text = edited(text, stepEdits(text, { do: 'set', id: part, key: parameter, held: quantityText(after, dimension, 4) }) ?? []);
    const written = output === undefined ? undefined : io.writeFile(output, text);
    if (written && !written.ok) return sayProblems(written.problems, args, io);
    if (args.json) {
      const { figures, readings: seen, disagree } = result;
      printJson({ circuit: circuit.title, figures, readings: seen, disagree }, io);
    } else io.print(fitText(result, io.columns));
    return off ? 1 : 0;
  },
};

function fitText({ figures, readings, disagree }: Fit, columns: number): string {
  const moved = figures.filter((f) => Math.abs(f.after - f.before) > 1e-3 * (f.most - f.least));
  const show = (value: number | null, of: 'volts' | 'amperes') =>
    value === null ? 'nothing' : quantityText(value, of === 'volts' ? 'voltage' : 'current', 4);
  const seen = textTable(
    {
      head: ['reading', 'read', 'before', 'after', ''],
      rows: readings.map((r) => [
        r.phrase,
        show(r.read, r.of),
        show(r.before, r.of),
        show(r.after, r.of),
        r.agrees ? '' : 'does not agree',
      ]),
    },
    columns,
  );
  const figureTable = textTable(
    {
      head: ['figure', 'before', 'after', 'range', ''],
      rows: moved.map((f) => [
        `${f.part} ${f.parameter}`,
        quantityText(f.before, f.dimension),
        quantityText(f.after, f.dimension),
        `${quantityText(f.least, f.dimension, 3)} to ${quantityText(f.most, f.dimension, 3)}`,
        f.atLimit ? 'at the end of its range' : '',
      ]),
    },
    columns,
  );
  const verdict = readings.every((r) => r.agrees)
    ? 'All readings agree.'
    : disagree.length > 0
      ? `The readings do not agree. Without any one of these the others fit; read it again:\n${disagree.map((d) => `  ${d}`).join('\n')}`
      : 'The readings do not agree, and no single one is to blame: look at scene, terminals and the circuit.';
  return [seen, '', moved.length === 0 ? 'No figure had to move.' : figureTable, '', verdict].join('\n');
}
