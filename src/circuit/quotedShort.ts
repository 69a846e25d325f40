/** Characters up to which a problem quotes a word of a file whole, and how many it keeps of a longer one. */
const whole = 120;
const kept = 60;

/** A problem's words without the endless names that a damaged file can hold: each names its beginning. */
export function quotedShort(words: string): string {
  if (words.length <= whole) return words;
  return words
    .replace(longQuote, (_, quote: string) => `\`${[...quote].slice(0, kept).join('')}…\``)
    .replace(longWord, (word) => `${[...word].slice(0, kept).join('')}…`);
}
const longQuote = new RegExp(`\`([^\`]{${whole},})\``, 'gu');
const longWord = new RegExp(`[^\\s\`]{${whole},}`, 'gu');

type Said = { readonly what: string; readonly why: string; readonly mend: readonly string[] };

/** A problem that says its place in full and its names shortly. */
export function saidShort<T extends Said>(problem: T): T {
  const { what, why, mend } = problem;
  return { ...problem, what: quotedShort(what), why: quotedShort(why), mend: mend.map(quotedShort) };
}
