import { nearNames } from '../../circuit/nearNames.ts';
import type { Problem } from '../../circuit/problem.ts';
import { changesOf } from '../../faults/fault.ts';
import { drawingSvg } from '../../report/drawingSvg.ts';
import { layoutOf } from '../../report/layout/layoutOf.ts';
import { momentOf } from '../../report/moment.ts';
import { pathWords } from '../../report/pathWords.ts';
import { sceneLine } from '../../report/sceneLine.ts';
import { loadsOf } from '../../solve/loads.ts';
import { network } from '../../solve/network.ts';
import { operatingPoint } from '../../solve/operatingPoint.ts';
import { circuitFile } from '../circuitFile.ts';
import { type Command, printJson, sayProblems } from '../command.ts';
import { faultOption, faultsGiven, keyOption, sceneGiven, withOption } from '../sceneOptions.ts';

export const draw: Command = {
  name: 'draw',
  usage: 'draw FILE [--key KEY] [--fault FAULT]… [--with HAND]… [--load L] [-o FILE.svg]',
  about: 'The drawing as SVG, with potentials, currents and faults',
  takes: { least: 1, most: 1 },
  options: {
    key: keyOption,
    fault: faultOption,
    with: withOption,
    load: { type: 'string', value: 'L', about: "this load's feed and return stand out" },
    plain: { type: 'boolean', about: 'plain ink: wiring alone, for print' },
    theme: { type: 'string', value: 'light|dark', about: 'one of the two; without it the drawing follows its reader' },
    output: { type: 'string', short: 'o', value: 'FILE.svg', about: 'where to write it; without it, to the standard output' },
  },
  examples: [
    { line: 'draw circuits/light-van.yaml --key ON -o van.svg', gives: 'the light van with the key at ON' },
    { line: 'draw circuits/bench-board.yaml --plain > board.svg', gives: 'the wiring alone' },
  ],
  run: (args, io) => {
    const { circuit, problems, texts } = circuitFile(args.positionals[0]!, io);
    if (sayProblems(problems, args, io, texts) !== 0 || !circuit) return 1;
    const { faults, problems: wrongFaults } = faultsGiven(args, circuit);
    const { scene, problems: wrongScene } = sceneGiven(args, circuit);
    const load = args.text('load');
    const theme = args.text('theme');
    const loads = loadsOf(circuit.parts.values()).map((p) => p.id);
    const wrongWords = [
      ...notOneOf('--load', load, loads, 'unknown-load', 'only a load has a feed and a return'),
      ...notOneOf('--theme', theme, ['light', 'dark'], 'unknown-theme', 'the drawing cannot know which colours are meant'),
    ];
    if (sayProblems([...wrongFaults, ...wrongScene, ...wrongWords], args, io) !== 0) return 1;
    const { apart, bridged, swapped } = scene;
    const setup = { apart, bridged, swapped };
    const faulty = network(circuit, changesOf(faults), setup);
    const moment = momentOf(faulty, faults.length === 0 ? faulty : network(circuit, [], setup), scene, load);
    const layout = layoutOf(circuit);
    if (args.json) {
      printJson({ ...layout, labels: layout.labels.map(({ text, role, of, box }) => ({ text, role, of, box })) }, io);
      return 0;
    }
    const svg = drawingSvg(layout, {
      title: circuit.title,
      line: sceneLine(circuit, scene),
      words: pathWords(operatingPoint(faulty, scene)),
      moment,
      neutral: args.flag('plain'),
      showing: faults.length === 0 ? 'faulty' : 'difference',
      faults: faults.map((f) => ({ subject: f.mode.subject, words: f.mode.words, part: f.part, text: f.mode.text, phrase: f.phrase })),
      names: new Map([...circuit.parts.values()].map((p) => [p.id, p.name ?? p.kind.title])),
      ...((theme === 'light' || theme === 'dark') && { theme }),
    });
    const path = args.text('output');
    if (path === undefined) {
      io.print(svg.trimEnd());
      return 0;
    }
    return sayProblems(io.writeFile(path, svg).problems, args, io) === 0 ? 0 : 1;
  },
};

function notOneOf(option: string, word: string | undefined, words: readonly string[], code: string, why: string): readonly Problem[] {
  if (word === undefined || words.includes(word)) return [];
  const near = nearNames(word, words);
  const what = `\`${word}\` is none of those that \`${option}\` takes`;
  return [
    {
      code,
      severity: 'error',
      file: option,
      line: 1,
      column: 1,
      length: Math.max(1, word.length),
      what,
      why,
      mend: near.length > 0 ? near : words.slice(0, 8),
    },
  ];
}
