import { BLOCK, type Circuit, GROUND } from './circuit.ts';
import type { Element } from './element.ts';
import { type LoosePart, looseParts } from './looseParts.ts';
import type { Part } from './part.ts';
import type { Span, Tell } from './placed.ts';
import { blocks, type Edge } from './reach.ts';
import { Sets } from './sets.ts';
import { ticked } from './wires.ts';

/** What the file left open and was told already, so that what follows from it is not told again. */
export type LeftOpen = {
  /** No wire could be read, or an end of one is not known at all: then nothing is called loose or unreached. */
  readonly unread: boolean;
  /** Terminals that an unreadable wire names: something is behind them. */
  readonly openAt: ReadonlySet<string>;
  /** Ids that a told wire end named or nearly named; their terminals are not called loose as well. */
  readonly named: ReadonlySet<string>;
  readonly spanOf: (id: string) => Span;
  /** Where to point when the circuit as a whole lacks something. */
  readonly top: Span;
};

type Own = { readonly part: Part; readonly list: readonly Element[] };

/**
 * Problems of the wiring as a whole: loops of exact sources, terminals and parts that nothing is fastened to, loads
 * that no supply reaches, no supply at all. All of it is topology, answered exactly; an open switch is a way.
 */
export function checkWiring(circuit: Circuit, open: LeftOpen, tell: Tell): void {
  const elements = [...circuit.parts.values()].map((part) => ({ part, list: elementsOf(part, circuit.ambient) }));
  tellSourceLoops(circuit, elements, open, tell);
  if (open.unread) return;
  if (circuit.attached.length === 0) {
    if (circuit.parts.size > 0 && open.openAt.size === 0) tell(open.top, noWires);
    return;
  }
  const hasSource = elements.some(({ part, list }) => list.some((e) => drives(part, e)));
  if (!hasSource && open.openAt.size === 0) tell(open.top, noSupply);
  const loose = looseParts(circuit, open);
  // A told wire may have meant any terminal of the parts that it names.
  const meant = [...circuit.parts.values()]
    .filter((p) => open.named.has(p.id))
    .flatMap((p) => p.kind.terminals(p).map((t) => `${p.id}.${t.name}`));
  const reach = new Reach(circuit, elements, [...open.openAt, ...meant]);
  const loads = [...circuit.parts.values()].filter(
    (p) => p.isLoad && p.kind.loadEnds && !open.named.has(p.id) && !loose.some((l) => l.part.id === p.id),
  );
  const lost = hasSource ? reach.lost(loads, []) : [];
  // Each loose part costs a walk over the whole circuit; of many, none is the one cause.
  const byLoose = lost.length === 0 || loose.length > 20 ? [] : loose.map((l) => ({ loose: l, loads: becauseOf(l, lost, reach) }));
  for (const l of loose) tell(open.spanOf(l.part.id), looseTold(l, byLoose.find((b) => b.loose === l)?.loads ?? []));
  const explained = new Set(byLoose.flatMap((b) => b.loads));
  for (const load of lost) if (!explained.has(load)) tell(open.spanOf(load.id), unreached(load));
}

/** Loads that would be reached if something were fastened to the loose terminals. */
function becauseOf(loose: LoosePart, lost: readonly Part[], reach: Reach): readonly Part[] {
  const still = new Set(reach.lost(lost, loose.terminals));
  return lost.filter((load) => !still.has(load));
}

function elementsOf(part: Part, ambient: number): readonly Element[] {
  const setting = part.kind.settings?.(part)[0] ?? '';
  return part.kind.elements(part, { key: undefined, setting, engine: 'stopped', ambient, state: part.kind.initial?.(part) ?? {} });
}

function global(part: Part, terminal: string): string {
  return terminal === GROUND || terminal === BLOCK ? terminal : `${part.id}.${terminal}`;
}

function endsOf(part: Part, e: Element): readonly [string, string] {
  if ('plus' in e) return [global(part, e.minus), global(part, e.plus)];
  if ('into' in e) return [global(part, e.outOf), global(part, e.into)];
  return [global(part, e.from), global(part, e.to)];
}

/** Whether an element can drive a current: a source, or a piece of a part that says it is a supply (a battery with a law of its own). */
function drives(part: Part, e: Element): boolean {
  return 'plus' in e || 'into' in e || part.kind.supply?.(part) !== undefined;
}

