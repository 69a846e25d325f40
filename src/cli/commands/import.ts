import { nearNames } from '../../circuit/nearNames.ts';
import type { Problem } from '../../circuit/problem.ts';
import { textOfBytes } from '../../circuit/wireList/bytesText.ts';
import { type WireField, wireFields } from '../../circuit/wireList/headerWords.ts';
import { readWireList } from '../../circuit/wireList/readWireList.ts';
import type { ByHand } from '../../circuit/wireList/tables.ts';
import { partKinds } from '../../parts/index.ts';
import { type Args, type Command, printJson, sayProblems } from '../command.ts';

export const importList: Command = {
  name: 'import',
  usage: 'import WIRES.csv [--column FIELD=HEAD]… [--title TITLE] [-o FILE.yaml]',
  about: 'A circuit file from the wire list of a spreadsheet; what could not be taken is told row by row',
  takes: { least: 1, most: 1 },
  options: {
    column: {
      type: 'string',
      multiple: true,
      value: 'FIELD=HEAD',
      about: 'which column holds what, by its head or number: `from="Pin A"`, `area=5`',
    },
    title: { type: 'string', value: 'TITLE', about: 'title of the circuit; else the name of the list' },
    output: { type: 'string', short: 'o', value: 'FILE.yaml', about: 'where to write it; without it, to the standard output' },
  },
  examples: [
    {
      line: 'import wires.csv -o van.yaml',
      gives: 'the circuit; heads in English, German or French; exit 1 when a row could not be taken',
    },
    { line: 'import wires.csv --column from=1 --column to=3', gives: 'the same with two columns named by hand' },
  ],
  run: (args, io) => {
    const path = args.positionals[0]!;
    const { byHand, problems: wrong } = columnsGiven(args.texts('column'));
    if (wrong.length > 0) return sayProblems(wrong, args, io);
    const file = io.readBytes(path);
    if (!file.ok) return sayProblems(file.problems, args, io);
    const { text, encoding } = textOfBytes(file.value);
    const read = readWireList(text, path, args.text('title') ?? titleOf(path), partKinds, byHand);
    const output = args.text('output');
    const written = read.yaml !== undefined && output !== undefined ? io.writeFile(output, read.yaml) : undefined;
    const problems = [...read.problems, ...(written?.problems ?? [])];
    const failed = problems.some((p) => p.severity === 'error');
    if (args.json) {
      const { wires, leftOut, separator, decimal, columns, yaml } = read;
      printJson(
        { file: path, encoding, separator, decimal, columns, wires, leftOut, problems, ...(output === undefined && { circuit: yaml }) },
        io,
      );
      return failed ? 1 : 0;
    }
    sayProblems(problems, args, io, new Map([[path, text]]));
    if (read.yaml !== undefined && output === undefined) io.print(read.yaml.trimEnd());
    const sign = { ',': 'comma', ';': 'semicolon', '\t': 'tab', '|': 'bar' }[read.separator];
    io.printError(
      `${read.wires} wires taken, ${read.leftOut} rows not; ${encoding}, cells parted by ${sign}, decimal ${read.decimal === ',' ? 'comma' : 'point'}`,
    );
    return failed ? 1 : 0;
  },
};

function titleOf(path: string): string {
  const name = path.replace(/^.*[\\/]/, '').replace(/\.[^.]*$/, '');
  return name === '' || name === '-' ? 'Circuit from a wire list' : name;
}

/** `from=Pin A` and `area=5`. */
function columnsGiven(given: Args['positionals']): { byHand: ByHand; problems: readonly Problem[] } {
  const byHand: Partial<Record<WireField, string>> = {};
  const problems: Problem[] = [];
  for (const text of given) {
    const at = text.indexOf('=');
    const field = wireFields.find((f) => f.toLowerCase() === text.slice(0, Math.max(0, at)).trim().toLowerCase());
    if (field !== undefined && at < text.length - 1) {
      byHand[field] = text
        .slice(at + 1)
        .trim()
        .replace(/^"(.*)"$/, '$1');
      continue;
    }
    const near = nearNames(text.slice(0, Math.max(0, at)), wireFields);
    problems.push({
      code: 'unknown-field',
      severity: 'error',
      file: '--column',
      line: 1,
      column: 1,
      length: Math.max(1, text.length),
      what: `\`${text}\` does not say which column holds what`,
      why: 'the columns cannot be told apart',
      mend: [
        near.length > 0 ? `fields with a near name: ${near.join(', ')}` : `fields: ${wireFields.join(', ')}`,
        'write `from="Pin A"` or `from=1`',
      ],
    });
  }
  return { byHand, problems };
}
