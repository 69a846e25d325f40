import * as v from 'valibot';
import { checkId } from './ids.ts';
import { tellIssues } from './issueProblem.ts';
import type { Part, PartKind } from './part.ts';
import { type Placed, type PlacedMap, plainData, type Span, spanAt, type Tell } from './placed.ts';
import { partFrom, type Written } from './readPart.ts';
import { shapesOf } from './shape.ts';
import type { TreeMemory } from './treeMemory.ts';
import { type Board, type Fastened, idFromEnds, stretches, type WireWritten } from './wires.ts';

/** Ids given so far, with where they stand. */
export type Taken = {
  readonly spans: Map<string, Span>;
  readonly lineOf: (offset: number) => number;
  readonly memory?: TreeMemory | undefined;
};

export type WiresRead = {
  readonly parts: ReadonlyMap<string, Part>;
  readonly attached: readonly (readonly [string, string])[];
  /** Terminals whose wire leads to a place that could not be looked up. */
  readonly openAt: ReadonlySet<string>;
  /** Parts that a told wire end named or nearly named. */
  readonly named: ReadonlySet<string>;
  /** An end is not known at all, so any terminal may be meant. */
  readonly unread: boolean;
};
type Sink = { readonly openAt: Set<string>; readonly named: Set<string>; unread: boolean; readonly tell: Tell };

/** Reads the list of wires, gives ids to those without, splits those that pass connectors, and fastens their ends. */
export function readWires(list: Placed | undefined, kind: PartKind, board: Board, taken: Taken, tell: Tell): WiresRead {
  const { spans } = taken;
  const parts = new Map<string, Part>();
  const attached: (readonly [string, string])[] = [];
  const sink: Sink = { openAt: new Set(), named: new Set(), unread: list !== undefined && list.is !== 'list', tell };
  const items = list?.is === 'list' ? list.items : [];
  const drafts = items.flatMap((item, k) => draft(item, k, kind, sink, taken.memory));
  const idsGiven = new Set(drafts.flatMap((d) => (d.wire.id === undefined ? [] : [d.wire.id])));
  const lastOf = new Map<string, number>();
  const isTaken = (id: string) => spans.has(id) || parts.has(id) || idsGiven.has(id);

  for (const { wire, written, node } of drafts) {
    const id = wire.id ?? idFromEnds(wire.from, wire.to, isTaken, lastOf);
    if (wire.id !== undefined && !isFree(wire.id, spanAt(node, ['id']), taken, tell)) {
      leaveOpen(node, sink);
      continue;
    }
    spans.set(id, wire.span);
    const sections = stretches(id, wire, board, (at, problem) => {
      for (const end of [wire.from, wire.to, ...wire.via]) sink.named.add(end.split('.', 1)[0] ?? '');
      for (const mend of problem.mend) for (const match of mend.matchAll(/`([^`.]+)/g)) sink.named.add(match[1] ?? '');
      if (problem.code === 'unknown-pin' || problem.code === 'wire-to-itself') sink.unread = true;
      tell(at, problem);
    });
    const whole = partFrom(id, kind, written, node, { key: id, keySpan: wire.span, node }, tell, nameOf(node, wire.id));
    if (!whole) continue;
    for (const section of sections) {
      if (section.id !== id && isTaken(section.id)) tell(wire.span, duplicate(section.id, `a section of ${id} between its connectors`));
      parts.set(section.id, { ...shared(whole, section.share), id: section.id });
      spans.set(section.id, wire.span);
      fasten(`${section.id}.1`, section.from, attached, sink);
      fasten(`${section.id}.2`, section.to, attached, sink);
    }
  }
  return { parts, attached, openAt: sink.openAt, named: sink.named, unread: sink.unread };
}

function fasten(end: string, place: Fastened, attached: (readonly [string, string])[], { openAt }: Sink): void {
  if ('terminal' in place) attached.push([end, place.terminal]);
  else openAt.add(end);
}

