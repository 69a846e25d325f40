/**
 * Names near a word, nearest first: by edit distance (insert, delete, exchange, swap of neighbours) up to a third of
 * the longer one, and names that begin with the word or the word with them. Case is forgiven first.
 *
 * Cost: length² per name; names of very different length are not looked at.
 */
export function nearNames(word: string, names: Iterable<string>, most = 4): string[] {
  const wanted = word.toLowerCase();
  if (wanted === '' || wanted.length > 80) return [];
  const found: { name: string; distance: number }[] = [];
  for (const name of new Set(names)) {
    const low = name.toLowerCase();
    const bound = Math.max(1, Math.floor(Math.max(wanted.length, low.length) / 3));
    const begins = Math.min(wanted.length, low.length) >= 2 && (low.startsWith(wanted) || wanted.startsWith(low));
    const distance = Math.abs(low.length - wanted.length) > bound ? Number.POSITIVE_INFINITY : editDistance(wanted, low);
    // Of two or three signs, one other sign is most often another thing: G1 is not near M1, but S7 is near S2.
    const isShort = Math.max(wanted.length, low.length) <= 3;
    if (distance <= bound && distance < Math.max(wanted.length, low.length) && (!isShort || wanted[0] === low[0]))
      found.push({ name, distance });
    else if (begins) found.push({ name, distance: bound + 1 });
  }
  // Array sort is stable: names at the same distance stay in the order given.
  found.sort((a, b) => a.distance - b.distance);
  return found.slice(0, most).map((f) => f.name);
}

/**
 * Near names for as long as the comparisons last: a file with thousands of unknown names among thousands of parts must
 * not take minutes for the sake of hints. Beyond, there are no hints.
 */
export function nearNamesWithin(comparisons: number): (word: string, names: readonly string[]) => readonly string[] {
  let left = comparisons;
  return (word, names) => {
    left -= names.length;
    return left < 0 ? [] : nearNames(word, names);
  };
}

/** Optimal string alignment: Levenshtein with swapped neighbours as one step. */
export function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, k) => k);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let least = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) least = Math.min(least, before[j - 2]! + 1);
      row.push(least);
    }
    before = last;
    last = row;
  }
  return last[b.length]!;
}
