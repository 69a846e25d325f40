import type { Box, Layout, PlacedWire, Point } from '../../src/report/layout/layout.ts';

/** A straight piece of a wire or bar. */
type Run = { readonly what: string; readonly net: number; readonly a: Point; readonly b: Point };

/** Everything in a layout that breaks a rule of the drawing, in words; empty when it is sound. */
export function broken(layout: Layout): readonly string[] {
  return [
    ...labelsThatMeet(layout),
    ...labelsOnThings(layout),
    ...slantedWires(layout),
    ...wiresThroughSymbols(layout),
    ...wiresOnWires(layout),
    ...wiresThroughSigns(layout),
    ...outside(layout),
    ...badTracks(layout),
  ];
}

function labelsThatMeet({ labels }: Layout): readonly string[] {
  return pairs(labels)
    .filter(([a, b]) => meet(a.box, b.box))
    .map(([a, b]) => `labels ${a.text} and ${b.text} meet`);
}

function labelsOnThings(layout: Layout): readonly string[] {
  const runs = runsOf(layout);
  return layout.labels.flatMap((l) => [
    ...layout.poles.filter((p) => meet(l.box, p.box)).map((p) => `label ${l.text} lies on ${p.id}`),
    ...runs.filter((r) => meet(l.box, around(r, 1))).map((r) => `label ${l.text} lies on ${r.what}`),
  ]);
}

function slantedWires({ wires }: Layout): readonly string[] {
  return wires.flatMap((w) => runs(w).filter(({ a, b }) => a[0] !== b[0] && a[1] !== b[1])).map((r) => `${r.what} is slanted`);
}

/** A wire may end at a symbol, not run through or along it. Symbols of contacts reach left for their blade; wires keep clear of that too. */
function wiresThroughSymbols(layout: Layout): readonly string[] {
  return runsOf(layout).flatMap((r) =>
    layout.poles.filter((p) => meet(shrunk(p.box, 0.5), around(r, 0))).map((p) => `${r.what} runs through ${p.id}`),
  );
}

function wiresThroughSigns(layout: Layout): readonly string[] {
  const all = [...layout.wires.flatMap(runs), ...runsOf(layout).filter((r) => r.what.startsWith('bar'))];
  return layout.bars.flatMap((b) => {
    if (!b.sign) return [];
    const box = { x: b.sign[0] - 13, y: b.sign[1] - 1, width: 26, height: 14 };
    return all.filter((r) => meet(box, around(r, 0.5))).map((r) => `${r.what} runs through the ground sign of ${b.id}`);
  });
}

function wiresOnWires(layout: Layout): readonly string[] {
  return pairs(runsOf(layout))
    .filter(([r, s]) => r.net !== s.net && lieOn(r, s))
    .map(([r, s]) => `${r.what} lies on ${s.what}`);
}

/** True when two runs share more than a crossing: collinear with a common point, or an end of one on the other. */
function lieOn(r: Run, s: Run): boolean {
  const flat = (run: Run) => run.a[1] === run.b[1];
  if (flat(r) === flat(s)) {
    const [along, across] = flat(r) ? ([0, 1] as const) : ([1, 0] as const);
    if (Math.abs(r.a[across] - s.a[across]) > 0.5) return false;
    const [r0, r1] = [Math.min(r.a[along], r.b[along]), Math.max(r.a[along], r.b[along])];
    const [s0, s1] = [Math.min(s.a[along], s.b[along]), Math.max(s.a[along], s.b[along])];
    return r0 <= s1 && s0 <= r1;
  }
  const [level, upright] = flat(r) ? [r, s] : [s, r];
  const x = upright.a[0];
  const y = level.a[1];
  const [x0, x1] = [Math.min(level.a[0], level.b[0]), Math.max(level.a[0], level.b[0])];
  const [y0, y1] = [Math.min(upright.a[1], upright.b[1]), Math.max(upright.a[1], upright.b[1])];
  const within = x >= x0 && x <= x1 && y >= y0 && y <= y1;
  const crosses = x > x0 && x < x1 && y > y0 && y < y1;
  return within && !crosses;
}

function outside({ width, height, labels, poles, wires }: Layout): readonly string[] {
  const fits = (b: Box) => b.x >= 0 && b.y >= 0 && b.x + b.width <= width && b.y + b.height <= height;
  return [
    ...labels.filter((l) => !fits(l.box)).map((l) => `label ${l.text} is off the sheet`),
    ...poles.filter((p) => !fits(p.box)).map((p) => `${p.id} is off the sheet`),
    ...wires.flatMap((w) =>
      w.points.every(([x, y]) => x >= 0 && x <= width && y >= 0 && y <= height) ? [] : [`${w.wires.join()} is off the sheet`],
    ),
  ];
}

function badTracks({ tracks, poles }: Layout): readonly string[] {
  const loads = new Set(poles.filter((p) => p.isLoad).map((p) => p.part));
  return [
    ...tracks.flatMap((t, k) => (t.number === k + 1 && (k === 0 || tracks[k - 1]!.x <= t.x) ? [] : [`track ${t.number} is out of order`])),
    ...[...loads].filter((id) => tracks.filter((t) => t.load === id).length !== 1).map((id) => `${id} has not one track`),
  ];
}

function runsOf(layout: Layout): readonly Run[] {
  // Bars are nets of their own: the uprights that end on them have another number, so a bar's is taken from one of them.
  const bars = layout.bars.flatMap((b) => {
    const own = layout.wires.find((w) => [w.points[0]!, w.points.at(-1)!].some(([x, y]) => y === b.y && x >= b.x1 && x <= b.x2));
    return b.pieces.map(([from, to]): Run => ({ what: `bar ${b.id}`, net: own?.net ?? -1, a: [from, b.y], b: [to, b.y] }));
  });
  return [...layout.wires.filter((w) => !isStrap(w, layout)).flatMap(runs), ...bars];
}

/** A strap joins two bars, which are two nets: it touches both by right. */
function isStrap(wire: PlacedWire, { bars }: Layout): boolean {
  const [first, last] = [wire.points[0]!, wire.points.at(-1)!];
  const barAt = ([x, y]: Point) => bars.find((b) => b.y === y && x >= b.x1 && x <= b.x2);
  return wire.points.length === 4 && barAt(first) !== undefined && barAt(last) !== undefined && barAt(first) !== barAt(last);
}

function runs(wire: PlacedWire): readonly Run[] {
  const what = `wire ${wire.wires.join('+') || `inside ${wire.inside}`}`;
  return wire.points.slice(1).map((b, k) => ({ what, net: wire.net, a: wire.points[k]!, b }));
}

function around({ a, b }: Run, by: number): Box {
  return {
    x: Math.min(a[0], b[0]) - by,
    y: Math.min(a[1], b[1]) - by,
    width: Math.abs(a[0] - b[0]) + 2 * by,
    height: Math.abs(a[1] - b[1]) + 2 * by,
  };
}

const shrunk = (b: Box, by: number): Box => ({ x: b.x + by, y: b.y + by, width: b.width - 2 * by, height: b.height - 2 * by });
const meet = (a: Box, b: Box) => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

function pairs<T>(list: readonly T[]): readonly (readonly [T, T])[] {
  return list.flatMap((a, k) => list.slice(k + 1).map((b) => [a, b] as const));
}
