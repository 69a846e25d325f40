import type { Circuit } from '../src/circuit/circuit.ts';
import { keySwitchOf } from '../src/circuit/keySwitchOf.ts';
import type { Read } from '../src/circuit/problem.ts';
import { readCircuit } from '../src/circuit/readCircuit.ts';
import { readScene, restScene, sceneText } from '../src/circuit/scenePhrase.ts';
import { clashes } from '../src/faults/clashes.ts';
import { changesOf, type Fault, worldsOf } from '../src/faults/fault.ts';
import { faultsOf } from '../src/faults/faultModes.ts';
import { readFault } from '../src/faults/faultPhrase.ts';
import { partKinds } from '../src/parts/index.ts';
import { play } from '../src/play/play.ts';
import { readStory } from '../src/play/story.ts';
import { keySectors } from '../src/report/keySectors.ts';
import type { Layout } from '../src/report/layout/layout.ts';
import { layoutOf } from '../src/report/layout/layoutOf.ts';
import { engineNext, handSettings, keyReleased, momentOf } from '../src/report/moment.ts';
import { partsAround } from '../src/report/partsAround.ts';
import { pathWords } from '../src/report/pathWords.ts';
import { noReading, readingText } from '../src/report/readingText.ts';
import { sceneLine } from '../src/report/sceneLine.ts';
import { storyFault } from '../src/report/storyFault.ts';
import { storyLoads } from '../src/report/storyLoads.ts';
import { stripOf } from '../src/report/strip.ts';
import { wayDown } from '../src/report/wayDown.ts';
import { ammeter, clamp, lineAt, ohmmeter, testLamp, voltmeter } from '../src/solve/instruments.ts';
import { type Network, network, type Setup } from '../src/solve/network.ts';
import { operatingPoint } from '../src/solve/operatingPoint.ts';
import { positionTable } from '../src/solve/positionTable.ts';
import type { Answer, Asking, Calls, CircuitSeen, FaultIn, Name } from './calls.ts';
import { jobFile, readJobFile } from './jobFile.ts';
import { libraryHeads, libraryText } from './library.ts';
import type { CircuitChoice } from './session/session.ts';

const textOf = async (choice: CircuitChoice): Promise<string> => (choice.from === 'file' ? choice.text : await libraryText(choice.name));
const fileOf = (choice: CircuitChoice): string => (choice.from === 'file' ? choice.name : `${choice.name}.yaml`);

/** Circuits read so far, the newest last; a few are enough, since a job has one. */
const read = new Map<string, Read<Circuit>>();
async function circuitOf(choice: CircuitChoice): Promise<Read<Circuit>> {
  const text = await textOf(choice);
  const key = `${fileOf(choice)}\n${text}`;
  const known = read.get(key);
  if (known) return known;
  const fresh = readCircuit(text, fileOf(choice), partKinds);
  read.set(key, fresh);
  if (read.size > 6) read.delete(read.keys().next().value!);
  return fresh;
}

/** The page asks figures only of a circuit that was read without errors. */
async function sound(choice: CircuitChoice): Promise<Circuit> {
  const circuit = await circuitOf(choice);
  if (!circuit.ok) throw new Error(`${fileOf(choice)} has problems; it cannot be solved`);
  return circuit.value;
}

/** Networks by faults and setup, for the circuit in use: laying out costs more than solving. */
const nets = new WeakMap<Circuit, Map<string, Network>>();
function netOf(circuit: Circuit, faults: readonly string[], setup: Setup): Network {
  const own = nets.get(circuit) ?? new Map<string, Network>();
  nets.set(circuit, own);
  const key = JSON.stringify([faults, setup.apart, setup.bridged, setup.swapped]);
  const known = own.get(key);
  if (known) return known;
  const net = network(circuit, changesOf(faultsIn(circuit, faults)), setup);
  own.set(key, net);
  if (own.size > 12) own.delete(own.keys().next().value!);
  return net;
}

function faultsIn(circuit: Circuit, phrases: readonly string[]): readonly Fault[] {
  return phrases.flatMap((phrase) => {
    const fault = readFault(phrase, circuit);
    return fault.ok ? [fault.value] : [];
  });
}

