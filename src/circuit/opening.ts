/** What the first comment of a circuit file says to whoever opens it; empty where it says nothing of the kind. */
export type Opening = {
  /** `# Teaches: …` */
  readonly teaches: string;
  /** `# Key-off current: …` */
  readonly keyOff: string;
};

/**
 * Reads the comment that a file opens with. A heading is `# Word: …`; lines under it that are indented by two blanks or
 * more after their `#` belong to it.
 */
export function openingOf(text: string): Opening {
  const said = new Map<string, string>();
  let heading: string | undefined;
  for (const line of text.replace(/^\uFEFF/, '').split(/\r?\n/)) {
    const remark = /^#(.*)$/.exec(line)?.[1];
    if (remark === undefined) break;
    const begun = /^ ([A-Z][^:]*): (.*)$/.exec(remark);
    if (begun) {
      heading = begun[1]!;
      if (!said.has(heading)) said.set(heading, begun[2]!.trim());
    } else if (heading !== undefined && /^ {2,}\S/.test(remark)) said.set(heading, `${said.get(heading)} ${remark.trim()}`);
    else heading = undefined;
  }
  return { teaches: said.get('Teaches') ?? '', keyOff: said.get('Key-off current') ?? '' };
}
