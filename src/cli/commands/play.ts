import { nearNames } from '../../circuit/nearNames.ts';
import type { Problem } from '../../circuit/problem.ts';
import { putOf } from '../../faults/putOf.ts';
import { play as playStory } from '../../play/play.ts';
import { readStory } from '../../play/story.ts';
import { playData } from '../../report/playData.ts';
import { playSvg } from '../../report/playSvg.ts';
import { playText } from '../../report/playText.ts';
import { playView } from '../../report/playView.ts';
import { circuitFile } from '../circuitFile.ts';
import { type Args, type Command, printJson, sayProblems } from '../command.ts';
import type { Io } from '../io.ts';
import { faultOption, faultsGiven } from '../sceneOptions.ts';

export const play: Command = {
  name: 'play',
  usage: 'play FILE STORY [--fault FAULT]… [--seed N] [--show TERMINAL]… [--svg FILE.svg]',
  about: 'A story of the key over time: events, and a strip for every load',
  takes: { least: 2, most: 2 },
  options: {
    fault: faultOption,
    seed: { type: 'string', value: 'N', about: 'seed for faults that come and go; the same seed plays the same story; 1 without it' },
    show: {
      type: 'string',
      multiple: true,
      value: 'TERMINAL',
      about: 'a terminal whose volts the chart shows as well',
    },
    svg: { type: 'string', value: 'FILE.svg', about: 'write the strip chart there as well' },
  },
  examples: [
    {
      line: 'play circuits/light-van.yaml "LOCK, ON 2 s, START 1.5 s, release 5 s" --fault "S1.30-15 open at ON"',
      gives: 'starts, and dies when the key springs back',
    },
    {
      line: 'play circuits/light-van.yaml "key out 21 days" --fault "S1.30-75 stuck closed" --svg drain.svg',
      gives: 'the day on which the battery is flat, and the chart of it',
    },
  ],
  run: (args, io) => {
    const { circuit, problems, texts } = circuitFile(args.positionals[0]!, io);
    if (sayProblems(problems, args, io, texts) !== 0 || !circuit) return 1;
    const { file, text, problems: unread } = storyGiven(args.positionals[1]!, io);
    if (sayProblems(unread, args, io) !== 0) return 1;
    const story = readStory(text, circuit, file);
    const { faults, problems: wrongFaults } = faultsGiven(args, circuit);
    const shown = args.texts('show');
    const terminals = [...circuit.parts.values()].flatMap((p) => p.kind.terminals(p).map((t) => `${p.id}.${t.name}`));
    const wrong = [...story.problems, ...wrongFaults, ...wrongSeed(args), ...shown.flatMap((t) => wrongTerminal(t, terminals))];
    const phrases = new Map([[file, text], ...args.texts('fault').map((f): [string, string] => ['--fault', f])]);
    if (sayProblems(wrong, args, io, phrases) !== 0 || !story.ok) return 1;
    const played = playStory(circuit, story.value, putOf(faults), Number(args.text('seed') ?? 1));
    const view = playView(played, circuit, shown);
    const said = faults.map((f) => f.phrase);
    const svg = args.text('svg');
    if (svg !== undefined && sayProblems(io.writeFile(svg, playSvg(view, { faults: said })).problems, args, io) !== 0) return 1;
    if (args.json) printJson(playData(played, view, said), io);
    else io.print(playText(view, said, io.columns));
    return 0;
  },
};

/** A story is a line, or the name of a file that holds it: one that ends in a suffix, or `-`. */
function storyGiven(given: string, io: Io): { readonly file: string; readonly text: string; readonly problems: readonly Problem[] } {
  if (given !== '-' && !/\.[a-z]{1,5}$/i.test(given)) return { file: 'STORY', text: given, problems: [] };
  const read = io.readFile(given);
  return { file: given, text: read.ok ? read.value : '', problems: read.problems };
}

function problemOf(file: string, word: string, code: string, what: string, why: string, mend: readonly string[]): Problem {
  return { code, severity: 'error', file, line: 1, column: 1, length: Math.max(1, word.length), what, why, mend };
}

function wrongSeed(args: Args): readonly Problem[] {
  const seed = args.text('seed');
  if (seed === undefined || (/^-?\d{1,9}$/.test(seed) && Number.isSafeInteger(Number(seed)))) return [];
  return [problemOf('--seed', seed, 'seed-not-a-number', `\`${seed}\` is no seed`, 'a seed is a whole number', ['--seed 1'])];
}

function wrongTerminal(terminal: string, terminals: readonly string[]): readonly Problem[] {
  if (terminals.includes(terminal)) return [];
  const near = nearNames(terminal, terminals);
  const what = `\`${terminal}\` is no terminal of this circuit`;
  const mend = near.length > 0 ? near : terminals.slice(0, 4);
  return [problemOf('--show', terminal, 'unknown-terminal', what, 'its volts cannot be shown', mend)];
}