/** A source without resistance whose two ends are one point already: whatever flows round the loop, nothing decides how much. */
function tellSourceLoops(circuit: Circuit, elements: readonly Own[], open: LeftOpen, tell: Tell): void {
  const ideal = new Sets();
  for (const [end, terminal] of circuit.attached) ideal.join(end, terminal);
  for (const { part, list } of elements) for (const e of list) if ('from' in e && 'ohm' in e && e.ohm === 0) ideal.join(...endsOf(part, e));
  for (const { part, list } of elements) {
    for (const e of list) {
      if (!('plus' in e) || e.ohm !== 0 || ideal.join(...endsOf(part, e))) continue;
      tell(open.spanOf(part.id), {
        code: 'source-loop',
        what: `${part.id} closes a loop of supplies and joints without any resistance`,
        why: 'nothing in the loop limits its current, so there is no answer to compute',
        mend: [`give ${part.id} a \`resistance\`, such as \`0.01 Ω\``, 'or give a wire of the loop its `area` and `length`'],
      });
    }
  }
}

/** Which loads lie on a closed way through a source. */
class Reach {
  private readonly numbers = new Map<string, number>();
  private readonly sets = new Sets();
  private readonly edges: Edge<{ part: Part | undefined; isSource: boolean }>[] = [];
  private readonly sourceEnds: string[] = [];
  private readonly open: readonly string[];
  constructor(circuit: Circuit, elements: readonly Own[], open: readonly string[]) {
    for (const [end, terminal] of circuit.attached) this.sets.join(end, terminal);
    this.open = open;
    for (const { part, list } of elements) {
      for (const e of list) {
        const [a, b] = endsOf(part, e);
        const isSource = drives(part, e);
        if (isSource) this.sourceEnds.push(a, b);
        this.edges.push({ from: this.node(a), to: this.node(b), mark: { part, isSource } });
      }
    }
  }
  /** The loads that no source reaches, if whatever is fastened to `wild` terminals led everywhere. */
  lost(loads: readonly Part[], wild: readonly string[]): readonly Part[] {
    const edges = [...this.edges];
    const anywhere = this.node('~anywhere');
    const mark = { part: undefined, isSource: false };
    const wilds = [...this.open, ...wild];
    if (wilds.length > 0) for (const t of [...wilds, ...this.sourceEnds, GROUND]) edges.push({ from: anywhere, to: this.node(t), mark });
    const block = blocks(this.numbers.size, edges);
    const fed = new Set(edges.flatMap((e, k) => (e.mark.isSource ? [block[k]!] : [])));
    const reached = new Set(edges.flatMap((e, k) => (e.mark.part && block[k] !== -1 && fed.has(block[k]!) ? [e.mark.part.id] : [])));
    return loads.filter((load) => !reached.has(load.id));
  }
  private node(terminal: string): number {
    const root = this.sets.root(terminal);
    const number = this.numbers.get(root) ?? this.numbers.size;
    this.numbers.set(root, number);
    return number;
  }
}

type Words = Parameters<Tell>[1];

function looseTold({ part, terminals, isWhole }: LoosePart, loads: readonly Part[]): Words {
  const dead =
    loads.length === 0
      ? ''
      : `, and for lack of it ${loads.map((l) => l.id).join(', ')} ${loads.length === 1 ? 'is' : 'are'} dead in every key position`;
  const names = ticked(terminals.slice(0, 6));
  if (isWhole)
    return {
      severity: 'warning',
      code: 'loose-part',
      what: `no wire is fastened to ${part.kind.title} ${part.id}`,
      why: `it takes no part in any answer${dead}`,
      mend: [`fasten wires to ${names}`, 'or leave the part out'],
    };
  return {
    severity: 'warning',
    code: 'loose-terminal',
    what: `no wire is fastened to ${names}`,
    why: `no current passes there${dead}`,
    mend: [`add the wire that the diagram shows at ${terminals.length === 1 ? 'this terminal' : 'these terminals'}`],
  };
}

function unreached(load: Part): Words {
  const ends = load.kind.loadEnds?.(load) ?? [];
  return {
    severity: 'warning',
    code: 'unreachable-load',
    what: `no closed way leads from a supply through load ${load.id} and back`,
    why: 'it is dead in every key position, with any fault and with none',
    mend: [`follow the wires from ${ticked(ends.map((t) => global(load, t)))} and add the one that is missing`],
  };
}

const noWires: Words = {
  severity: 'warning',
  code: 'no-wires',
  what: 'no wire joins any of the parts',
  why: 'every load is dead in every key position',
  mend: ['add `wires:` with lines such as `- { from: G1.+, to: F1.1 }`'],
};
const noSupply: Words = {
  severity: 'warning',
  code: 'no-supply',
  what: 'the circuit has neither a battery nor another supply',
  why: 'every load is dead in every key position',
  mend: ['add a part such as `G1: { kind: battery }`'],
};
