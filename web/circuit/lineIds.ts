/** The part or wire that a line of a circuit file is about; a wire without an id is named by its ends. */
export function idInLine(line: string): string | undefined {
  const wire = /^\s*-\s*\{?/.test(line) || /\bfrom:/.test(line);
  if (!wire) return /^ {1,8}"?([^\s:#"{}-][^\s:#"{}]*)"?:(\s|$)/.exec(line)?.[1];
  const id = /\bid"?:\s*"?([^,\s}"]+)/.exec(line)?.[1];
  if (id !== undefined) return id;
  const [from, to] = ['from', 'to'].map((key) => new RegExp(`\\b${key}"?:\\s*"?([^,\\s}"]+)`).exec(line)?.[1]);
  return from === undefined || to === undefined ? undefined : `${from}-${to}`.replaceAll('.', '/');
}

/** Where a part or wire stands in the text. A section of a wire (`W7b`) stands where its wire does. */
export function placeOfId(text: string, id: string): { readonly from: number; readonly to: number } | undefined {
  let from = 0;
  let section: { from: number; to: number } | undefined;
  for (const line of text.split('\n')) {
    const found = idInLine(line);
    const place = { from: from + line.length - line.trimStart().length, to: from + line.length };
    if (found === id) return place;
    if (found !== undefined && id.startsWith(found) && /^[a-z]{1,2}$/.test(id.slice(found.length))) section ??= place;
    from += line.length + 1;
  }
  return section;
}
