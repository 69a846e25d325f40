import type { Circuit } from '../../src/circuit/circuit.ts';
import { quantityText, readQuantity } from '../../src/circuit/quantity.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import type { Scene } from '../../src/circuit/scene.ts';
import { readScene, restScene, sceneText } from '../../src/circuit/scenePhrase.ts';
import { textOfBytes } from '../../src/circuit/wireList/bytesText.ts';
import { readWireList } from '../../src/circuit/wireList/readWireList.ts';
import { readFinding } from '../../src/diagnose/findingPhrase.ts';
import { findingText } from '../../src/diagnose/findingText.ts';
import { readJob } from '../../src/diagnose/jobFile.ts';
import { jobFindings } from '../../src/diagnose/jobFindings.ts';
import { LogReader } from '../../src/drain/log/readLog.ts';
import { stepsIn } from '../../src/drain/log/steps.ts';
import { changesOf } from '../../src/faults/fault.ts';
import { faultModes } from '../../src/faults/faultModes.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { partKinds } from '../../src/parts/index.ts';
import { readCondition } from '../../src/parts/moduleCondition.ts';
import { readStory } from '../../src/play/story.ts';
import { drawingSvg } from '../../src/report/drawingSvg.ts';
import { layoutOf } from '../../src/report/layout/layoutOf.ts';
import { network } from '../../src/solve/network.ts';
import { operatingPoint } from '../../src/solve/operatingPoint.ts';
import { readJobFile } from '../../web/jobFile.ts';
import { begin, step, undo } from '../../web/session/history.ts';
import { readKept } from '../../web/session/keptJob.ts';
import { linkText, readLink } from '../../web/session/link.ts';
import type { Dice } from './dice.ts';
import { mutated } from './mutated.ts';
import * as seeds from './seeds.ts';
import { unsound } from './soundness.ts';
import { storedRecord } from './storedRecord.ts';

/**
 * One sort of input. `made` gives one input; `tried` gives what is wrong with the program's answer to it, undefined when it is
 * sound, and must not throw. The same dice serve both.
 */
export type Target = {
  readonly name: string;
  /** How often it is tried among the others. */
  readonly weight: number;
  readonly made: (dice: Dice) => string;
  readonly tried: (text: string, dice: Dice) => string | undefined;
};

const from =
  (list: readonly string[], others = list) =>
  (dice: Dice) =>
    mutated(dice.pick(list), others, dice);
const anywhere: readonly string[] = [...seeds.scenePhrases, ...seeds.findingPhrases, ...seeds.faultPhrases, ...seeds.stories];

