import type { Circuit } from './circuit.ts';
import { keySwitchOf } from './keySwitchOf.ts';
import { nearNames } from './nearNames.ts';
import type { Part } from './part.ts';
import { done, failed, type Piece, part, pieceOf, problemAt, sameName } from './phrasePiece.ts';
import { partAt, terminalAt } from './placePhrase.ts';
import type { Problem, Read } from './problem.ts';
import type { EngineState, Scene } from './scene.ts';
import { type Setting, settingNamed, settingsOf, settingWords } from './switchesOf.ts';

/** What one hand phrase adds to a scene. */
export type HandAction =
  | { readonly does: 'set'; readonly settings: readonly Setting[] }
  | { readonly does: 'engine'; readonly engine: EngineState }
  | { readonly does: 'apart'; readonly part: string }
  | { readonly does: 'bridge'; readonly ends: readonly [string, string] }
  | { readonly does: 'swap'; readonly part: string };

const engineStates: readonly EngineState[] = ['stopped', 'cranking', 'running'];
type Verb = 'unplugged' | 'pulled' | 'bridged' | 'swapped' | 'engine';
/** First words of hand phrases; as a command too, for stories: `unplug X2`. */
const verbs: Readonly<Record<string, Verb>> = {
  unplugged: 'unplugged',
  unplug: 'unplugged',
  disconnected: 'unplugged',
  disconnect: 'unplugged',
  pulled: 'pulled',
  pull: 'pulled',
  bridged: 'bridged',
  bridge: 'bridged',
  swapped: 'swapped',
  swap: 'swapped',
  engine: 'engine',
};
const whyHand = 'a scene says by name what is set by hand; what is not named is at rest';

/**
 * Reads one hand phrase: `S2 at 2`, `S5 on`, `H4 switch on`, `door open`, `unplugged X2`, `pulled F3`,
 * `bridged S1.30 S1.15`, `swapped S1`, `engine running`.
 *
 * Problems: unknown-hand, ambiguous-hand, unknown-setting, unknown-part, unknown-terminal, bridge-ends, engine-state.
 */
export function readHand(text: string, circuit: Circuit, file: string, column = 1): Read<HandAction> {
  return handAt(pieceOf(text, file, column), circuit);
}

export function handAt(piece: Piece, circuit: Circuit): Read<HandAction> {
  const first = /^\S*/.exec(piece.text)![0];
  const rest = part(piece, first.length);
  const word = first.toLowerCase();
  const verb = Object.hasOwn(verbs, word) ? verbs[word] : undefined;
  switch (verb) {
    case 'unplugged':
    case 'pulled':
    case 'swapped': {
      const read = partAt(rest, circuit);
      if (!read.ok)
        return failed(
          ...read.problems.map((p) => ({
            ...p,
            mend: rest.text === '' ? startingWith(verb, circuit) : p.mend.map((id) => `${verb} ${id}`),
          })),
        );
      return done({ does: verb === 'swapped' ? 'swap' : 'apart', part: read.value.id });
    }
    case 'bridged':
      return bridgeAt(rest, circuit);
    case 'engine': {
      const engine = engineStates.find((e) => e === rest.text.toLowerCase());
      if (engine) return done({ does: 'engine', engine });
      const what = rest.text === '' ? 'the state of the engine is missing' : `\`${rest.text}\` is no state of the engine in a scene`;
      return failed(
        problemAt(rest, 'engine-state', what, 'the alternator, the oil switch and the coil depend on it', engineStates.map(engineText)),
      );
    }
    default:
      return settingAt(piece, circuit);
  }
}

const engineText = (engine: EngineState) => `engine ${engine}`;

/** True when a phrase begins with a word that only a hand phrase begins with. */
export const looksLikeHand = (text: string): boolean => Object.hasOwn(verbs, /^\S*/.exec(text)![0].toLowerCase());

/** Some of what a verb can be said of; where there is nothing of the kind, what the circuit has to set. */
function startingWith(verb: string, circuit: Circuit): readonly string[] {
  const all = handPhrases(circuit);
  const own = all.filter((p) => p.startsWith(`${verb} `));
  return (own.length > 0 ? own : all).slice(0, 4);
}

/** Across a contact: the bridge that a technician sets first, and that shorts nothing. */
function bridgeExample(circuit: Circuit): string {
  const lock = keySwitchOf(circuit);
  const owner = lock?.part ?? [...circuit.parts.values()].find((p) => p.kind.settings !== undefined);
  const ends = lock?.model.contacts[0]?.id.split('-') ?? (owner ? owner.kind.terminals(owner).map((t) => t.name) : []);
  return `bridged ${ends
    .slice(0, 2)
    .map((t) => `${owner?.id}.${t}`)
    .join(' ')}`;
}

