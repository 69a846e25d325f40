import { existsSync, readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Separator } from '../../circuit/wireList/csv.ts';
import { writeWireList } from '../../circuit/wireList/writeWireList.ts';
import { circuitFile } from '../circuitFile.ts';
import { type Args, type Command, type Exit, printJson, sayProblems } from '../command.ts';
import type { Io } from '../io.ts';

/** Beside the built command line: dist/single. */
const built = fileURLToPath(new URL('../../../single/index.html', import.meta.url));
const signs: Readonly<Record<string, Separator>> = { comma: ',', semicolon: ';', tab: '\t' };

export const exportList: Command = {
  name: 'export',
  usage: 'export FILE --csv|--html [--separator comma|semicolon|tab] [--decimal-comma] [-o FILE]',
  about: 'A circuit as a table for a spreadsheet, which `import` makes the same circuit of again, or as one page with everything inside',
  takes: { least: 1, most: 1 },
  options: {
    csv: { type: 'boolean', about: 'a table with separated cells; so it is unless said otherwise' },
    html: { type: 'boolean', about: 'the whole program in one page that opens with this circuit, to hand on as a file' },
    separator: { type: 'string', value: 'comma|semicolon|tab', about: 'what parts the cells; comma unless said' },
    'decimal-comma': { type: 'boolean', about: 'write 0,75 in place of 0.75' },
    output: { type: 'string', short: 'o', value: 'FILE', about: 'where to write it; without it, to the standard output' },
  },
  examples: [
    { line: 'export circuits/light-van.yaml --csv -o wires.csv', gives: 'the wire list of the light van' },
    { line: 'export mine.yaml --html -o mine.html', gives: 'a page that works without a network and shows this circuit' },
    { line: 'export circuits/truck.yaml --csv --separator semicolon --decimal-comma', gives: 'the same as spreadsheets in Europe read it' },
  ],
  run: (args, io) => {
    const path = args.positionals[0]!;
    const { circuit, problems, texts } = circuitFile(path, io);
    if (!circuit) return sayProblems(problems, args, io, texts);
    if (args.flag('html')) return page(basename(path), texts.get(path) ?? '', args, io);
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

/** The page with the circuit in a block of data, which no browser runs; `<` is written so that nothing in a file can end it. */
function page(name: string, text: string, args: Args, io: Io): Exit {
  if (!existsSync(built))
    return sayProblems(
      [
        {
          code: 'web-not-built',
          severity: 'error',
          file: 'export',
          line: 1,
          column: 1,
          length: 1,
          what: 'the page is not built yet',
          why: 'there is nothing to put the circuit into',
          mend: ['run `npm run build` in the checkout, then this again'],
        },
      ],
      args,
      io,
    );
  const data = JSON.stringify({ name, text }).replaceAll('<', '\\u003c');
  // Behind the first tag of the head, which says how the page is written: the program's own text, further down, may hold any tag.
  const block = `<script type="application/json" id="circuit-inside">${data}</script>`;
  const whole = readFileSync(built, 'utf8').replace(/<meta charset=[^>]*>/, (first) => first + block);
  const output = args.text('output');
  if (output !== undefined) return sayProblems(io.writeFile(output, whole).problems, args, io);
  io.print(whole);
  return 0;
}