/** px that fit beside the key column on a usual desktop, and how narrow and wide tracks may be. */
const widthAtOnce = 1012;
const narrowest = 60;
const widest = 92;

/** All tracks; a little narrower where that spares scrolling. */
function wholeOf(circuit: Circuit): Layout {
  const usual = layoutOf(circuit);
  if (usual.width <= widthAtOnce || usual.width > 1.1 * widthAtOnce) return usual;
  const narrow = layoutOf(circuit, { pitch: narrowest });
  return narrow.width <= widthAtOnce ? narrow : usual;
}

/** What the first sight of a large circuit shows; undefined when all of it fits, or when it has no engine. */
function storyOf(circuit: Circuit, whole: Layout): Layout | undefined {
  if (whole.width <= widthAtOnce) return undefined;
  const { first, more } = storyLoads(circuit);
  if (first.length === 0) return undefined;
  const drawn = (many: number, pitch = narrowest) =>
    layoutOf(circuit, { only: partsAround(circuit, [...first, ...more.slice(0, many)]), pitch });
  let [best, some, tooMany]: [Layout, number, number] = [drawn(0), 0, more.length + 1];
  if (best.width > widthAtOnce) return best.width < 0.8 * whole.width ? best : undefined;
  // The most loads whose tracks still fit, by halves: a drawing costs some 10 ms.
  while (tooMany - some > 1) {
    const many = Math.floor((some + tooMany) / 2);
    const layout = drawn(many);
    if (layout.width <= widthAtOnce) [best, some] = [layout, many];
    else tooMany = many;
  }
  const gutter = 84;
  const room = Math.floor((narrowest * (widthAtOnce - gutter)) / (best.width - gutter));
  return room > narrowest + 2 ? drawn(some, Math.min(widest, room)) : best;
}

function circuitSeen(circuit: Circuit): CircuitSeen {
  const layout = wholeOf(circuit);
  const story = storyOf(circuit, layout);
  const key = keySwitchOf(circuit);
  return {
    title: circuit.title,
    about: circuit.about ?? '',
    cautions: circuit.cautions,
    parts: [...circuit.parts.values()].map((part) => ({
      id: part.id,
      name: part.name ?? '',
      what: part.kind.title,
      place: part.place ?? '',
      terminals: part.kind.terminals(part).map((t) => t.name),
      isWire: part.kind.isWire ?? false,
      isLoad: part.isLoad,
    })),
    ...(key && {
      key: {
        id: key.part.id,
        positions: key.model.positions.map(({ name, angle, keyOut, springsTo }) => ({
          name,
          angle,
          keyOut,
          ...(springsTo !== undefined && { springsTo }),
        })),
      },
    }),
    switches: handSettings(circuit),
    hasEngine: circuit.engine !== undefined,
    rest: restScene(circuit),
    layout,
    ...(story && { story }),
    faults: faultsOf(circuit).map(({ fault, part, text }) => ({ phrase: fault, part, text })),
  };
}

