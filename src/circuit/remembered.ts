/** What is known for a key, made now if nothing is. */
export function remembered<K, V>(known: { get(key: K): V | undefined; set(key: K, made: V): unknown }, key: K, make: () => V): V {
  const before = known.get(key);
  if (before !== undefined) return before;
  const made = make();
  known.set(key, made);
  return made;
}
