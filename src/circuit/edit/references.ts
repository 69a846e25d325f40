/** Whether a wire's end names this part: `S1`, `S1.15`. */
export function isPlaceText(end: string, id: string): boolean {
  return end === id || end.startsWith(`${id}.`);
}

/** Every place in a phrase where an id stands as a word or before a terminal: `S2 at 2`, `bridged S1.30 S1.15`. */
export function renamedIn(phrase: string, id: string, into: string): string {
  let made = '';
  let at = 0;
  for (let k = phrase.indexOf(id); k >= 0; k = phrase.indexOf(id, k + id.length)) {
    const before = phrase[k - 1] ?? ' ';
    const after = phrase[k + id.length] ?? ' ';
    if (!/[\s,[]/.test(before) || !/[\s,.\]]/.test(after)) continue;
    made += phrase.slice(at, k) + into;
    at = k + id.length;
  }
  return made + phrase.slice(at);
}
