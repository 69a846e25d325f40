/** What a link carries after its #: enough to show somebody else the same picture. Words as in the terminal. */
export type Link = {
  readonly circuit: string;
  /** A scene phrase: `ON after START, S4 switch on`. */
  readonly scene: string;
  readonly faults: readonly string[];
  readonly view?: string | undefined;
};

/** `circuit=light-van&scene=ON&fault=S1.30-15+open+at+ON`. Only circuits of the library can travel in a link. */
export function linkText(link: Link): string {
  const words = new URLSearchParams();
  words.set('circuit', link.circuit);
  if (link.scene !== '') words.set('scene', link.scene);
  for (const fault of link.faults) words.append('fault', fault);
  if (link.view !== undefined && link.view !== 'bench') words.set('view', link.view);
  return words.toString();
}

/** Undefined when the text names no circuit. Everything in it is taken as plain words; nothing is trusted. */
export function readLink(hash: string): Link | undefined {
  const words = new URLSearchParams(hash.replace(/^#/, ''));
  const circuit = words.get('circuit');
  if (circuit === null || circuit === '') return undefined;
  return { circuit, scene: words.get('scene') ?? '', faults: words.getAll('fault'), view: words.get('view') ?? undefined };
}
