import { BLOCK, type Circuit, GROUND } from './circuit.ts';
import type { Element } from './element.ts';
import type { Part } from './part.ts';
import type { Span, Tell } from './placed.ts';
import { ticked } from './wires.ts';

/** What the file left open: terminals that an unreadable wire may have meant, ids whose part was not read, and where each id stands. */
export type LeftOpen = {
  /** Fastenings that could not be looked up exist. */
  readonly wiresOpen: boolean;
  /** Terminals that a wire with an unreadable end leads to: whatever is behind them counts as fed. */
  readonly openAt: ReadonlySet<string>;
  /** Ids of parts that a message already named; their terminals are not called loose as well. */
  readonly named: ReadonlySet<string>;
  readonly spanOf: (id: string) => Span;
};

/**
 * Problems of the wiring as a whole: loops of exact sources, terminals and parts that nothing is fastened to, loads
 * that no supply reaches, no supply at all. All of it is topology, answered exactly; an open switch is a way.
 */
export function checkWiring(circuit: Circuit, open: LeftOpen, tell: Tell): void {
  const sets = new Sets();
  for (const [end, terminal] of circuit.attached) sets.join(end, terminal);
  const elements = [...circuit.parts.values()].map((part) => ({ part, list: elementsOf(part, circuit.ambient) }));
  tellSourceLoops(elements, sets, open, tell);
  const loose = tellLoose(circuit, open, tell);
  tellUnreached(circuit, elements, loose, open, tell);
}

type Own = { readonly part: Part; readonly list: readonly Element[] };

function elementsOf(part: Part, ambient: number): readonly Element[] {
  const setting = part.kind.settings?.(part)[0] ?? '';
  return part.kind.elements(part, { key: undefined, setting, engine: 'stopped', ambient, state: part.kind.initial?.(part) ?? {} });
}

function global(part: Part, terminal: string): string {
  return terminal === GROUND || terminal === BLOCK ? terminal : `${part.id}.${terminal}`;
}

/** A source without resistance whose two ends are one point already: whatever flows round the loop, nothing decides how much. */
function tellSourceLoops(elements: readonly Own[], joined: Sets, open: LeftOpen, tell: Tell): void {
  const ideal = joined.copy();
  for (const { part, list } of elements)
    for (const e of list) if ('from' in e && 'ohm' in e && e.ohm === 0) ideal.join(global(part, e.from), global(part, e.to));
  for (const { part, list } of elements) {
    for (const e of list) {
      if (!('plus' in e) || e.ohm !== 0) continue;
      if (ideal.join(global(part, e.plus), global(part, e.minus))) continue;
      tell(open.spanOf(part.id), {
        code: 'source-loop',
        what: `${part.id} closes a loop of supplies and joints without any resistance`,
        why: 'nothing in the loop limits its current, so there is no answer to compute',
        mend: [`give ${part.id} a \`resistance\`, such as \`0.01 Ω\``, 'or give a wire of the loop its `area` and `length`'],
      });
    }
  }
}

/** Terminals that nothing is fastened to; a part with none of them fastened is told once. */
function tellLoose(circuit: Circuit, open: LeftOpen, tell: Tell): ReadonlySet<string> {
  const used = new Set(circuit.attached.map(([, terminal]) => terminal));
  const wireOwned = new Set(circuit.attached.map(([end]) => end));
  const loose = new Set<string>();
  for (const part of circuit.parts.values()) {
    const terminals = part.kind.terminals(part);
    const ends = new Set(terminals.map((t) => t.name));
    const isFastened = (name: string) =>
      used.has(`${part.id}.${name}`) || wireOwned.has(`${part.id}.${name}`) || open.openAt.has(`${part.id}.${name}`);
    const bare = terminals.filter((t) => !isFastened(t.name));
    for (const t of bare) loose.add(`${part.id}.${t.name}`);
    if (bare.length === 0 || open.named.has(part.id)) continue;
    if (bare.length === terminals.length) {
      tell(open.spanOf(part.id), {
        severity: 'warning',
        code: 'loose-part',
        what: `no wire is fastened to ${part.kind.title} ${part.id}`,
        why: 'it takes no part in any answer',
        mend: [`fasten wires to ${ticked(terminals.slice(0, 6).map((t) => `${part.id}.${t.name}`))}`, 'or leave the part out'],
      });
      continue;
    }
    // Both ends of a piece bare: a spare pin or a spare contact, as vehicles have them.
    const spare = new Set(
      part.kind
        .poles(part)
        .flatMap((p) => (ends.has(p.from) && ends.has(p.to) && !isFastened(p.from) && !isFastened(p.to) ? [p.from, p.to] : [])),
    );
    const meant = bare.filter((t) => t.optional !== true && !spare.has(t.name));
    if (meant.length === 0) continue;
    tell(open.spanOf(part.id), {
      severity: 'warning',
      code: 'loose-terminal',
      what: `no wire is fastened to ${ticked(meant.map((t) => `${part.id}.${t.name}`))}`,
      why: 'no current passes there; a wire may have been left out of the file',
      mend: [`add the wire that the diagram shows at ${meant.length === 1 ? 'this terminal' : 'these terminals'}`],
    });
  }
  return loose;
}

