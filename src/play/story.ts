import type { Circuit } from '../circuit/circuit.ts';
import { type HandAction, readHand } from '../circuit/handPhrase.ts';
import { keyPhrases, readKeyPlace } from '../circuit/keyPhrase.ts';
import { nearNames } from '../circuit/nearNames.ts';
import { done, failed, listed, type Piece, part, pieceOf, problemAt } from '../circuit/phrasePiece.ts';
import type { Problem, Read } from '../circuit/problem.ts';
import { readQuantity } from '../circuit/quantity.ts';
import type { KeyPlace } from '../circuit/scene.ts';

/** One step of a story: something done, then some time in which nothing is touched. */
export type Step = {
  readonly does: Doing;
  /** Seconds after the act until the next one. */
  readonly holds: number;
  /** As written. */
  readonly text: string;
};

export type Doing =
  /** Turns the key to a place, at the hand's own speed or slowly. */
  | { readonly act: 'turn'; readonly to: KeyPlace; readonly slowly: boolean }
  | { readonly act: 'release' }
  | { readonly act: 'key out' }
  | { readonly act: 'key in' }
  | { readonly act: 'jolt' }
  | { readonly act: 'wait' }
  /** `back` undoes it: plugged in again, fuse put back, bridge taken off. */
  | { readonly act: 'hand'; readonly hand: HandAction; readonly back: boolean };

/** Verbs of a story and the hand phrase that each stands for. */
const verbs: readonly { readonly says: RegExp; readonly phrase: string; readonly back: boolean }[] = [
  { says: /^unplug\s+/i, phrase: 'unplugged ', back: false },
  { says: /^plug(?:\s+in)?\s+/i, phrase: 'unplugged ', back: true },
  { says: /^pull\s+/i, phrase: 'pulled ', back: false },
  { says: /^put back\s+/i, phrase: 'pulled ', back: true },
  { says: /^bridge\s+/i, phrase: 'bridged ', back: false },
  { says: /^unbridge\s+/i, phrase: 'bridged ', back: true },
  { says: /^swap\s+/i, phrase: 'swapped ', back: false },
];

/** Ten years: a time that nobody would wait for is a slip, and is told. */
const longest = '520 weeks';
const longest_s = 520 * 7 * 86_400;
const whyTime = `a step lasts ms, s, min, h, days or weeks, at most ${longest}`;

const words = [
  'release',
  'jolt',
  'key out',
  'key in',
  'wait 1 s',
  'ease to 75° 3 s',
  'unplug X1',
  'plug X1',
  'pull F1',
  'put back F1',
  'bridge S1.30 S1.15',
];

/**
 * Reads a story: what a person does at the vehicle, one step after the other, each with the time for which it is left so.
 *
 *     story = step { ("," | new line) step }    from # to the end of a line is a remark
 *     step  = act [time]                        time: 300 ms, 2 s, 30 min, 1 h, 3 days, 2 weeks; none: the next step follows at once
 *     act   = place                             the key turned there, at a hand's 150° a second, through all that lies between
 *           | "ease" ["to"] place               the same slowly, 15° a second
 *           | "release"                         let go: a spring takes the key back, a weak one not all the way
 *           | "key in" | "key out"              the key put in, or turned to where it comes out and taken out
 *           | "jolt"                            a knock: what comes and goes is drawn anew, a key between two detents falls into the nearer
 *           | "wait" | "hold" | nothing         time passes
 *           | hand                              anything that a scene can say, as a command or not, and its undoing
 *     place = POSITION | ANGLE "°" | "between" POSITION "and" POSITION
 *     hand  = SWITCH ["at"] SETTING | LOAD "switch" SETTING | "engine" ("running" | "stopped")
 *           | "unplug" PART | "plug" ["in"] PART | "pull" PART | "put back" PART
 *           | "bridge" TERMINAL TERMINAL | "unbridge" TERMINAL TERMINAL | "swap" PART
 *
 * `LOCK, ON 2 s, START 1.5 s, ease to 75° 3 s, release, ON 5 s, LOCK, key out 30 min`. Whatever moves something draws
 * anew which of the faults that come and go are there.
 *
 * Problems: unknown-step, step-time, story-empty, and those of the key places and hand phrases in it; each with its line and column.
 */
