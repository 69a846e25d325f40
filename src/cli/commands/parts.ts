import { nearNames } from '../../circuit/nearNames.ts';
import { partKinds } from '../../parts/index.ts';
import { kindSheet } from '../../report/kindSheet.ts';
import { textTable, wrapped } from '../../report/textTable.ts';
import { type Command, printJson, sayProblems } from '../command.ts';
import { told } from '../commandLine.ts';

export const parts: Command = {
  name: 'parts',
  usage: 'parts [KIND]',
  about: 'The kinds of parts that a circuit file can name; with KIND all of its parameters, units, defaults and sources',
  takes: { least: 0, most: 1 },
  examples: [
    { line: 'parts', gives: 'one line per kind' },
    { line: 'parts relay', gives: 'terminals and parameters of a relay, each default with its source' },
  ],
  run: (args, io) => {
    const [name] = args.positionals;
    if (name === undefined) {
      if (args.json) printJson({ kinds: partKinds.map(kindSheet) }, io);
      else {
        const rows = partKinds.map((k) => [k.kind, k.about]).sort(([a = ''], [b = '']) => (a < b ? -1 : 1));
        io.print(textTable({ head: ['kind', 'what it is'], rows, wraps: [1] }, io.columns));
      }
      return 0;
    }
    const kind = partKinds.find((k) => k.kind === name);
    if (!kind) {
      const near = nearNames(
        name,
        partKinds.map((k) => k.kind),
      );
      const mend =
        near.length > 0 ? `kinds with a near name: ${near.map((n) => `\`${n}\``).join(', ')}` : '`detent parts` lists every kind';
      return sayProblems(
        [told('unknown-kind', { column: 'detent parts '.length + 1, length: name.length }, `no kind of part is named \`${name}\``, [mend])],
        args,
        io,
        new Map([['command line', `detent parts ${name}`]]),
      );
    }
    const sheet = kindSheet(kind);
    if (args.json) printJson(sheet, io);
    else {
      const line = (head: string, text: string) =>
        wrapped(text, io.columns - 11).map((piece, k) => (k === 0 ? head.padEnd(11) : ' '.repeat(11)) + piece);
      const terminals = sheet.terminals.map((t) => (t.about ? `${t.name} (${t.about})` : t.name)).join(', ');
      io.print(
        [
          `${sheet.kind}: ${sheet.title}`,
          ...wrapped(sheet.about, io.columns),
          '',
          ...line('terminals', terminals === '' ? 'as its parameters say' : terminals),
          ...(sheet.settings.length > 0 ? line('settings', `${sheet.settings.join(', ')} (at rest: ${sheet.settings[0]})`) : []),
          ...line('load', sheet.load ? 'yes, unless the file says `load: no`' : 'no'),
          '',
        ].join('\n'),
      );
      const rows = sheet.parameters.map((p) => [
        p.name,
        p.written,
        p.default === undefined ? (p.required ? 'must be given' : '') : p.default,
        [p.about, p.source ? `(${p.source})` : ''].join(' ').trim(),
      ]);
      io.print(
        textTable({ head: ['parameter', 'written', 'default', 'meaning (source of the default)'], rows, wraps: [1, 2, 3] }, io.columns),
      );
      io.print(`\nBesides, every part takes ${sheet.common.map((c) => `\`${c}\``).join(', ')}.`);
    }
    return 0;
  },
};
