import { nearNames } from '../../circuit/nearNames.ts';
import { changesOf } from '../../faults/fault.ts';
import { traceData, traceText } from '../../report/traceView.ts';
import { loadsOf } from '../../solve/loads.ts';
import { network } from '../../solve/network.ts';
import { operatingPoint } from '../../solve/operatingPoint.ts';
import { circuitFile } from '../circuitFile.ts';
import { type Command, printJson, sayProblems } from '../command.ts';
import { faultOption, faultsGiven, keyOption, sceneGiven, withOption } from '../sceneOptions.ts';

export const trace: Command = {
  name: 'trace',
  usage: 'trace FILE [--key KEY] [--fault FAULT]… [--with HAND]… [--load L] [--network]',
  about: 'Volts, amperes, feed and return of the loads in one scene',
  takes: { least: 1, most: 1 },
  options: {
    key: keyOption,
    fault: faultOption,
    with: withOption,
    load: { type: 'string', value: 'L', about: 'one load: the volts along its feed and its return' },
    network: { type: 'boolean', about: 'with --json: the linear network at the solution, for solving it again elsewhere' },
  },
  examples: [
    { line: 'trace circuits/light-van.yaml --key ON --load T1', gives: "the way of the ignition coil's current, with the volts along it" },
    { line: 'trace circuits/light-van.yaml --key START --json --network', gives: 'everything in that scene as data' },
  ],
  run: (args, io) => {
    const { circuit, problems, texts } = circuitFile(args.positionals[0]!, io);
    if (sayProblems(problems, args, io, texts) !== 0 || !circuit) return 1;
    const { faults, problems: wrongFaults } = faultsGiven(args, circuit);
    const { scene, problems: wrongScene } = sceneGiven(args, circuit);
    const load = args.text('load');
    const loads = loadsOf(circuit.parts.values()).map((p) => p.id);
    const wrongLoad =
      load === undefined || loads.includes(load)
        ? []
        : [
            {
              code: 'unknown-load',
              severity: 'error' as const,
              file: '--load',
              line: 1,
              column: 1,
              length: load.length,
              what: `\`${load}\` is no load of this circuit`,
              why: 'only a load has a feed and a return',
              mend: nearNames(load, loads).length > 0 ? nearNames(load, loads) : loads.slice(0, 8),
            },
          ];
    if (sayProblems([...wrongFaults, ...wrongScene, ...wrongLoad], args, io) !== 0) return 1;
    const { apart, bridged, swapped } = scene;
    const setup = { apart, bridged, swapped };
    const at = operatingPoint(network(circuit, changesOf(faults), setup), scene);
    const healthy = faults.length === 0 ? at : operatingPoint(network(circuit, [], setup), scene);
    if (args.json) printJson(traceData(at, healthy, args.flag('network')), io);
    else io.print(traceText(at, healthy, load, io.columns));
    return 0;
  },
};
