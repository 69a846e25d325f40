import { type Opening, openingOf } from '../../circuit/opening.ts';
import type { Problem } from '../../circuit/problem.ts';
import { sizeOf } from '../../report/libraryCard.ts';
import { problemCount, problemText, visible } from '../../report/problemText.ts';
import { wrapped } from '../../report/textTable.ts';
import { circuitFile } from '../circuitFile.ts';
import { type Command, printJson } from '../command.ts';
import type { Io } from '../io.ts';
import { jobCheck } from '../jobCheck.ts';

/** What `check` says of one file; the shape of its JSON. */
export type FileReport = {
  readonly file: string;
  readonly title: string;
  readonly parts: number;
  readonly wires: number;
  readonly problems: readonly Problem[];
  /** Of a circuit: its `about`, and what the comment that it opens with says. */
  readonly about?: string;
} & Partial<Opening>;
/** A sort of file that can be checked. The first that `takes` the text checks it. */
export type FileCheck = {
  readonly takes: (text: string) => boolean;
  readonly report: (path: string, io: Io) => { readonly report: FileReport; readonly texts: ReadonlyMap<string, string> };
};

const circuitCheck: FileCheck = {
  takes: () => true,
  report: (path, io) => {
    const { circuit, problems, texts } = circuitFile(path, io);
    const size = circuit ? sizeOf(circuit) : { parts: 0, wires: 0 };
    const said = circuit && { about: circuit.about ?? '', ...openingOf(texts.get(path) ?? '') };
    return { report: { file: path, title: circuit?.title ?? '', ...size, problems, ...said }, texts };
  },
};

/** Sorts of files, special ones first. */
const checks: readonly FileCheck[] = [jobCheck, circuitCheck];

export const check: Command = {
  name: 'check',
  usage: 'check FILE…',
  about: 'What circuit files hold and teach, and their problems, each with its place, what it costs and how to mend it',
  takes: { least: 1 },
  examples: [
    { line: 'check circuits/light-van.yaml', gives: 'says `no problems`, or each problem with its line; exit 1 when there is one' },
    { line: 'check circuits/*.yaml --json', gives: 'the same as data, one entry per file' },
  ],
  run: (args, io) => {
    const reports = args.positionals.map((path) => {
      const file = io.readFile(path);
      const sort = file.ok ? checks.find((c) => c.takes(file.value)) : undefined;
      return (sort ?? circuitCheck).report(path, io);
    });
    if (args.json) printJson({ files: reports.map(({ report }) => report) }, io);
    else for (const { report, texts } of reports) sayReport(report, texts, io);
    return reports.some(({ report }) => report.problems.some((p) => p.severity === 'error')) ? 1 : 0;
  },
};

function sayReport(report: FileReport, texts: ReadonlyMap<string, string>, io: Io): void {
  for (const problem of report.problems) io.print(`${problemText(problem, texts.get(problem.file), { colour: io.colour })}\n`);
  const holds = report.title === '' ? '' : `${report.title}: ${report.parts} parts, ${report.wires} wires: `;
  io.print(`${visible(report.file)}: ${visible(holds)}${problemCount(report.problems)}`);
  for (const [word, text = ''] of [
    ['', report.about],
    ['Teaches: ', report.teaches],
    ['Key-off current: ', report.keyOff],
  ] as const)
    if (text !== '')
      io.print(
        wrapped(visible(word + text.replace(/\s+/g, ' ').trim()), io.columns - 2)
          .map((l) => `  ${l}`)
          .join('\n'),
      );
}
