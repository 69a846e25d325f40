import type { Separator } from '../../circuit/wireList/csv.ts';
import { writeWireList } from '../../circuit/wireList/writeWireList.ts';
import { circuitFile } from '../circuitFile.ts';
import { type Command, printJson, sayProblems } from '../command.ts';

const signs: Readonly<Record<string, Separator>> = { comma: ',', semicolon: ';', tab: '\t' };

export const exportList: Command = {
  name: 'export',
  usage: 'export FILE --csv [--separator comma|semicolon|tab] [--decimal-comma] [-o WIRES.csv]',
  about: 'The wires and parts of a circuit as a table for a spreadsheet; `import` makes the same circuit of it again',
  takes: { least: 1, most: 1 },
  options: {
    csv: { type: 'boolean', about: 'a table with separated cells, the only form so far' },
    separator: { type: 'string', value: 'comma|semicolon|tab', about: 'what parts the cells; comma unless said' },
    'decimal-comma': { type: 'boolean', about: 'write 0,75 in place of 0.75' },
    output: { type: 'string', short: 'o', value: 'WIRES.csv', about: 'where to write it; without it, to the standard output' },
  },
  examples: [
    { line: 'export circuits/light-van.yaml --csv -o wires.csv', gives: 'the wire list of the light van' },
    { line: 'export circuits/truck.yaml --csv --separator semicolon --decimal-comma', gives: 'the same as spreadsheets in Europe read it' },
  ],
  run: (args, io) => {
    const path = args.positionals[0]!;
    const { circuit, problems, texts } = circuitFile(path, io);
    if (!circuit) return sayProblems(problems, args, io, texts);
    const word = args.text('separator') ?? 'comma';
    const separator = Object.hasOwn(signs, word) ? signs[word] : undefined;
    if (separator === undefined)
      return sayProblems(
        [
          {
            code: 'unknown-word',
            severity: 'error',
            file: '--separator',
            line: 1,
            column: 1,
            length: Math.max(1, word.length),
            what: `\`${word}\` is none of the separators`,
            why: 'the cells would run together',
            mend: [`words: ${Object.keys(signs).join(', ')}`],
          },
        ],
        args,
        io,
      );
    const decimal = args.flag('decimal-comma') ? ',' : '.';
    const table = writeWireList(texts.get(path) ?? '', { separator, decimal }) ?? '';
    const output = args.text('output');
    if (output !== undefined) {
      // Spreadsheets take a file for UTF-8 only when it begins with this mark.
      const written = io.writeFile(output, `\uFEFF${table}`);
      return sayProblems(written.problems, args, io);
    }
    if (args.json) printJson({ file: path, csv: table }, io);
    else io.print(table.trimEnd());
    return 0;
  },
};
