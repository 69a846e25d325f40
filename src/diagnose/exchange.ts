import type { Circuit } from '../circuit/circuit.ts';
import { ownerOf } from '../circuit/ownerOf.ts';
import type { Fault } from '../faults/fault.ts';
import type { Observable } from './finding.ts';

type Outcomes = Readonly<Partial<Record<'no change' | 'cured' | 'changes', number>>>;

/**
 * What exchanging or moving a part would do. All chances are estimates: new parts can be bad or wired wrongly, and an
 * exchange moves the plug, which cures a loose pin for a while; so an exchange never proves the new part's wiring.
 */
export function outcomeChances(
  circuit: Circuit,
  faults: readonly Fault[],
  observable: Observable & { of: 'exchange' | 'touch' },
): Outcomes {
  const own = faults.filter((f) => f.part === observable.part);
  const beside = faults.filter((f) => !own.includes(f) && fastened(circuit, observable.part).has(f.part));
  if (observable.of === 'touch') {
    const loose = [...own, ...beside].some((f) => f.mode.sometimes);
    const changes = loose ? 0.75 : own.length + beside.length > 0 ? 0.15 : 0.03;
    return { changes, cured: changes / 3, 'no change': 1 - changes };
  }
  const cured = own.length === 0 ? (beside.length > 0 ? movedPlug(beside) : 0.02) : own.length === faults.length ? 0.95 : 0.3;
  const changes = own.length > 0 && own.length < faults.length ? 0.5 : 0.05;
  return { cured, changes, 'no change': 1 - cured };
}

/** Chance that taking a plug off and on cures what sits in its pins or in the wires fastened to it. */
const movedPlug = (beside: readonly Fault[]): number => (beside.some((f) => f.mode.sometimes) ? 0.4 : 0.12);

const known = new WeakMap<Circuit, Map<string, ReadonlySet<string>>>();

/** Wires fastened to a part, and the plugs at their other ends: what is moved with it. */
export function fastened(circuit: Circuit, part: string): ReadonlySet<string> {
  const all = known.get(circuit) ?? new Map<string, ReadonlySet<string>>();
  known.set(circuit, all);
  const before = all.get(part);
  if (before) return before;
  const wires = new Set(circuit.attached.filter(([, t]) => ownerOf(t) === part).map(([end]) => ownerOf(end)));
  const plugs = circuit.attached.filter(([end]) => wires.has(ownerOf(end))).map(([, t]) => ownerOf(t));
  const joins = (id: string) => {
    const p = circuit.parts.get(id);
    return p !== undefined && id !== part && !p.isLoad && !p.kind.varies?.length && !p.kind.supply && !p.kind.settle;
  };
  const found = new Set([...wires, ...plugs.filter(joins)]);
  all.set(part, found);
  return found;
}
