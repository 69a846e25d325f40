import fc from 'fast-check';

/** A bare network of resistances; node 0 is the reference. */
export type Net = {
  readonly nodes: number;
  readonly branches: readonly { readonly from: number; readonly to: number; readonly ohm: number }[];
};

/** Resistances spread evenly over the decades, with few digits, so that a failure can be read. */
const ohm = (least: number, most: number) =>
  fc
    .tuple(fc.integer({ min: 10, max: 99 }), fc.integer({ min: Math.ceil(Math.log10(least)), max: Math.floor(Math.log10(most)) - 1 }))
    .map(([digits, decade]) => Number(`${digits}e${decade - 1}`));

/** Every node has a path to the reference: each begins with a branch to an earlier one; then up to 12 more at random. */
export function wideNetwork(least: number, most: number): fc.Arbitrary<Net> {
  return fc.integer({ min: 3, max: 9 }).chain((nodes) =>
    fc
      .tuple(
        fc.tuple(...Array.from({ length: nodes - 1 }, (_, k) => fc.tuple(fc.nat(k), ohm(least, most)))),
        fc.array(fc.tuple(fc.nat(nodes - 1), fc.nat(nodes - 1), ohm(least, most)), { maxLength: 12 }),
      )
      .map(([tree, more]) => ({
        nodes,
        branches: [
          ...tree.map(([to, r], k) => ({ from: k + 1, to, ohm: r })),
          ...more.filter(([a, b]) => a !== b).map(([from, to, r]) => ({ from, to, ohm: r })),
        ],
      })),
  );
}

/** Any network at all: open branches, islands, branches from a node to itself. */
export function network({ openShare, least, most }: { openShare: number; least: number; most: number }): fc.Arbitrary<Net> {
  const open = Math.round(openShare * 100);
  const any = fc.oneof(
    { arbitrary: fc.constant(Number.POSITIVE_INFINITY), weight: open },
    { arbitrary: ohm(least, most), weight: 100 - open },
  );
  return fc
    .integer({ min: 2, max: 14 })
    .chain((nodes) =>
      fc
        .array(fc.tuple(fc.nat(nodes - 1), fc.nat(nodes - 1), any), { minLength: 1, maxLength: 30 })
        .map((list) => ({ nodes, branches: list.map(([from, to, r]) => ({ from, to, ohm: r })) })),
    );
}
