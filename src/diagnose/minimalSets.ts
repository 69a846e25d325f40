/**
 * All smallest sets for which something holds, grown one item at a time: a set that holds is never grown on, and one
 * that contains a set that holds is not looked at. For properties that a larger set keeps once a smaller one has them:
 * sets of faults that explain everything seen, sets of findings that cannot stand together.
 *
 * @param items  how many there are, 0..n-1
 * @param holds  asked of sets of indices in rising order
 * @param most   largest size looked at
 * Cost: up to items^most questions.
 */
export function minimalSets(items: number, holds: (set: readonly number[]) => boolean, most: number): readonly (readonly number[])[] {
  const found: (readonly number[])[] = [];
  let grown: (readonly number[])[] = [[]];
  for (let size = 0; ; size++) {
    const next: (readonly number[])[] = [];
    for (const set of grown) {
      if (found.some((f) => f.every((x) => set.includes(x)))) continue;
      if (holds(set)) found.push(set);
      else if (size < most) for (let k = (set.at(-1) ?? -1) + 1; k < items; k++) next.push([...set, k]);
    }
    if (next.length === 0) return found;
    grown = next;
  }
}
