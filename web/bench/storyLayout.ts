import type { Layout } from '../../src/report/layout/layout.ts';
import type { CircuitSeen } from '../calls.ts';
import type { Look } from '../session/session.ts';

const drawn = new WeakMap<Layout, ReadonlySet<string>>();

/** Ids of what a layout shows: parts, poles, pins, wires, terminals. */
function shownIn(layout: Layout): ReadonlySet<string> {
  const known = drawn.get(layout);
  if (known) return known;
  const ids = new Set<string>([
    ...layout.poles.flatMap((p) => [p.id, p.part, p.top, p.bottom]),
    ...layout.pins.flatMap((p) => [p.id, p.part]),
    ...layout.wires.flatMap((w) => [...w.wires, w.from, w.to]),
    ...layout.bars.flatMap((b) => [b.id, b.terminal, ...(b.part === undefined ? [] : [b.part])]),
    ...layout.frames.map((f) => f.part),
    'ground',
  ]);
  drawn.set(layout, ids);
  return ids;
}

/**
 * The tracks by which a large circuit tells its story, unless all are wanted or something that is talked about lies
 * outside of them.
 *
 * @param about ids of parts, poles or terminals that must be seen
 */
export function layoutWith(circuit: CircuitSeen, all: boolean, about: readonly string[]): Layout {
  const { story, layout } = circuit;
  if (!story || all) return layout;
  const [own, whole] = [shownIn(story), shownIn(layout)];
  return about.every((id) => own.has(id) || !whole.has(id)) ? story : layout;
}

/** Loads that a drawing is folded to: the chosen one alone, or those of the chosen functions. Undefined: not folded. */
export function loadsAlone(look: Look, circuit: CircuitSeen): readonly string[] | undefined {
  const shown = look.load ?? look.part;
  if (look.only && shown !== undefined) return [shown];
  const loads = circuit.functions?.filter((f) => look.functions?.includes(f.name)).flatMap((f) => f.loads) ?? [];
  return loads.length === 0 ? undefined : loads;
}