function bridgeAt(piece: Piece, circuit: Circuit): Read<HandAction> {
  const words = [...piece.text.matchAll(/\S+/g)].filter((m) => m[0] !== 'to' && m[0] !== 'and');
  if (words.length !== 2)
    return failed(
      problemAt(piece, 'bridge-ends', `a bridge has two ends, and ${words.length} ${words.length === 1 ? 'is' : 'are'} said`, whyHand, [
        bridgeExample(circuit),
      ]),
    );
  const [from, to] = words.map((m) => terminalAt(part(piece, m.index, m.index + m[0].length), circuit));
  if (!from!.ok || !to!.ok) return failed(...from!.problems, ...to!.problems);
  if (from!.value === to!.value)
    return failed(
      problemAt(piece, 'bridge-ends', `both ends of the bridge are ${from!.value}`, 'a jumper joins two terminals', [
        bridgeExample(circuit),
      ]),
    );
  return done({ does: 'bridge', ends: [from!.value, to!.value] });
}

/** `SUBJECT [at] SETTING`: every switch of the circuit whose setting ends the phrase and whom the rest names. */
function settingAt(piece: Piece, circuit: Circuit): Read<HandAction> {
  const found: { part: Part; setting: string; rank: number }[] = [];
  const subjects = new Set<string>();
  for (const p of circuit.parts.values()) {
    const settings = p.kind.settings?.(p) ?? [];
    for (const word of settingWords(p)) {
      const subject = subjectBefore(piece.text, word);
      if (subject === undefined) continue;
      subjects.add(`${subject}\n${word}`);
      const rank = naming(p, subject, settings, word);
      const setting = settingNamed(p, word)[0];
      if (rank > 0 && setting !== undefined && !found.some((f) => f.part === p)) found.push({ part: p, setting, rank });
    }
  }
  for (const word of ['on', 'off']) {
    const subject = subjectBefore(piece.text, word);
    if (subject !== undefined) subjects.add(`${subject}\n${word}`);
  }
  const best = found.filter((f) => f.rank === Math.max(...found.map((g) => g.rank)));
  if (best.length === 1) return done({ does: 'set', settings: [{ part: best[0]!.part.id, setting: best[0]!.setting }] });
  if (best.length > 1)
    return several(
      piece,
      circuit,
      best.map((f) => ({ part: f.part.id, setting: f.setting })),
    );
  for (const [subject, word] of [...subjects].map((s) => s.split('\n') as [string, string])) {
    const load = loadNamed(subject, circuit);
    if (!load) continue;
    const meant = settingsOf(circuit, load, word);
    if (meant && 'all' in meant) return done({ does: 'set', settings: meant.all });
    if (meant) return several(piece, circuit, meant.oneOf);
    return failed(noSwitch(piece, load, circuit));
  }
  return failed(...unknown(piece, circuit));
}

/** What stands before a setting at the end of a phrase, `at`, `in` and `is` dropped; undefined when the phrase does not end so. */
function subjectBefore(text: string, setting: string): string | undefined {
  if (!text.toLowerCase().endsWith(setting.toLowerCase())) return undefined;
  const head = text.slice(0, text.length - setting.length);
  if (head !== '' && !/\s$/.test(head)) return undefined;
  return head.trim().replace(/\s+(at|is|in)$/i, '');
}

/** How well a subject names a switch: 4 its id, 3 its name, 2 its kind, 1 a word of its name or the setting alone, 0 not at all. */
function naming(p: Part, subject: string, settings: readonly string[], word: string): number {
  const plain = (s: string) => s.toLowerCase().replaceAll('-', ' ').trim();
  const short = (s: string) => plain(s).replace(/ switch$/, '');
  const s = plain(subject);
  // A word that says by itself which switch is meant: `in gear`, `tripped`; never one that every switch has.
  if (s === '') return ['on', 'off', 'open', 'closed'].includes(plain(word)) || /^\d/.test(word) || word === settings[0] ? 0 : 1;
  if (s === p.id.toLowerCase()) return 4;
  if (p.name !== undefined && [plain(p.name), short(p.name)].includes(s)) return 3;
  if ([plain(p.kind.kind), short(p.kind.kind), plain(p.kind.title), short(p.kind.title)].includes(s)) return 2;
  return p.name !== undefined &&
    plain(p.name)
      .split(/[^\p{L}\p{N}]+/u)
      .includes(s)
    ? 1
    : 0;
}

