import type { Circuit } from '../src/circuit/circuit.ts';
import { keySwitchOf } from '../src/circuit/keySwitchOf.ts';
import { unpackedTree } from '../src/circuit/packedTree.ts';
import { type PlacedFile, placedFile } from '../src/circuit/placedFile.ts';
import type { Read } from '../src/circuit/problem.ts';
import { readPlaced } from '../src/circuit/readPlaced.ts';
import { readScene, restScene, sceneText } from '../src/circuit/scenePhrase.ts';
import { clashes } from '../src/faults/clashes.ts';
import { changesOf, type Fault, worldsOf } from '../src/faults/fault.ts';
import { faultsOf } from '../src/faults/faultModes.ts';
import type { readFault } from '../src/faults/faultPhrase.ts';
import { partKinds } from '../src/parts/index.ts';
import { keySectors } from '../src/report/keySectors.ts';
import { engineNext, handSettings, keyReleased, momentOf } from '../src/report/moment.ts';
import { sceneLine } from '../src/report/sceneLine.ts';
import { storyFault } from '../src/report/storyFault.ts';
import { type Network, network, type Setup } from '../src/solve/network.ts';
import { operatingPoint } from '../src/solve/operatingPoint.ts';
import { positionTable } from '../src/solve/positionTable.ts';
import type { Answer, Asking, Calls, CircuitSeen, FaultIn, Name } from './calls.ts';
import { fittedOf, widthAtOnce } from './firstSight.ts';
import { libraryCircuit, libraryHeads } from './library.ts';
import type { CircuitChoice } from './session/session.ts';

const fileOf = (choice: CircuitChoice): string => (choice.from === 'file' ? choice.name : `${choice.name}.yaml`);

/** The parser is fetched for circuits of one's own alone: those of the library come read. */
async function placedOf(choice: CircuitChoice): Promise<PlacedFile & { readonly text: string }> {
  const file = fileOf(choice);
  if (choice.from === 'file') {
    const { yamlTree } = await import('../src/circuit/yamlTree.ts');
    return { text: choice.text, ...yamlTree(choice.text, file) };
  }
  const circuit = await libraryCircuit(choice.name);
  const text = circuit?.text ?? '';
  return { text, ...placedFile(text, file, circuit && unpackedTree(circuit.tree, text)) };
}

type ReadText = { readonly text: string; readonly circuit: Read<Circuit> };
/** Circuits read so far, the newest last; a few are enough, since a job has one. */
const read = new Map<string, ReadText>();
async function circuitOf(choice: CircuitChoice): Promise<ReadText> {
  const key = choice.from === 'file' ? `${choice.name}\n${choice.text}` : choice.name;
  const known = read.get(key);
  if (known) return known;
  const { text, ...placed } = await placedOf(choice);
  const fresh = { text, circuit: readPlaced(placed, partKinds) };
  read.set(key, fresh);
  if (read.size > 6) read.delete(read.keys().next().value!);
  return fresh;
}

/** The page asks figures only of a circuit that was read without errors. */
async function sound(choice: CircuitChoice): Promise<Circuit> {
  const { circuit } = await circuitOf(choice);
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

/** Who reads the phrases of faults: fetched with the first question that brings one, since the first picture has none. */
let faultReader: { readonly readFault: typeof readFault } | undefined;
const reads = async (takes: unknown): Promise<void> => {
  const { faults } = (takes ?? {}) as { readonly faults?: unknown };
  if (Array.isArray(faults) && faults.length > 0) faultReader ??= await import('../src/faults/faultPhrase.ts');
};

function faultsIn(circuit: Circuit, phrases: readonly string[]): readonly Fault[] {
  return phrases.flatMap((phrase) => {
    const fault = faultReader!.readFault(phrase, circuit);
    return fault.ok ? [fault.value] : [];
  });
}

async function circuitSeen(circuit: Circuit): Promise<CircuitSeen> {
  const layout = fittedOf(circuit);
  const large = layout.width > widthAtOnce ? (await import('./largeCircuit.ts')).largeSeen(circuit, layout) : {};
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
    ...large,
    faults: faultsOf(circuit).map(({ fault, part, text }) => ({ phrase: fault, part, text })),
  };
}

const answers: { [N in Name]: (takes: Calls[N]['takes']) => Calls[N]['gives'] | Promise<Calls[N]['gives']> } = {
  library: () => libraryHeads,
  circuit: async ({ choice }) => {
    const { text, circuit } = await circuitOf(choice);
    return { text, problems: circuit.problems, ...(circuit.ok && { circuit: await circuitSeen(circuit.value) }) };
  },
  first: async ({ choice }) => storyFault(await sound(choice)) ?? null,
  layout: async ({ choice, loads }) => {
    const circuit = await sound(choice);
    return (await import('./largeCircuit.ts')).onlyOf(circuit, loads);
  },
  words: async ({ choice, faults, scene }) => {
    const { pathWords } = await import('../src/report/pathWords.ts');
    return pathWords(operatingPoint(netOf(await sound(choice), faults, scene), scene));
  },
  play: async ({ choice, faults, story, seed }) => {
    const circuit = await sound(choice);
    const { storyStrip } = await import('./storyStrip.ts');
    return storyStrip(circuit, faultsIn(circuit, faults), story, seed);
  },
  way: async ({ choice, faults, scene, load }) => {
    const circuit = await sound(choice);
    const { wayDown } = await import('../src/report/wayDown.ts');
    const healthy = operatingPoint(netOf(circuit, [], scene), scene);
    return wayDown(operatingPoint(netOf(circuit, faults, scene), scene), healthy, load) ?? null;
  },
  'job-file': async ({ job }) => {
    const { jobFile } = await import('./jobFile.ts');
    return jobFile(job, (await circuitOf(job.circuit)).text);
  },
  'read-job': async ({ text }) => {
    const { readJobFile } = await import('./jobFile.ts');
    return readJobFile(text) ?? null;
  },
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
    const { meterReading } = await import('./meterReading.ts');
    return meterReading(bench, meter);
  },
  release: async ({ choice, faults, key }) => keyReleased(netOf(await sound(choice), faults, { apart: [], bridged: [], swapped: [] }), key),
  scene: async ({ choice, words }) => {
    const { circuit } = await circuitOf(choice);
    if (!circuit.ok) return { problems: circuit.problems };
    const scene = words === '' ? undefined : readScene(words, circuit.value, 'link');
    return { problems: scene?.problems ?? [], ...(scene?.ok && { scene: scene.value }) };
  },
};

function faultSeen(phrase: string, circuit: Circuit): FaultIn {
  const read = faultReader!.readFault(phrase, circuit);
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
    await reads(takes);
    port.postMessage({ id, ok: true, gives: await answers[name](takes as never) });
  } catch (e) {
    port.postMessage({ id, ok: false, message: e instanceof Error ? e.message : String(e) });
  }
};
