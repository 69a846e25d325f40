import { textTable, wrapped } from '../report/textTable.ts';
import type { Command } from './command.ts';
import { optionsOf } from './commandLine.ts';

/** The page of `detent --help`. */
export function helpAll(commands: readonly Command[], columns: number): string {
  const rows = commands.map((c) => [c.usage, c.about]);
  return [
    'Detent: which loads get power in every key position, which fault explains what was seen, and the reading that proves it.',
    '',
    textTable({ head: ['detent …', 'gives'], rows, wraps: [0, 1] }, columns),
    '',
    '`detent COMMAND --help` shows a command with its options and two worked lines. Every command takes `--json`.',
    'Exit: 0 done, 1 the circuit or the input has problems, 2 the command line is wrong.',
    'Results are an aid: the maker’s instructions, local rules and a qualified person have the last word.',
  ]
    .flatMap((line) => (line.includes('\n') ? [line] : wrapped(line, columns)))
    .join('\n');
}

/** The page of one command. */
export function helpOf(command: Command, columns: number): string {
  const options = Object.entries(optionsOf(command)).map(([name, o]) => [
    `${o.short ? `-${o.short}, ` : ''}--${name}${o.type === 'string' ? ` ${o.value ?? 'TEXT'}` : ''}`,
    o.multiple ? `${o.about}; may be given several times` : o.about,
  ]);
  return [
    ...wrapped(`detent ${command.usage}`, columns),
    '',
    ...wrapped(command.about, columns),
    '',
    textTable({ head: ['option', 'meaning'], rows: options, wraps: [1] }, columns),
    '',
    'Worked lines:',
    ...command.examples.flatMap((e) => [`  detent ${e.line}`, ...wrapped(e.gives, columns - 6).map((line) => `      ${line}`)]),
  ].join('\n');
}