function loadNamed(subject: string, circuit: Circuit): Part | undefined {
  const words = /^(.*?)(?:'s)?\s+switch$/i.exec(subject)?.[1];
  if (words === undefined) return undefined;
  const id = sameName(words, circuit.parts.keys());
  const named =
    id === undefined ? [...circuit.parts.values()].filter((p) => p.name?.toLowerCase() === words.toLowerCase()) : [circuit.parts.get(id)!];
  return named.length === 1 && named[0]!.kind.loadEnds !== undefined ? named[0] : undefined;
}

function several(piece: Piece, circuit: Circuit, settings: readonly Setting[]): Read<HandAction> {
  const who = settings.map(({ part: id }) => {
    const name = circuit.parts.get(id)?.name;
    return name === undefined ? id : `${id} (${name})`;
  });
  return failed(
    problemAt(
      piece,
      'ambiguous-hand',
      `\`${piece.text}\` fits ${settings.length} switches: ${who.join(', ')}`,
      'Detent does not guess which one is meant',
      settings.slice(0, 4).map((s) => settingText(s.part, s.setting)),
    ),
  );
}

/** `M3 switch at 2` where the switch of M3 has no 2, or where M3 has no switch at all. */
function noSwitch(piece: Piece, load: Part, circuit: Circuit): Problem {
  const on = settingsOf(circuit, load, 'on');
  const switches = on === undefined ? [] : ('all' in on ? on.all : on.oneOf).map((s) => circuit.parts.get(s.part)!);
  const what =
    switches.length === 0
      ? `no switch that has to be set lies in series with ${load.id} (${load.name ?? load.kind.title})`
      : `${load.id} is switched by ${switches.map((s) => `${s.id} (${(s.kind.settings?.(s) ?? []).join(', ')})`).join(' and ')}`;
  const mend = switches.flatMap((s) => (s.kind.settings?.(s) ?? []).slice(1).map((setting) => settingText(s.id, setting)));
  const example = handPhrases(circuit)[1];
  const byName = example === undefined ? [] : [`name the switch itself, like \`${example}\``];
  return problemAt(
    piece,
    'unknown-setting',
    what,
    'a load is switched by what lies in series with it',
    mend.length > 0 ? mend.slice(0, 4) : byName,
  );
}

function unknown(piece: Piece, circuit: Circuit) {
  const first = /^\S*/.exec(piece.text)![0];
  const id = sameName(first, circuit.parts.keys());
  const own = id === undefined ? undefined : circuit.parts.get(id);
  const settings = own?.kind.settings?.(own) ?? [];
  const set = piece.text
    .slice(first.length)
    .trim()
    .replace(/^at(\s+|$)/i, '');
  if (own && settings.length > 0)
    return [
      problemAt(
        piece,
        'unknown-setting',
        set === '' ? `\`${first}\` alone does not say what it is set to` : `${own.id} has no setting \`${set}\``,
        `it can be set to ${settings.join(', ')}`,
        settings.map((s) => settingText(own.id, s)),
      ),
    ];
  if (own && own.kind.loadEnds === undefined)
    return [
      problemAt(piece, 'unknown-hand', `${own.id} (${own.name ?? own.kind.title}) has nothing to set by hand`, whyHand, [
        apartText(own.id, circuit),
      ]),
    ];
  const what = piece.text === '' ? 'the hand action is missing' : `\`${piece.text}\` is no hand action that Detent knows`;
  return [problemAt(piece, 'unknown-hand', what, whyHand, near(piece.text, circuit))];
}

/** Near phrases; where nothing is near, what the circuit has to set. */
function near(text: string, circuit: Circuit): readonly string[] {
  const all = handPhrases(circuit);
  const close = nearNames(text, all);
  return close.length > 0 ? close : all.slice(0, 4);
}

const phrasesOf = new WeakMap<Circuit, readonly string[]>();

/** Every simple hand phrase that the circuit has, for near names and completion. Cost: once per circuit. */
export function handPhrases(circuit: Circuit): readonly string[] {
  const known = phrasesOf.get(circuit);
  if (known) return known;
  const settings: string[] = [];
  const loads: string[] = [];
  for (const p of circuit.parts.values()) {
    for (const s of p.kind.settings?.(p) ?? []) settings.push(settingText(p.id, s));
    const on = p.isLoad ? settingsOf(circuit, p, 'on') : undefined;
    if (on && 'all' in on) loads.push(`${p.id} switch on`);
  }
  const whole = [...circuit.parts.values()].filter((p) => p.kind.isWire !== true);
  const list = [
    ...settings,
    ...loads,
    ...whole.map((p) => apartText(p.id, circuit)),
    ...whole.map((p) => `swapped ${p.id}`),
    ...engineStates.map(engineText),
  ];
  phrasesOf.set(circuit, list);
  return list;
}

/** `S2 at 2`, `S5 on`, `S7 open`: a figure gets its `at`. */
export const settingText = (id: string, setting: string): string => (/^\d/.test(setting) ? `${id} at ${setting}` : `${id} ${setting}`);

/** Fuses and relays are pulled, everything else is unplugged; either word is read. */
export function isPulled(id: string, circuit: Circuit): boolean {
  const letter = circuit.parts.get(id)?.kind.letter;
  return letter === 'F' || letter === 'K';
}

const apartText = (id: string, circuit: Circuit): string => `${isPulled(id, circuit) ? 'pulled' : 'unplugged'} ${id}`;

/** The canonical phrases of what a scene has besides its key place, in an order of its own. */
export function handTexts(scene: Scene, circuit: Circuit): readonly string[] {
  const order = [...circuit.parts.keys()];
  const set = Object.entries(scene.hand).sort(([a], [b]) => order.indexOf(a) - order.indexOf(b));
  return [
    ...(scene.engine === 'stopped' ? [] : [engineText(scene.engine)]),
    ...set.map(([id, setting]) => settingText(id, setting)),
    ...scene.apart.map((id) => apartText(id, circuit)),
    ...scene.bridged.map(([a, b]) => `bridged ${a} ${b}`),
    ...scene.swapped.map((id) => `swapped ${id}`),
  ];
}