function tellUnreached(circuit: Circuit, elements: readonly Own[], loose: ReadonlySet<string>, open: LeftOpen, tell: Tell): void {
  const sources = elements.flatMap(({ part, list }) => [
    ...(part.kind.supply?.(part) ?? []).map((t) => global(part, t)),
    ...list.flatMap((e) =>
      'plus' in e ? [global(part, e.plus), global(part, e.minus)] : 'into' in e ? [global(part, e.into), global(part, e.outOf)] : [],
    ),
  ]);
  if (sources.length === 0 && !open.wiresOpen) {
    tell(
      { start: 0, end: 1 },
      {
        severity: 'warning',
        code: 'no-supply',
        what: 'the circuit has neither a battery nor another supply',
        why: 'every load is dead in every key position',
        mend: ['add a part such as `G1: { kind: battery }`'],
      },
    );
    return;
  }
  const sets = new Sets();
  for (const [end, terminal] of circuit.attached) sets.join(end, terminal);
  for (const { part, list } of elements) for (const e of list) if (!part.isLoad) sets.join(...endsOf(part, e));
  // Two loads in series reach the supply through each other, so the loads of others count as a way.
  const all = sets.copy();
  for (const { part, list } of elements) for (const e of list) if (part.isLoad) all.join(...endsOf(part, e));
  const fed = new Set([...sources, ...open.openAt].map((t) => all.root(t)));
  for (const part of circuit.parts.values()) {
    const ends = part.isLoad ? part.kind.loadEnds?.(part) : undefined;
    if (!ends || open.named.has(part.id)) continue;
    const terminals = ends.map((t) => global(part, t));
    if (terminals.some((t) => loose.has(t))) continue;
    const lost = terminals.filter((t) => !fed.has(all.root(t)));
    const sameFedSide = lost.length === 0 ? undefined : lost;
    if (!sameFedSide) continue;
    tell(open.spanOf(part.id), {
      severity: 'warning',
      code: 'unreachable-load',
      what: `no way leads from a supply to load ${part.id}`,
      why: 'it is dead in every key position, whatever the fault',
      mend: [`follow the wires from ${ticked(terminals)} and add the one that is missing`],
    });
  }
}

function endsOf(part: Part, e: Element): readonly [string, string] {
  if ('plus' in e) return [global(part, e.minus), global(part, e.plus)];
  if ('into' in e) return [global(part, e.outOf), global(part, e.into)];
  return [global(part, e.from), global(part, e.to)];
}

/** Points that are joined; union-find with halving. */
class Sets {
  private readonly up = new Map<string, string>();
  root(name: string): string {
    let at = name;
    for (let to = this.up.get(at); to !== undefined; to = this.up.get(at)) {
      const over = this.up.get(to);
      if (over !== undefined) this.up.set(at, over);
      at = to;
    }
    return at;
  }
  /** False when they were joined before. */
  join(a: string, b: string): boolean {
    const [ra, rb] = [this.root(a), this.root(b)];
    if (ra === rb) return false;
    this.up.set(ra, rb);
    return true;
  }
  copy(): Sets {
    const twin = new Sets();
    for (const [name, to] of this.up) twin.up.set(name, to);
    return twin;
  }
}
