import type { Circuit } from '../../src/circuit/circuit.ts';
import { placesOf } from '../../src/circuit/edit/places.ts';
import { idsIn, nextId, stepEdits } from '../../src/circuit/edit/steps.ts';
import { edited } from '../../src/circuit/edit/textEdit.ts';
import { type Writable, yamlFlow } from '../../src/circuit/edit/written.ts';
import type { Read } from '../../src/circuit/problem.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { TreeMemory } from '../../src/circuit/treeMemory.ts';
import { textOfBytes } from '../../src/circuit/wireList/bytesText.ts';
import { readWireList } from '../../src/circuit/wireList/readWireList.ts';
import { writeWireList } from '../../src/circuit/wireList/writeWireList.ts';
import { partKinds } from '../../src/parts/index.ts';
import { assumptions } from '../../src/report/circuitEdit/assumptions.ts';
import { completionsAt } from '../../src/report/circuitEdit/completion.ts';
import { differences } from '../../src/report/circuitEdit/difference.ts';
import { hoverAt } from '../../src/report/circuitEdit/hover.ts';
import { switchFromBench, switchFromTable } from '../../src/report/circuitEdit/keyTable.ts';
import { mendsOfAll, offsetOf } from '../../src/report/circuitEdit/mends.ts';
import { partsWritten } from '../../src/report/circuitEdit/partsWritten.ts';
import { requiredHeld, typedHeld } from '../../src/report/circuitEdit/requiredHeld.ts';
import { skeletons } from '../../src/report/circuitEdit/skeletons/skeletons.ts';
import { kindSheet } from '../../src/report/kindSheet.ts';
import { layoutOf } from '../../src/report/layout/layoutOf.ts';
import type { EditCalls } from './editCalls.ts';

/** Only what changed is read anew from one key to the next. */
const memory = new TreeMemory();
/** The text read last, so that checking and drawing the same one reads it once. */
let last: { readonly text: string; readonly read: Read<Circuit> } | undefined;
function readOf(text: string, name: string): Read<Circuit> {
  if (last?.text !== text) last = { text, read: readCircuit(text, name, partKinds, memory) };
  return last.read;
}

/** Problems that are listed with their mends; more than these nobody reads at once. */
const listed = 100;
/** Problems that get buttons. */
const mended = 20;

