import * as v from 'valibot';
import type { Circuit, Engine } from './circuit.ts';
import { readHand } from './handPhrase.ts';
import { checkId, isIdForm } from './ids.ts';
import { nodeAt, tellIssues } from './issueProblem.ts';
import { nearNames } from './nearNames.ts';
import type { Part, PartKind } from './part.ts';
import { type Placed, type PlacedMap, plainData, type Span, spanAt, type Tell } from './placed.ts';
import type { Read } from './problem.ts';
import { readPart } from './readPart.ts';
import { readWires } from './readWires.ts';
import { type EngineWritten, engineShape, fileShape } from './shape.ts';
import { ticked } from './wires.ts';
import { checkWiring } from './wiringCheck.ts';
import { yamlTree } from './yamlTree.ts';

/** Most parts read from one file. */
export const partsLimit = 20_000;
const top = fileShape(v.unknown(), v.unknown());

/**
 * Reads a circuit from YAML or JSON. Never throws on any text; tells every problem at once, one per cause, in the order
 * of the file. Warnings leave the circuit readable.
 *
 * @param file  name for messages, as the caller knows the file
 * @param kinds the kinds of parts known, of which one is the wire
 * Cost: near linear; most of it is the YAML library; 20 000 parts take a few seconds.
 */
export function readCircuit(text: string, file: string, kinds: readonly PartKind[]): Read<Circuit> {
  const { root, problems, tell, lineOf } = yamlTree(text, file);
  const circuit = root === undefined ? nothing(problems.length === 0, tell) : circuitFrom(root, kinds, tell, lineOf);
  const isSound = () => problems.every((p) => p.severity === 'warning');
  if (circuit && root && isSound()) tellNeeds(circuit, root, tell);
  problems.sort((a, b) => a.line - b.line || a.column - b.column);
  return circuit && isSound() ? { ok: true, value: circuit, problems } : { ok: false, problems };
}

function nothing(isEmpty: boolean, tell: Tell): undefined {
  if (isEmpty)
    tell(
      { start: 0, end: 1 },
      {
        code: 'empty-file',
        what: 'the file holds nothing',
        why: 'there is no circuit to read',
        mend: ['begin with `title: …` and `parts:`'],
      },
    );
}

function circuitFrom(root: Placed, kinds: readonly PartKind[], tell: Tell, lineOf: (offset: number) => number): Circuit | undefined {
  if (root.is !== 'map') {
    tell(root.span, {
      code: 'not-a-circuit',
      what: `the file holds ${root.is === 'list' ? 'a list' : 'a text'}, not a circuit`,
      why: 'there is no circuit to read',
      mend: ['begin with `title: …` and `parts:`'],
    });
    return undefined;
  }
  if (root.entries.has('circuit') && !root.entries.has('parts')) {
    tell(root.entries.get('circuit')!.keySpan, {
      code: 'job-file',
      what: 'this is a job file: it names a circuit and is none',
      why: 'a circuit is wanted here',
      mend: ['give the file that its `circuit:` names'],
    });
    return undefined;
  }
  const parsed = v.safeParse(top, plainData(root));
  if (!parsed.success) tellIssues(parsed.issues, { root, about: '', why: whyOfHead }, tell);
  const head = parsed.success ? parsed.output : undefined;

  const spans = new Map<string, Span>();
  const { parts, faulty, unread } = readParts(root, kinds, spans, tell);
  const isFaulty = (id: string) => unread || faulty.has(id) || isMisnamed(id, faulty);
  const board = { parts, isFaulty, terminalsOf: terminalLists() };
  const wires = readWires(nodeAt(root, ['wires']), wireKindOf(kinds), board, { spans, lineOf }, tell);
  // Apart from the head, so that a missing title does not hide an engine that names no part.
  const engineNode = root.entries.get('engine')?.node;
  const written = engineNode ? v.safeParse(engineShape, plainData(engineNode)) : undefined;
  const engine = written?.success ? readEngine(written.output, root, parts, isFaulty, tell) : undefined;
  const circuit: Circuit = {
    title: head?.title ?? '',
    ...(head?.about === undefined ? {} : { about: head.about }),
    ambient: head?.ambient ?? 20,
    cautions: head?.cautions ?? [],
    parts: new Map([...parts, ...wires.parts]),
    attached: wires.attached,
    ...(engine ? { engine } : {}),
  };
  tellKeySwitches(parts, spans, tell);
  checkWiring(
    circuit,
    {
      unread: unread || wires.unread,
      openAt: wires.openAt,
      named: wires.named,
      spanOf: (id) => spans.get(id) ?? { start: 0, end: 1 },
      top: root.entries.get('parts')?.keySpan ?? { start: 0, end: 1 },
    },
    tell,
  );
  return circuit;
}

function wireKindOf(kinds: readonly PartKind[]): PartKind {
  const kind = kinds.find((k) => k.isWire === true);
  if (!kind) throw new Error('the list of kinds has no wire');
  return kind;
}

/** Terminal names by part, found once each. */
function terminalLists(): (part: Part) => readonly string[] {
  const lists = new Map<Part, readonly string[]>();
  return (part) => {
    const known = lists.get(part);
    if (known) return known;
    const fresh = part.kind.terminals(part).map((t) => t.name);
    lists.set(part, fresh);
    return fresh;
  };
}