export const targets: readonly Target[] = [
  {
    name: 'circuit',
    weight: 6,
    made: (dice) => (dice.once(400) ? mutated(dice.pick(seeds.wholeCircuits), seeds.circuitTexts, dice) : from(seeds.circuitTexts)(dice)),
    tried: (text, dice) => {
      const read = readCircuit(text, 'x.yaml', partKinds);
      const why = unsound(read, text);
      if (why !== undefined || !read.ok) return why;
      return dice.once(3) ? solvedSoundly(read.value, restScene(read.value), dice) : undefined;
    },
  },
  {
    name: 'job',
    weight: 4,
    made: from(seeds.jobs, [...seeds.jobs, ...anywhere]),
    tried: (text, dice) => {
      readJobFile(text);
      const read = readJob(text, 'job.yaml');
      const why = unsound(read, text);
      if (why !== undefined || !read.ok) return why;
      const { problems } = jobFindings(read.value, dice.pick(seeds.circuits), 'job.yaml');
      return problems.length === 0 ? undefined : unsound({ ok: problems.every((p) => p.severity === 'warning'), problems }, text);
    },
  },
  {
    name: 'story',
    weight: 8,
    made: from(seeds.stories, anywhere),
    tried: (text, dice) => unsound(readStory(text, dice.pick(seeds.circuits), 'story'), text),
  },
  {
    name: 'finding',
    weight: 10,
    made: from(seeds.findingPhrases, anywhere),
    tried: (text, dice) => {
      const circuit = dice.pick(seeds.circuits);
      const read = readFinding(text, circuit);
      const why = unsound(read, text);
      if (why !== undefined || !read.ok) return why;
      for (const finding of read.value) {
        const said = findingText(finding, circuit);
        const again = readFinding(said, circuit);
        if (!again.ok) return `told as ${said}, which is refused: ${again.problems[0]?.what}`;
      }
      return undefined;
    },
  },
  {
    name: 'fault',
    weight: 10,
    made: from(seeds.faultPhrases, anywhere),
    tried: (text, dice) => {
      const circuit = dice.pick(seeds.circuits);
      const read = readFault(text, circuit);
      const why = unsound(read, text);
      if (why !== undefined || !read.ok) return why;
      const again = readFault(read.value.phrase, circuit);
      if (!again.ok) return `told as ${read.value.phrase}, which is refused: ${again.problems[0]?.what}`;
      if (!dice.once(8)) return undefined;
      return residualOf(operatingPoint(network(circuit, changesOf([read.value])), anyScene(circuit, dice)));
    },
  },
  {
    name: 'scene',
    weight: 10,
    made: from(seeds.scenePhrases, anywhere),
    tried: (text, dice) => {
      const circuit = dice.pick(seeds.circuits);
      const read = readScene(text, circuit, '--key');
      const why = unsound(read, text);
      if (why !== undefined || !read.ok) return why;
      const said = sceneText(read.value, circuit);
      const again = readScene(said, circuit, '--key');
      if (!again.ok) return `told as ${said}, which is refused: ${again.problems[0]?.what}`;
      const { apart, bridged, swapped } = read.value;
      return dice.once(10) ? residualOf(operatingPoint(network(circuit, [], { apart, bridged, swapped }), read.value)) : undefined;
    },
  },
  {
    name: 'wire list',
    weight: 5,
    made: from(seeds.wireLists, [...seeds.wireLists, ...seeds.circuitTexts]),
    tried: (text, dice) => {
      const bytes = dice.once(6) ? Uint8Array.from([...text].map((c) => c.charCodeAt(0) & 255)) : new TextEncoder().encode(text);
      const told = textOfBytes(bytes).text;
      const read = readWireList(told, 'x.csv', 'x', partKinds);
      const ok = read.yaml !== undefined;
      // Errors are rows that could not be taken; the list as a whole may still stand.
      const severities = ok ? read.problems.map((p) => ({ ...p, severity: 'warning' as const })) : read.problems;
      const why = unsound({ ok, problems: severities }, told.replace(/\r\n?/g, '\n'));
      if (why !== undefined || !ok) return why;
      if (read.leftOut > 0 && read.problems.length === 0) return 'left rows out without a word';
      return dice.once(4) ? unsound(readCircuit(read.yaml, 'x.yaml', partKinds), read.yaml) : undefined;
    },
  },
  {
    name: 'drain log',
    weight: 6,
    made: from(seeds.logs),
    tried: (text, dice) => {
      const reader = new LogReader('x.csv');
      for (let at = 0; at < text.length; ) {
        const size = 1 + dice.roll(400);
        reader.push(text.slice(at, at + size));
        at += size;
      }
      const read = reader.end();
      if (!read.ok) return unsound(read, text);
      const steps = stepsIn(read.value);
      const figures = [...steps.levels.map((l) => l.amperes), ...steps.steps.map((s) => s.to_A), steps.noise];
      return figures.every(Number.isFinite) ? unsound({ ok: true, problems: read.value.warnings }, text) : 'a level or step is no number';
    },
  },
  {
    name: 'link',
    weight: 6,
    made: from(seeds.links, [...seeds.links, ...anywhere]),
    tried: (text, dice) => {
      const link = readLink(text);
      if (!link) return undefined;
      const again = readLink(linkText(link));
      // A lone half of a sign pair has no form in an address; it comes back as the sign for the unreadable.
      if (JSON.stringify(again) !== JSON.stringify(readLink(linkText(again ?? link)))) return 'does not come back as it was';
      const circuit = dice.pick(seeds.circuits);
      for (const fault of link.faults.slice(0, 3)) {
        const why = unsound(readFault(fault, circuit), fault);
        if (why !== undefined) return why;
      }
      return unsound(readScene(link.scene, circuit, 'link'), link.scene);
    },
  },
  {
    name: 'stored job',
    weight: 6,
    made: storedRecord,
    tried: (text) => {
      let record: unknown;
      try {
        record = JSON.parse(text);
      } catch {
        record = text;
      }
      const read = readKept(record);
      if (!read.ok) {
        const { what, why, mend, text: all } = read.unread;
        return what === '' || why === '' || mend.length === 0 || all === '' ? 'a refusal without a word' : undefined;
      }
      const { job } = read.kept;
      const fresh = begin({ view: 'bench', job });
      const moved = step(fresh, { do: 'hand', part: 'S2', setting: 'on' });
      step(step(moved, { do: 'notes', notes: { vehicle: 'x' } }), { do: 'key', key: { angle: 30, came: 'up', in: true } });
      if (undo(moved).now.job !== job && moved !== fresh) return 'undo does not lead back';
      const again = readKept(JSON.parse(JSON.stringify(read.kept)));
      return again.ok ? undefined : 'what it gave is refused when it is kept again';
    },
  },
  {
    name: 'module condition',
    weight: 5,
    made: from(seeds.conditions),
    tried: (text) => {
      const read = readCondition(text);
      if (read.ok) return undefined;
      const { at, length, what, mend } = read.problem;
      if (!(at >= 0 && at <= text.length && length >= 1)) return `stands at ${at}, ${length} long`;
      return what === '' || mend === '' ? 'a refusal without a word' : undefined;
    },
  },
  {
    name: 'quantity',
    weight: 5,
    made: from(seeds.quantities),
    tried: (text, dice) => {
      const dimension = dice.pick([
        'voltage',
        'current',
        'resistance',
        'power',
        'length',
        'area',
        'angle',
        'time',
        'temperature',
        'charge',
        'share',
      ] as const);
      const read = readQuantity(text, dimension);
      if (!read.ok) return JSON.stringify(read.why).length < 4 ? 'a refusal without a word' : undefined;
      if (!Number.isFinite(read.value)) return `${read.value} is no quantity`;
      const again = readQuantity(quantityText(read.value, dimension, 17), dimension);
      return again.ok ? undefined : `told as ${quantityText(read.value, dimension, 17)}, which is refused`;
    },
  },
];