export function readStory(text: string, circuit: Circuit, file: string): Read<readonly Step[]> {
  const problems: Problem[] = [];
  const steps: Step[] = [];
  for (const [line, written] of text.split(/\r?\n/).entries()) {
    const bare = written.replace(/#.*$/, '');
    if (bare.trim() === '') continue;
    for (const piece of listed(pieceOf(bare, file, 1, line + 1))) {
      if (piece.text === '') continue;
      const read = stepAt(piece, circuit);
      if (read.ok) steps.push(read.value);
      else problems.push(...read.problems);
    }
  }
  if (problems.length > 0) return failed(...problems);
  if (steps.length === 0)
    return failed(
      problemAt(
        pieceOf(text.split('\n')[0] ?? '', file),
        'story-empty',
        'the story has no step',
        'without a step there is nothing to play',
        ['ON 2 s, START 1 s, release 3 s'],
      ),
    );
  return done(steps);
}

function stepAt(piece: Piece, circuit: Circuit): Read<Step> {
  const timed = /^(.*?)\s*(?<![\w.°-])((?:\d+\.?\d*|\.\d+)\s*(?:ms|s|min|h|days?|weeks?))$/i.exec(piece.text);
  const act = timed ? part(piece, 0, timed[1]!.length) : piece;
  let holds = 0;
  if (timed) {
    const read = readQuantity(
      timed[2]!.replace(/weeks?$/i, (w) => (w ? 'days' : '')),
      'time',
    );
    if (!read.ok) return failed(problemAt(part(piece, timed[1]!.length), read.code, read.why, 'a step lasts a time', read.mend));
    holds = /weeks?$/i.test(timed[2]!) ? read.value * 7 : read.value;
    if (holds > longest_s)
      return failed(
        problemAt(part(piece, timed[1]!.length), 'step-time', `\`${timed[2]}\` is longer than ten years`, whyTime, [
          `${act.text} ${longest}`.trim(),
        ]),
      );
  }
  const does = doingAt(act, circuit);
  if (does.ok) return done({ does: does.value, holds, text: piece.text });
  return timed ? does : (timeAmiss(piece, circuit) ?? does);
}

/** A step whose act is understood and whose time is not: `ON 1e9 s`, `ON 5`, `ON -2 s`. */
function timeAmiss(piece: Piece, circuit: Circuit): Read<Step> | undefined {
  const form = /^(.*?)\s+([-+−]?[.\d]\S*(?:\s*\p{L}+)?)$/u.exec(piece.text);
  if (!form || !doingAt(part(piece, 0, form[1]!.length), circuit).ok) return undefined;
  const [, act = '', time = ''] = form;
  const read = readQuantity(time, 'time');
  const size = read.ok ? Math.abs(read.value) : 0;
  const what = read.ok ? `\`${time}\` is no time that a story can last` : read.why;
  const digits = Number(size.toFixed(3));
  const mend = [`${act} ${size > longest_s ? longest : digits > 0 ? `${digits} s` : '2 s'}`];
  return failed(problemAt(part(piece, piece.text.length - time.length), 'step-time', what, whyTime, mend));
}

function doingAt(piece: Piece, circuit: Circuit): Read<Doing> {
  const text = piece.text.toLowerCase();
  if (text === '' || text === 'wait' || text === 'hold') return done({ act: 'wait' });
  if (text === 'release' || text === 'jolt' || text === 'key out' || text === 'key in') return done({ act: text });
  const ease = /^ease(?:\s+to)?\s+/i.exec(piece.text);
  const place = ease ? part(piece, ease[0].length) : piece;
  const key = readKeyPlace(place.text, circuit, place.file, place.column);
  if (key.ok) return done({ act: 'turn', to: key.value, slowly: ease !== null });
  if (ease) return failed(...key.problems.map((p) => ({ ...p, line: piece.line })));
  for (const { says, phrase, back } of verbs) {
    const verb = says.exec(piece.text);
    if (!verb) continue;
    const read = readHand(phrase + piece.text.slice(verb[0].length), circuit, piece.file, piece.column + verb[0].length - phrase.length);
    return read.ok ? done({ act: 'hand', hand: read.value, back }) : failed(...read.problems.map((p) => ({ ...p, line: piece.line })));
  }
  const hand = readHand(piece.text, circuit, piece.file, piece.column);
  if (hand.ok) return done({ act: 'hand', hand: hand.value, back: false });
  if (hand.problems.some((p) => p.code !== 'unknown-hand')) return failed(...hand.problems.map((p) => ({ ...p, line: piece.line })));
  const near = nearNames(piece.text, [...keyPhrases(circuit), ...words]);
  return failed(
    problemAt(
      piece,
      'unknown-step',
      `\`${piece.text}\` is no step of a story`,
      'a step that is not understood would play another story',
      near.length > 0 ? near : words.slice(0, 6),
    ),
  );
}