const whys: Readonly<Record<string, string>> = {
  title: 'tables, drawings and job sheets take their heading from it',
  ambient: 'the resistance of every wire hangs on it',
  parts: 'without parts there is nothing to compute',
  wires: 'without wires nothing has a feed or a return',
  engine: 'whether the engine cranks and runs cannot be told',
};
function whyOfHead(key: string | undefined): string {
  return (key !== undefined && Object.hasOwn(whys, key) ? whys[key] : undefined) ?? 'what is meant there would count for nothing';
}

/** Whether a part that could have no id, `S2.a` or `S 2`, was most likely meant: then its own message says enough. */
function isMisnamed(id: string, faulty: ReadonlySet<string>): boolean {
  for (const name of faulty) if (!isIdForm(name) && nearNames(id, [name]).length > 0) return true;
  return false;
}

type PartsRead = { readonly parts: Map<string, Part>; readonly faulty: Set<string>; readonly unread: boolean };

function readParts(root: PlacedMap, kinds: readonly PartKind[], spans: Map<string, Span>, tell: Tell): PartsRead {
  const parts = new Map<string, Part>();
  const faulty = new Set<string>();
  const entry = root.entries.get('parts');
  if (entry?.node.is !== 'map') {
    // A list passes for a map with the keys 0, 1, 2 in the schema.
    if (entry?.node.is === 'list')
      tell(entry.keySpan, {
        code: 'wrong-shape',
        what: 'parts: a list stands where a map is wanted',
        why: whyOfHead('parts'),
        mend: ['write each part as its id, a colon, and the part: `F1: { kind: fuse, rating: 10 A }`'],
      });
    return { parts, faulty, unread: true };
  }
  const { node } = entry;
  if (node.entries.size > partsLimit) {
    tell(entry.keySpan, {
      code: 'too-many-parts',
      what: `the circuit has ${node.entries.size} parts; up to ${partsLimit} are read`,
      why: 'circuits over 20 000 parts are not computed',
      mend: ['split the circuit'],
    });
    return { parts, faulty, unread: true };
  }
  if (node.entries.size === 0 && !node.told)
    tell(entry.keySpan, {
      code: 'no-parts',
      what: 'the map of parts is empty',
      why: whyOfHead('parts'),
      mend: ['write `F1: { kind: fuse, rating: 10 A }`'],
    });
  const byName = new Map(kinds.map((k) => [k.kind, k]));
  for (const entry of node.entries.values()) {
    spans.set(entry.key, entry.keySpan);
    const part = checkId(entry.key, entry.keySpan, tell) ? readPart(entry, byName, tell) : undefined;
    if (part) parts.set(part.id, part);
    else faulty.add(entry.key);
  }
  return { parts, faulty, unread: false };
}

function readEngine(
  written: EngineWritten,
  root: Placed,
  parts: ReadonlyMap<string, Part>,
  isFaulty: (id: string) => boolean,
  tell: Tell,
): Engine {
  const look = (id: string, path: readonly PropertyKey[], role: string) => {
    if (parts.has(id) || isFaulty(id)) return id;
    const near = nearNames(id, parts.keys());
    tell(spanAt(root, ['engine', ...path]), {
      code: 'unknown-part',
      what: `${role} of the engine is \`${id}\`, and no part has that id`,
      why: 'whether the engine cranks and runs cannot be told',
      mend: near.length > 0 ? [`parts with a near name: ${ticked(near)}`] : ['name the id of a part of this file'],
    });
    return id;
  };
  const each = (key: 'spark' | 'fuel' | 'stops' | 'drives') => {
    const isList = nodeAt(root, ['engine', key])?.is === 'list';
    return (written[key] ?? []).map((id, k) => look(id, isList ? [key, k] : [key], key));
  };
  return {
    crank: look(written.crank, ['crank'], 'crank'),
    spark: each('spark'),
    fuel: each('fuel'),
    ...(written.stops === undefined ? {} : { stops: each('stops') }),
    drives: each('drives'),
  };
}

/** The hand phrases of `with` are read once the circuit stands, since they name its parts and their settings. */
function tellNeeds(circuit: Circuit, root: Placed, tell: Tell): void {
  for (const part of circuit.parts.values()) {
    for (const [k, phrase] of (part.needs ?? []).entries()) {
      const read = readHand(phrase, circuit, '');
      const path = ['parts', part.id, 'with'];
      const at = nodeAt(root, path)?.is === 'list' ? spanAt(root, [...path, k]) : spanAt(root, path);
      if (!read.ok) for (const { code, what, why, mend } of read.problems) tell(at, { code, what, why, mend });
    }
  }
}

function tellKeySwitches(parts: ReadonlyMap<string, Part>, spans: ReadonlyMap<string, Span>, tell: Tell): void {
  const [first, second] = [...parts.values()].filter((p) => p.kind.key);
  if (first && second)
    tell(spans.get(second.id) ?? { start: 0, end: 1 }, {
      code: 'two-key-switches',
      what: `${second.id} is a second key switch, beside ${first.id}`,
      why: 'key positions could mean either of them',
      mend: [`write ${second.id} as a \`multi-switch\`, or put its contacts into ${first.id}`],
    });
}
