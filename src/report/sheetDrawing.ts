import type { Circuit } from '../circuit/circuit.ts';
import type { Finding } from '../diagnose/finding.ts';
import { type Fault, worldsOf } from '../faults/fault.ts';
import { positionTable } from '../solve/positionTable.ts';
import type { Layout } from './layout/layout.ts';
import { layoutOf } from './layout/layoutOf.ts';
import { partsAround } from './partsAround.ts';
import { storyLoads } from './storyLoads.ts';

/** A number where a reading was taken, or the ring round the cause; `at` names a terminal, pole, pin, wire or part. */
export type SheetMark =
  | { readonly is: 'reading'; readonly at: string; readonly number: number }
  | { readonly is: 'cause'; readonly at: string };

export type SheetDrawing = {
  readonly layout: Layout;
  readonly loads: readonly string[];
  readonly drawn: string;
  readonly marks: readonly SheetMark[];
};

/** Width at which labels are still 7.5 pt on A4, px. */
const mostWide = 730;
const pitch = 60;
const mostLoads = 9;

/**
 * The drawing on the sheet: only the tracks that the cause touches, as many as stay readable on paper.
 *
 * @param places terminals and parts at which readings were taken, in the order of their numbers
 */
export function sheetDrawing(
  circuit: Circuit,
  faults: readonly Fault[],
  places: readonly string[],
  findings: readonly Finding[],
): SheetDrawing {
  const story = storyLoads(circuit).first;
  const touched = faults.length > 0 ? touchedBy(circuit, faults) : [];
  const named = findings.flatMap(({ observable: o }) => (o.of === 'load' ? [o.load] : []));
  const first = (list: readonly string[]) => [...list.filter((l) => story.includes(l)), ...list.filter((l) => !story.includes(l))];
  const wanted = [...new Set([...first(touched), ...first(named), ...story, ...loadIds(circuit)])].filter((id) => circuit.parts.has(id));
  const own = Math.max(touched.length, named.length, story.length, 1);
  const subjects = faults.map((f) => f.mode.subject);
  let [layout, loads]: [Layout | undefined, readonly string[]] = [undefined, []];
  for (let many = Math.min(mostLoads, own, wanted.length); many >= 1; many--) {
    loads = wanted.slice(0, many);
    layout = layoutOf(circuit, { only: partsAround(circuit, loads), pitch });
    if (layout.width <= mostWide) break;
  }
  const shown = layout ?? layoutOf(circuit);
  const names = shown.tracks.map((t) => circuit.parts.get(t.load)?.name ?? t.load);
  return {
    layout: shown,
    loads: shown.tracks.map((t) => t.load),
    drawn: `Drawn: ${names.join(', ')}, in neutral wires.`,
    marks: [
      ...subjects.map((at): SheetMark => ({ is: 'cause', at })),
      ...places.map((at, k): SheetMark => ({ is: 'reading', at, number: k + 1 })),
    ],
  };
}

/** Loads that do something else with the faults in, in any key position. */
function touchedBy(circuit: Circuit, faults: readonly Fault[]): readonly string[] {
  const { rows } = positionTable(circuit, worldsOf(faults));
  return rows.filter((r) => r.cells.some((c) => c.changed || c.otherWay)).map((r) => r.id);
}

const loadIds = (circuit: Circuit): readonly string[] => [...circuit.parts.values()].filter((p) => p.isLoad).map((p) => p.id);