function anyScene(circuit: Circuit, dice: Dice): Scene {
  const rest = restScene(circuit);
  if (!rest.key) return rest;
  return {
    ...rest,
    key: { angle: dice.roll(95), came: dice.pick(['up', 'back']), in: true },
    engine: dice.pick(['stopped', 'cranking', 'running']),
  };
}

/** A circuit that was accepted must solve, list its faults, and be drawn. */
function solvedSoundly(circuit: Circuit, scene: Scene, dice: Dice): string | undefined {
  const why = residualOf(operatingPoint(network(circuit), dice.once(2) ? scene : anyScene(circuit, dice)));
  if (why !== undefined) return why;
  const modes = faultModes(circuit);
  if (modes.length > 0) {
    const { part, mode } = dice.pick(modes);
    const changes = mode.changes(mode.detail?.default ?? 1).map((change) => ({ part, change }));
    const faulty = residualOf(operatingPoint(network(circuit, changes), scene));
    if (faulty !== undefined) return `${mode.subject} ${mode.words}: ${faulty}`;
  }
  if (dice.once(4)) {
    const svg = drawingSvg(layoutOf(circuit), { title: circuit.title, line: '', words: [] });
    if (/NaN|undefined|<script/i.test(svg)) return 'draws what is no number';
  }
  return undefined;
}

function residualOf(at: ReturnType<typeof operatingPoint>): string | undefined {
  for (const volts of at.nodeVolts) if (!Number.isFinite(volts)) return `a node stands at ${volts} V`;
  // 1 is the word for an ideal current that has no way back.
  return at.residual <= 1e-9 || at.residual === 1 ? undefined : `residual ${at.residual}`;
}
