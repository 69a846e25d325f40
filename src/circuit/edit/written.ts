/**
 * How texts are put into a circuit file so that the reader takes them back exactly: plain where nothing in the text has
 * a meaning in YAML, in double quotes otherwise. Everything is written for flow style, `{ key: text }`, which is stricter.
 */
export function yamlText(text: string): string {
  return isPlain(text) ? text : quoted(text);
}

/** Signs that a plain text may begin with, and signs that it may hold, in flow style. */
const plain = /^[\p{L}\p{N}+.(/°≈~][\p{L}\p{N} _+.()/°Ω%²³µ'’…≈;=*?!-]*$/u;

function isPlain(text: string): boolean {
  return plain.test(text) && text.trim() === text && !/^(\.\.\.|---)/.test(text) && text.length < 200;
}

function quoted(text: string): string {
  // JSON's quotes are YAML's double quotes; the two line separators are no line ends in JSON but are in YAML 1.1 readers.
  return JSON.stringify(text).replaceAll('\u2028', '\\u2028').replaceAll('\u2029', '\\u2029');
}

/** What can stand behind a colon: a text, a list, or a map whose entries keep their order. */
export type Writable = string | readonly Writable[] | { readonly [key: string]: Writable | undefined };

/** Flow style, on one line. Entries without a value are left out. */
export function yamlFlow(what: Writable): string {
  if (typeof what === 'string') return yamlText(what);
  if (isList(what)) return `[${what.map(yamlFlow).join(', ')}]`;
  const entries = Object.entries(what).flatMap(([key, held]) => (held === undefined ? [] : [`${yamlText(key)}: ${yamlFlow(held)}`]));
  return entries.length === 0 ? '{}' : `{ ${entries.join(', ')} }`;
}

function isList(what: Writable): what is readonly Writable[] {
  return Array.isArray(what);
}