/** What a faulty wire would have fastened is not loose: its problem was told. */
function leaveOpen(node: Placed, sink: Sink): void {
  const ends = node.is === 'map' ? ['from', 'to', 'via'].map((key) => textsIn(node.entries.get(key)?.node)) : [[], []];
  if (ends[0]!.length === 0 || ends[1]!.length === 0) sink.unread = true;
  for (const end of ends.flat()) sink.openAt.add(end).add(`${end}a`).add(`${end}b`);
  // An end without a terminal names the only one of its part.
  for (const end of ends.flat()) if (!end.includes('.')) sink.named.add(end);
}

/** The section's share of the length; sections are otherwise like the whole. */
function shared(part: Part, share: number): Part {
  const length = part.params['length'];
  return share === 1 || typeof length !== 'number' ? part : { ...part, params: { ...part.params, length: length * share } };
}

function isFree(id: string, at: Span, taken: Taken, tell: Tell): boolean {
  if (!checkId(id, at, tell)) return false;
  const first = taken.spans.get(id);
  if (!first) return true;
  tell(at, duplicate(id, 'this wire', taken.lineOf(first.start)));
  return false;
}

function duplicate(id: string, what: string, line?: number): Parameters<Tell>[1] {
  return {
    code: 'duplicate-id',
    what: `the id \`${id}\` of ${what} is taken already${line === undefined ? '' : `, on line ${line}`}`,
    why: 'faults and findings that name it could mean either of them',
    mend: ['choose another id', 'or leave the id out: a wire without one is named by its ends'],
  };
}

type Draft = { readonly wire: WireWritten; readonly written: Written; readonly node: PlacedMap };

function draft(item: Placed, k: number, kind: PartKind, sink: Sink, memory: TreeMemory | undefined): readonly Draft[] {
  const { tell } = sink;
  const written = item.is === 'map' ? item.entries.get('id')?.node : undefined;
  const about = nameOf(item, written?.is === 'text' && written.text !== '' ? written.text : undefined, k);
  const why = 'what hangs on this wire would seem to have no feed or no return';
  if (item.is !== 'map') {
    tell(item.span, {
      code: 'wrong-shape',
      what: `${about}: ${item.is === 'list' ? 'a list' : 'a text'} stands where a map is wanted`,
      why,
      mend: ['write `- { from: F1.2, to: H1.1 }`'],
    });
    sink.unread = true;
    return [];
  }
  const whole: Span = item.span;
  const parse = () => v.safeParse(shapesOf(kind).wire, plainData(item));
  const result = memory ? memory.of(item, parse, () => true) : parse();
  if (!result.success) {
    tellIssues(
      result.issues,
      {
        root: item,
        about,
        why: (key) => (key === 'area' || key === 'length' ? 'the drop along this wire cannot be computed' : why),
        hint: `\`detent parts ${kind.kind}\` lists the keys of a wire`,
      },
      (at, problem) => tell(at.end === at.start ? whole : at, problem),
    );
    leaveOpen(item, sink);
    return [];
  }
  const output = result.output as Written & { id?: string; from: string; to: string; via?: readonly string[] };
  const viaNode = item.entries.get('via')?.node;
  const wire: WireWritten = {
    id: output.id,
    from: output.from,
    to: output.to,
    via: output.via ?? [],
    span: written?.span ?? { start: whole.start, end: whole.end },
    fromSpan: spanAt(item, ['from']),
    toSpan: spanAt(item, ['to']),
    viaSpans: viaNode?.is === 'list' ? viaNode.items.map((i) => i.span) : viaNode ? [viaNode.span] : [],
  };
  return [{ wire, written: output, node: item }];
}

/** A wire in a sentence: by its id, else by its ends, else by its place in the list. */
function nameOf(item: Placed, id: string | undefined, k = 0): string {
  if (id !== undefined) return `wire ${id}`;
  const [from, to] = item.is === 'map' ? ['from', 'to'].map((key) => textsIn(item.entries.get(key)?.node)[0]) : [];
  return from && to ? `the wire from ${from} to ${to}` : `wire no. ${k + 1}`;
}

function textsIn(node: Placed | undefined): readonly string[] {
  if (node?.is === 'text') return [node.text];
  return node?.is === 'list' ? node.items.flatMap(textsIn) : [];
}