type Answers = { [N in keyof EditCalls]: (takes: EditCalls[N]['takes']) => EditCalls[N]['gives'] };
const answers: Answers = {
  check: ({ text, name }) => {
    const began = performance.now();
    const read = readOf(text, name);
    const shown = read.problems.slice(0, listed);
    return {
      problems: shown.map((problem) => {
        const from = offsetOf(text, problem.line, problem.column);
        return { problem, from, to: Math.min(text.length, from + problem.length), mends: [] };
      }),
      more: read.problems.length - shown.length,
      sound: read.ok,
      title: read.ok ? read.value.title : '',
      milliseconds: performance.now() - began,
    };
  },
  mends: ({ text, name }) => mendsOfAll(readOf(text, name).problems.slice(0, mended), text, partKinds),
  draw: ({ text, name }) => {
    const read = readOf(text, name);
    if (!read.ok) return null;
    const circuit = read.value;
    const parts = [...circuit.parts.values()].map((part) => ({
      id: part.id,
      name: part.name ?? '',
      what: part.kind.title,
      place: part.place ?? '',
      terminals: part.kind.terminals(part).map((t) => t.name),
      isWire: part.kind.isWire ?? false,
      isLoad: part.isLoad,
    }));
    return { layout: layoutOf(circuit), parts, assumed: assumptions(circuit).map((a) => a.text) };
  },
  complete: ({ text, offset }) => completionsAt(text, offset, partKinds, last?.read.ok ? last.read.value.parts : undefined) ?? null,
  hover: ({ text, offset }) => hoverAt(text, offset, partKinds) ?? null,
  steps: ({ text, steps }) => {
    let now = text;
    for (const [k, step] of steps.entries()) {
      const edits = stepEdits(now, step);
      if (!edits) return { text: now, failed: k };
      now = edited(now, edits);
    }
    return { text: now, failed: undefined };
  },
  kinds: () =>
    partKinds
      .filter((kind) => kind.isWire !== true)
      .map((kind) => {
        const required = Object.entries(requiredHeld(kind.kind, partKinds)).flatMap(([key, held]) =>
          key === 'kind' ? [] : [[key, typeof held === 'string' ? held : yamlFlow(held)] as const],
        );
        return { ...kindSheet(kind), required: Object.fromEntries(required) };
      }),
  terminals: ({ typed }) => {
    const [part] = partsWritten(`parts:\n  X: ${yamlFlow(heldOf(typed))}\n`, 0, partKinds).values();
    return part ? part.kind.terminals(part).map((t) => t.name) : [];
  },
  typed: ({ typed }) => heldOf(typed),
  ends: ({ text }) => {
    const parts = [...partsWritten(text, text.length, partKinds).values()];
    const places = placesOf(text);
    const ids = places ? idsIn(places) : new Set<string>();
    const what = (part: (typeof parts)[number]) => part.name ?? part.kind.title;
    const letters = [...new Set([...partKinds.map((k) => k.letter), 'J', 'W'])];
    return {
      ends: [
        ...parts.flatMap((part) => {
          const terminals = part.kind.terminals(part);
          return terminals.length === 1
            ? [{ end: part.id, what: what(part) }]
            : terminals.map((t) => ({ end: `${part.id}.${t.name}`, what: what(part) }));
        }),
        { end: 'ground', what: 'the body' },
        { end: 'block', what: 'the engine block' },
      ],
      ids: [...ids].map((id) => ({
        id,
        what: parts.find((p) => p.id === id)?.name ?? parts.find((p) => p.id === id)?.kind.title ?? 'wire',
      })),
      next: Object.fromEntries(letters.map((letter) => [letter, nextId(letter, ids)])),
    };
  },
  skeletons: () => skeletons.map(({ name, title, groups }) => ({ name, title, groups: groups.map((g) => g.name) })),
  skeleton: ({ name, without }) => {
    const skeleton = skeletons.find((s) => s.name === name);
    if (!skeleton) return '';
    const ids = skeleton.groups.filter((g) => without.includes(g.name)).flatMap((g) => g.parts);
    const edits = ids.length === 0 ? [] : (stepEdits(skeleton.text, { do: 'remove', ids }) ?? []);
    // The heading of a group that went goes with it.
    return edited(skeleton.text, edits)
      .split('\n')
      .filter((line) => !without.includes(line.replace(/^\s*# /, '')))
      .join('\n');
  },
  key: (takes) =>
    'joined' in takes
      ? { held: switchFromTable(takes.rows, takes.joined), unclear: [] }
      : switchFromBench(takes.rows, takes.terminals, takes.readings),
  import: ({ bytes, name, byHand }) => {
    const { text } = textOfBytes(bytes);
    const read = readWireList(text, name, name.replace(/\.[^.]*$/, ''), partKinds, byHand);
    const { problems, wires, leftOut, columns } = read;
    return { problems, wires, leftOut, columns: columns.map((c) => c.head), ...(read.yaml !== undefined && { yaml: read.yaml }) };
  },
  export: ({ text, style }) => writeWireList(text, style) ?? '',
  compare: ({ there, here }) => {
    const [a, b] = [readCircuit(there, 'there', partKinds), readCircuit(here, 'here', partKinds)];
    return a.ok && b.ok ? differences(a.value, b.value) : [];
  },
};

function heldOf(typed: Readonly<Record<string, string>>): { readonly [key: string]: Writable | undefined } {
  return Object.fromEntries(Object.entries(typed).flatMap(([key, text]) => (text.trim() === '' ? [] : [[key, typedHeld(text)] as const])));
}

type Asking = { readonly id: number; readonly name: keyof EditCalls; readonly takes: never };
// The DOM library types `self` as a window; this is the only line that must know better.
const port = self as unknown as { onmessage: (e: MessageEvent<Asking>) => void; postMessage: (a: unknown) => void };
port.onmessage = ({ data: { id, name, takes } }) => {
  try {
    port.postMessage({ id, ok: true, gives: answers[name](takes) });
  } catch (e) {
    port.postMessage({ id, ok: false, message: e instanceof Error ? e.message : String(e) });
  }
};