const answers: { [N in Name]: (takes: Calls[N]['takes']) => Calls[N]['gives'] | Promise<Calls[N]['gives']> } = {
  library: () => libraryHeads,
  circuit: async ({ choice }) => {
    const circuit = await circuitOf(choice);
    return { text: await textOf(choice), problems: circuit.problems, ...(circuit.ok && { circuit: circuitSeen(circuit.value) }) };
  },
  first: async ({ choice }) => storyFault(await sound(choice)) ?? null,
  layout: async ({ choice, loads }) => {
    const circuit = await sound(choice);
    return layoutOf(circuit, { only: partsAround(circuit, loads) });
  },
  words: async ({ choice, faults, scene }) => pathWords(operatingPoint(netOf(await sound(choice), faults, scene), scene)),
  play: async ({ choice, faults, story, seed }) => {
    const circuit = await sound(choice);
    const steps = readStory(story, circuit, 'story');
    if (!steps.ok) return { problems: steps.problems };
    const put = faultsIn(circuit, faults);
    const sometimes = put.filter((f) => f.mode.sometimes).map((f) => ({ share: f.detail, changes: changesOf([f]) }));
    const always = changesOf(put.filter((f) => !f.mode.sometimes));
    return { strip: stripOf(play(circuit, steps.value, { changes: always, sometimes }, seed), circuit), problems: steps.problems };
  },
  way: async ({ choice, faults, scene, load }) => {
    const circuit = await sound(choice);
    const healthy = operatingPoint(netOf(circuit, [], scene), scene);
    return wayDown(operatingPoint(netOf(circuit, faults, scene), scene), healthy, load) ?? null;
  },
  'job-file': async ({ job }) => jobFile(job, await textOf(job.circuit)),
  'read-job': ({ text }) => readJobFile(text) ?? null,
  table: async ({ choice, faults, between, hand, apart, bridged, swapped }) => {
    const circuit = await sound(choice);
    const setup = { apart, bridged, swapped };
    const put = faultsIn(circuit, faults);
    const table = positionTable(circuit, worldsOf(put), { between, hand, setup });
    const sectors = keySectors(netOf(circuit, faults, setup), netOf(circuit, [], { apart: [], bridged: [], swapped: [] }));
    return { table, sectors, faults: faults.map((phrase) => faultSeen(phrase, circuit)), problems: clashes(put) };
  },
  moment: async ({ choice, faults, scene, load }) => {
    const circuit = await sound(choice);
    const begun = performance.now();
    const moment = momentOf(netOf(circuit, faults, scene), netOf(circuit, [], scene), scene, load);
    return { moment, line: sceneLine(circuit, scene), words: sceneText(scene, circuit), milliseconds: performance.now() - begun };
  },
  engine: async ({ choice, faults, scene }) => engineNext(netOf(await sound(choice), faults, scene), scene),
  reading: async ({ choice, faults, scene, meter }) => {
    const circuit = await sound(choice);
    const bench = { circuit, changes: changesOf(faultsIn(circuit, faults)), scene };
    const { instrument, red, black } = meter;
    if (instrument === 'clamp') return red === undefined ? noReading('Put the clamp round a wire.') : readingText(clamp(bench, red));
    if (instrument === 'amperes') {
      const line = red === undefined ? undefined : lineAt(circuit, red);
      if (line === undefined) return noReading('An ammeter goes in line: choose the wire or fuse that it opens.');
      return readingText(ammeter(bench, line));
    }
    if (red === undefined || black === undefined) return noReading('Both leads need a terminal.');
    if (instrument === 'jumper') {
      const bridged = scene.bridged.findIndex(([a, b]) => a === red && b === black);
      return bridged < 0
        ? noReading('The jumper hangs beside it. Bridge to join the two terminals.')
        : readingText(clamp(bench, `jumper${bridged + 1}`));
    }
    const read = { volts: voltmeter, 'test lamp': testLamp, ohms: ohmmeter }[instrument];
    return readingText(read(bench, red, black));
  },
  release: async ({ choice, faults, key }) => keyReleased(netOf(await sound(choice), faults, { apart: [], bridged: [], swapped: [] }), key),
  scene: async ({ choice, words }) => {
    const circuit = await circuitOf(choice);
    if (!circuit.ok) return { problems: circuit.problems };
    const scene = words === '' ? undefined : readScene(words, circuit.value, 'link');
    return { problems: scene?.problems ?? [], ...(scene?.ok && { scene: scene.value }) };
  },
};

function faultSeen(phrase: string, circuit: Circuit): FaultIn {
  const read = readFault(phrase, circuit);
  if (read.ok) {
    const { part, mode, detail } = read.value;
    const { subject, words, text } = mode;
    return { phrase, subject, words, part, text, ...(mode.detail && { detail: { ...mode.detail, now: detail } }) };
  }
  const problem = read.problems[0];
  return { phrase, subject: phrase, words: '', part: '', text: problem?.what ?? '', ...(problem && { problem }) };
}

// The DOM library types `self` as a window; this is the only line that must know better.
const port = self as unknown as { onmessage: (e: MessageEvent<Asking>) => void; postMessage: (a: Answer) => void };
port.onmessage = async ({ data: { id, name, takes } }) => {
  try {
    port.postMessage({ id, ok: true, gives: await answers[name](takes as never) });
  } catch (e) {
    port.postMessage({ id, ok: false, message: e instanceof Error ? e.message : String(e) });
  }
};
