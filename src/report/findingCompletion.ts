/** The names of one circuit that findings are made of. */
export type FindingNames = {
  /** Key positions in their order; the one that each sprung one returns to. */
  readonly positions: readonly { readonly name: string; readonly springsTo?: string }[];
  readonly loads: readonly { readonly id: string; readonly name: string }[];
  readonly terminals: readonly string[];
  /** Parts that can be exchanged or unplugged. */
  readonly parts: readonly string[];
  readonly hasEngine: boolean;
};

const seen = ['works', 'dead', 'weak', 'comes and goes', 'hot'];
const engine = ['engine cranks', 'engine cranks slowly', 'engine fires', 'engine runs', 'engine dies', 'engine still'];

/**
 * What a half-typed finding may become, nearest first: `ON af` → `ON after START: `; `ON: ign` → `ON: T1 works`, by the
 * load's id or any piece of its name; `ON: 0.4 V at S1` → `ON: 0.4 V at S1.15`.
 *
 * @param most how many
 */
export function findingCompletions(text: string, names: FindingNames, most = 8): readonly string[] {
  const colon = text.indexOf(':');
  if (colon < 0)
    return headsOf(names)
      .filter((h) => isIn(text, h))
      .sort(byStart(text))
      .slice(0, most);
  const comma = Math.max(colon, text.lastIndexOf(','));
  const before = `${text.slice(0, comma + 1)} `;
  const typed = text.slice(comma + 1).trimStart();
  const reading = /^(-?[\d.]+\s*\S*\s+(?:at|from)\s+|-?[\d.]+\s*\S*\s+from\s+\S+\s+to\s+)(\S*)$/i.exec(typed);
  if (reading) {
    const [, start = '', place = ''] = reading;
    return names.terminals
      .filter((t) => t.toLowerCase().startsWith(place.toLowerCase()))
      .slice(0, most)
      .map((t) => `${before}${start}${t}`);
  }
  if (/^(replaced|swapped|wiggled)\b/i.test(text))
    return ['cured', 'no change', 'changes'].filter((o) => isIn(typed, o)).map((o) => before + o);
  if (/^-?\d/.test(typed)) return /\s$/.test(typed) ? [`${before}${typed}V at `, `${before}${typed}A at `] : [];
  const told = [
    ...(names.hasEngine ? engine.map((e) => ({ phrase: e, also: e })) : []),
    ...names.loads.flatMap(({ id, name }) => seen.map((w) => ({ phrase: `${id} ${w}`, also: `${name} ${w}` }))),
  ];
  return told
    .filter(({ phrase, also }) => isIn(typed, phrase) || isIn(typed, also))
    .sort((a, b) => Math.min(rank(typed, a.phrase), rank(typed, a.also)) - Math.min(rank(typed, b.phrase), rank(typed, b.also)))
    .slice(0, most)
    .map(({ phrase }) => before + phrase);
}

function headsOf({ positions, parts }: FindingNames): readonly string[] {
  const after = positions.flatMap((p) => (p.springsTo === undefined ? [] : [`${p.springsTo} after ${p.name}`]));
  const between = positions.slice(1).map((p, k) => `between ${positions[k]!.name} and ${p.name}`);
  const exchanged = parts.flatMap((p) => [`swapped ${p}`, `replaced ${p}`]);
  const key = positions.length > 0 ? ['key out'] : [];
  return [...positions.map((p) => p.name), ...after, ...between, ...key, 'off the vehicle', ...exchanged].map((h) => `${h}: `);
}

/** Every word typed begins a word of the phrase. */
function isIn(typed: string, phrase: string): boolean {
  const words = phrase.toLowerCase().split(/[\s:]+/);
  return typed
    .toLowerCase()
    .split(/\s+/)
    .every((t) => words.some((w) => w.startsWith(t)));
}
const rank = (typed: string, phrase: string): number =>
  phrase.toLowerCase().startsWith(typed.toLowerCase()) ? 0 : isIn(typed, phrase) ? 1 : 2;
const byStart = (typed: string) => (a: string, b: string) => rank(typed, a) - rank(typed, b);
