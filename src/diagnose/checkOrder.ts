/**
 * The cheapest order for checks of which each finds one cause or clears it: by probability over cost. Such are parts
 * exchanged one after the other until the vehicle works.
 *
 * @param checks probability that it is this one, and what trying it costs, > 0
 * @returns indices in order, and the expected cost when every check is made in turn until the cause is found
 * Sources: J. Kalagnanam, M. Henrion, UAI 4 (1988) 271-281; D. Heckerman, J. Breese, K. Rommelse, CACM 38 (1995) 49-57
 * (both from memory).
 */
export function checkOrder(checks: readonly { readonly probability: number; readonly cost: number }[]): {
  readonly order: readonly number[];
  readonly cost: number;
} {
  const order = [...checks.keys()].sort(
    (a, b) => checks[b]!.probability / checks[b]!.cost - checks[a]!.probability / checks[a]!.cost || a - b,
  );
  return { order, cost: costOfOrder(checks, order) };
}

/** Expected cost of an order of checks: each costs whenever it is reached. */
export function costOfOrder(checks: readonly { readonly probability: number; readonly cost: number }[], order: readonly number[]): number {
  let spent = 0;
  let expected = 0;
  for (const k of order) {
    spent += checks[k]!.cost;
    expected += checks[k]!.probability * spent;
  }
  return expected;
}
