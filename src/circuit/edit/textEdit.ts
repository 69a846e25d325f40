/** One change of a text: what stands from `from` to `to` (offsets in UTF-16 units) becomes `insert`. */
export type TextEdit = { readonly from: number; readonly to: number; readonly insert: string };

/** The text after edits that do not overlap, whatever their order; those at the same place stay in the order given. */
export function edited(text: string, edits: readonly TextEdit[]): string {
  let made = '';
  let at = 0;
  for (const { from, to, insert } of inOrder(edits)) {
    if (from < at) continue; // within what an edit before it took away already
    made += text.slice(at, from) + insert;
    at = to;
  }
  return made + text.slice(at);
}

/** Edits by their place, without those that lie within another: so an editor can apply them in one go. */
export function disjoint(edits: readonly TextEdit[]): readonly TextEdit[] {
  const kept: TextEdit[] = [];
  for (const edit of inOrder(edits)) if (edit.from >= (kept.at(-1)?.to ?? 0)) kept.push(edit);
  return kept;
}

function inOrder(edits: readonly TextEdit[]): readonly TextEdit[] {
  return [...edits].sort((a, b) => a.from - b.from || b.to - a.to);
}
