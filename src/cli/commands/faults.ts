import { pieceOf } from '../../circuit/phrasePiece.ts';
import { partAt, piecesOf } from '../../circuit/placePhrase.ts';
import { faultsOf } from '../../faults/faultModes.ts';
import { textTable, wrapped } from '../../report/textTable.ts';
import { circuitFile } from '../circuitFile.ts';
import { type Command, printJson, sayProblems } from '../command.ts';
import { typedLine } from '../commandLine.ts';

export const faults: Command = {
  name: 'faults',
  usage: 'faults FILE [PART]',
  about: 'Every fault that can be put into a circuit, as `--fault` takes it; with PART those of one part or wire',
  takes: { least: 1, most: 2 },
  examples: [
    { line: 'faults circuits/light-van.yaml S1', gives: 'the faults of the key switch, contact by contact' },
    { line: 'faults circuits/light-van.yaml --json', gives: 'all of them as data, each with its weight and where the weight comes from' },
  ],
  run: (args, io) => {
    const [path = '', word] = args.positionals;
    const { circuit, problems, texts } = circuitFile(path, io);
    const exit = sayProblems(problems, args, io, texts);
    if (!circuit) return exit;
    const cut = word === undefined ? [] : [...piecesOf(word, circuit)];
    if (word !== undefined && cut.length === 0) {
      const line = typedLine(['faults', ...args.positionals]);
      const part = partAt(pieceOf(word, 'command line', line.length - word.length + 1), circuit);
      if (!part.ok) return sayProblems(part.problems, args, io, new Map([['command line', line]]));
      cut.push(part.value.id);
    }
    const rows = word === undefined ? faultsOf(circuit) : cut.flatMap((id) => faultsOf(circuit, id));
    if (args.json) printJson({ faults: rows }, io);
    else if (rows.length === 0) io.print(`${cut.join(', ')} has no fault of its own; its joints fail with the wires that end there.`);
    else {
      const table = {
        head: ['fault', 'what it is', 'weight'],
        rows: rows.map((r) => [r.fault, r.text, r.weight.toPrecision(2)]),
        wraps: [1],
        right: [2],
      };
      io.print(textTable(table, io.columns));
      const wires = 'Besides these, any wire end can be put on any terminal: `W9.2 on R1.1`. Weight 1 is an ordinary wire breaking.';
      io.print(
        ['', `${rows.length} faults. A figure may be any other of its kind.`, wires].flatMap((l) => wrapped(l, io.columns)).join('\n'),
      );
    }
    return exit;
  },
};
