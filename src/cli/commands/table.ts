import { worldsOf } from '../../faults/fault.ts';
import { positionTableData, positionTableText } from '../../report/positionTableText.ts';
import { positionTable } from '../../solve/positionTable.ts';
import { circuitFile } from '../circuitFile.ts';
import { type Command, printJson, sayProblems } from '../command.ts';
import { faultOption, faultsGiven, sceneGiven, withOption } from '../sceneOptions.ts';

export const table: Command = {
  name: 'table',
  usage: 'table FILE [--fault FAULT]… [--with HAND]… [--between]',
  about: 'Every load in every key position, and what differs from the healthy circuit',
  takes: { least: 1, most: 1 },
  options: {
    fault: faultOption,
    with: withOption,
    between: { type: 'boolean', about: 'also the stretches between two detents, with their angles' },
  },
  examples: [
    { line: 'table circuits/light-van.yaml', gives: 'the healthy position table' },
    {
      line: 'table circuits/light-van.yaml --fault "S1.30-15 open at ON" --between',
      gives: 'the same with a dead spot at ON: changed cells marked, and what the driver would notice',
    },
  ],
  run: (args, io) => {
    const { circuit, problems, texts } = circuitFile(args.positionals[0]!, io);
    if (sayProblems(problems, args, io, texts) !== 0 || !circuit) return 1;
    const { faults, problems: wrongFaults } = faultsGiven(args, circuit);
    const { scene, problems: wrongScene } = sceneGiven(args, circuit);
    if (sayProblems([...wrongFaults, ...wrongScene], args, io) !== 0) return 1;
    const { hand, apart, bridged, swapped } = scene;
    const result = positionTable(circuit, worldsOf(faults), { hand, setup: { apart, bridged, swapped }, between: args.flag('between') });
    const phrases = faults.map((f) => f.phrase);
    if (args.json) printJson(positionTableData(circuit.title, phrases, result), io);
    else io.print(positionTableText(circuit.title, phrases, result, io.columns));
    return 0;
  },
};
