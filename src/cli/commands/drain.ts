import type { Circuit } from '../../circuit/circuit.ts';
import type { Problem } from '../../circuit/problem.ts';
import { readQuantity } from '../../circuit/quantity.ts';
import { drainAnswer } from '../../drain/drainAnswer.ts';
import { keyOffScene } from '../../drain/keyOff.ts';
import { readFault } from '../../faults/faultPhrase.ts';
import { drainData } from '../../report/drainData.ts';
import { drainText } from '../../report/drainText.ts';
import { circuitFile } from '../circuitFile.ts';
import { type Args, type Command, printJson, sayProblems } from '../command.ts';
import { logFile } from '../logFile.ts';
import { findingsGiven, sawOption } from '../sawOptions.ts';
import { faultOption, faultsGiven, sceneGiven, withOption } from '../sceneOptions.ts';

/** Battery temperatures that are answered for, °C. */
const coldest = -40;
const hottest = 60;

export const drain: Command = {
  name: 'drain',
  usage: 'drain FILE [--fault FAULT]… [--suspect FAULT] [--saw READING]… [--log FILE.csv]',
  about: 'Key-off current, who draws it, days to no start, and what proves or rejects a suspicion',
  takes: { least: 1, most: 1 },
  options: {
    fault: faultOption,
    suspect: { type: 'string', value: 'FAULT', about: 'what is thought to draw the current, as `detent faults FILE` lists it' },
    saw: { ...sawOption, about: 'what was read: `key out: 320 mA at G1.-`, `key out: 1.2 mV from F1.1 to F1.2`' },
    with: { ...withOption, about: 'how the vehicle was left: `door open`, `S5 on`' },
    log: { type: 'string', value: 'FILE.csv', about: 'time and current of a clamp logger; the first line names them with their units' },
    ambient: { type: 'string', value: 'T', about: 'temperature of the battery: `-10 °C`; the circuit’s own unless given' },
  },
  examples: [
    {
      line: 'drain circuits/light-van.yaml',
      gives: 'who draws how much, the days to no start, a plan of readings, and the fuse-drop table to print',
    },
    {
      line: 'drain circuits/light-van.yaml --suspect "S1.30-75 stuck closed" --saw "key out: 906 mA at G1.-"',
      gives: 'what a stuck accessory contact would draw, who else fits, and the reading that decides',
    },
  ],
  run: (args, io) => {
    const file = circuitFile(args.positionals[0]!, io);
    if (sayProblems(file.problems, args, io, file.texts) !== 0 || !file.circuit) return 1;
    const air = ambientGiven(args);
    const circuit: Circuit = air.celsius === undefined ? file.circuit : { ...file.circuit, ambient: air.celsius };
    const { faults, problems: wrongFaults } = faultsGiven(args, circuit);
    const thought = args.text('suspect');
    const suspect = thought === undefined ? undefined : readFault(thought, circuit, '--suspect');
    const { findings, problems: unread } = findingsGiven(args, circuit);
    const { scene, problems: wrongScene } = sceneGiven(args, circuit);
    const log = args.text('log') === undefined ? undefined : logFile(args.text('log')!, io);
    const problems = [...air.problems, ...wrongFaults, ...(suspect?.problems ?? []), ...unread, ...wrongScene, ...(log?.problems ?? [])];
    if (sayProblems(problems, args, io, file.texts) !== 0) return 1;
    const left = keyOffScene(circuit);
    const answer = drainAnswer(circuit, {
      faults,
      findings,
      scene: { ...scene, ...(left.key && { key: left.key }) },
      ...(suspect?.ok && { suspect: suspect.value }),
      ...(log?.ok && { log: log.value }),
    });
    if (args.json) printJson(drainData(answer), io);
    else io.print(drainText(answer, io.columns));
    return 0;
  },
};

function ambientGiven(args: Args): { readonly celsius: number | undefined; readonly problems: readonly Problem[] } {
  const text = args.text('ambient');
  if (text === undefined) return { celsius: undefined, problems: [] };
  const read = readQuantity(/^[-+\d.]+$/.test(text) ? `${text} °C` : text, 'temperature');
  const problem = (what: string, mend: readonly string[]): Problem => ({
    code: 'temperature',
    severity: 'error',
    file: '--ambient',
    line: 1,
    column: 1,
    length: Math.max(1, text.length),
    what,
    why: "a battery's strength and its own loss hang on its temperature",
    mend,
  });
  if (!read.ok) return { celsius: undefined, problems: [problem(read.why, read.mend)] };
  if (read.value < coldest || read.value > hottest)
    return {
      celsius: undefined,
      problems: [problem(`${text} is outside of ${coldest} to ${hottest} °C`, [`${coldest} °C`, `${hottest} °C`])],
    };
  return { celsius: read.value, problems: [] };
}
