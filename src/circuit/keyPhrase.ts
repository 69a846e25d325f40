import type { Circuit } from './circuit.ts';
import { keyAngleFor, keyStretches } from './keyStretches.ts';
import { type KeySwitch, keySwitchOf, keyTakenOut } from './keySwitchOf.ts';
import { nearNames } from './nearNames.ts';
import type { KeyModel } from './part.ts';
import { done, failed, type Piece, part, pieceOf, problemAt, sameName } from './phrasePiece.ts';
import type { Read } from './problem.ts';
import { readQuantity } from './quantity.ts';
import type { KeyPlace } from './scene.ts';
import { wordsJoined } from './wordsJoined.ts';

const why = 'the key place decides which contacts are closed, so Detent does not guess it';

/**
 * Reads where the key stands: `ON`, `75°`, `between ON and START` (the middle of that stretch; with a number behind it
 * the k-th stretch of constant contacts), each also with `after START` (how it was reached), or `key out`.
 *
 * Problems: no-key-switch, unknown-key-place, key-angle, key-stretch, key-after.
 */
export function readKeyPlace(text: string, circuit: Circuit, file: string, column = 1): Read<KeyPlace> {
  return keyPlaceAt(pieceOf(text, file, column), circuit);
}

export function keyPlaceAt(piece: Piece, circuit: Circuit): Read<KeyPlace> {
  const lock = keySwitchOf(circuit);
  if (!lock)
    return failed(
      problemAt(
        piece,
        'no-key-switch',
        `the circuit has no key switch, so \`${piece.text}\` is no place of a key`,
        'without a key switch a scene is what is set by hand',
        ['leave the key place out'],
      ),
    );
  if (/^key\s+out$/i.test(piece.text)) return done(keyTakenOut(lock.model));
  const after = [...piece.text.matchAll(/\s+after\s+/gi)].at(-1);
  if (!after) {
    const angle = angleAt(piece, lock);
    return angle.ok ? done({ angle: angle.value, came: 'up', in: true }) : angle;
  }
  const from = part(piece, after.index + after[0].length);
  const here = part(piece, 0, after.index);
  const before = angleAt(from, lock);
  const up = angleAt(here, lock);
  const angle = up.ok && before.ok && before.value > up.value ? angleAt(here, lock, 'back') : up;
  if (!angle.ok || !before.ok) return failed(...angle.problems, ...before.problems);
  if (angle.value === before.value)
    return failed(
      problemAt(
        from,
        'key-after',
        `\`${from.text}\` is the same place of the key`,
        'after: the place that the key came from, because a worn switch follows differently on the way back',
        [part(piece, 0, after.index).text],
      ),
    );
  return done({ angle: angle.value, came: before.value > angle.value ? 'back' : 'up', in: true });
}

/** True when a phrase can only mean a place of the key, right or wrong. */
export function looksLikeKeyPlace(text: string, circuit: Circuit): boolean {
  const names = keySwitchOf(circuit)?.model.positions.map((p) => p.name) ?? [];
  return sameName(text, names) !== undefined || /^(key\s+out$|between\s|[-+]?[\d.])|\safter\s/i.test(text);
}

/** The canonical phrase of a key place; reading it gives the same place again. No key comes back to the very end of its travel. */
export function keyText(key: KeyPlace, circuit: Circuit): string {
  const lock = keySwitchOf(circuit);
  if (!key.in) return 'key out';
  const place =
    lock === undefined ? undefined : keyStretches(lock.model).find((s) => (key.came === 'up' ? s.keyAngle : s.angle) === key.angle);
  const text = place?.name ?? `${key.angle}°`;
  if (key.came === 'up') return text;
  const above = [...(lock?.model.positions ?? [])].sort((a, b) => a.angle - b.angle).find((p) => p.angle > key.angle);
  return `${text} after ${above?.name ?? `${lock === undefined ? 0 : travelOf(lock.model)[1]}°`}`;
}

/** Phrases for every place that has a name, for near names: positions, stretches, and the ways back. */
export function keyPhrases(circuit: Circuit): readonly string[] {
  const model = keySwitchOf(circuit)?.model;
  if (!model) return [];
  const back = model.positions.flatMap((p) => (p.springsTo === undefined ? [] : [`${p.springsTo} after ${p.name}`]));
  return [...keyStretches(model).map((s) => s.name), ...back, 'key out'];
}

/** Of the key. On the way back the switch follows at once, so that a stretch of the switch is one of the key too. */
function angleAt(piece: Piece, { part: lock, model }: KeySwitch, came: KeyPlace['came'] = 'up'): Read<number> {
  const names = model.positions.map((p) => p.name);
  const named = sameName(piece.text, names);
  if (named !== undefined) return done(model.positions.find((p) => p.name === named)!.angle);
  const between = /^between\s+(.+?)\s+and\s+(.+)$/i.exec(piece.text);
  if (between) {
    const at = stretchAt(piece, between[1]!, between[2]!, model);
    return at.ok && came === 'up' ? done(keyAngleFor(model, at.value)) : at;
  }
  if (/^[-+.\d]/.test(piece.text)) return degrees(piece, model);
  return failed(
    problemAt(
      piece,
      'unknown-key-place',
      piece.text === '' ? 'the place of the key is missing' : `\`${piece.text}\` is no position of the key switch ${lock.id}`,
      why,
      near(piece.text, names),
    ),
  );
}

function degrees(piece: Piece, model: KeyModel): Read<number> {
  const read = readQuantity(piece.text, 'angle');
  if (!read.ok) return failed(problemAt(piece, 'key-angle', read.why, why, read.mend));
  const [least, most] = travelOf(model);
  if (read.value >= least && read.value <= most) return done(read.value);
  return failed(
    problemAt(piece, 'key-angle', `${read.value}° is outside the travel of the key, ${least}° to ${most}°`, why, [
      `${Math.min(most, Math.max(least, read.value))}°`,
    ]),
  );
}

/** From the smallest to the largest angle that the file names: a key can be pressed a little beyond its last detent. */
function travelOf(model: KeyModel): readonly [number, number] {
  const marks = [...model.positions.map((p) => p.angle), ...model.contacts.flatMap((c) => c.sectors.flat())];
  return [Math.min(...marks), Math.max(...marks)];
}

/** Middle of a stretch, degrees of switch travel. */
function stretchAt(piece: Piece, first: string, rest: string, model: KeyModel): Read<number> {
  const detents = [...model.positions].sort((a, b) => a.angle - b.angle);
  const names = detents.map((p) => p.name);
  const count = sameName(rest, names) === undefined ? /^(.+?)\s+(\d+)$/.exec(rest) : null;
  const [one, other] = [sameName(first, names), sameName(count?.[1] ?? rest, names)];
  const stretches = keyStretches(model).filter((s) => !s.detent);
  const whole = detents.slice(1).map((p, k) => `between ${detents[k]!.name} and ${p.name}`);
  const wrong = (what: string, mend: readonly string[]) => failed(problemAt(piece, 'key-stretch', what, why, mend));
  if (one === undefined) return wrong(`\`${first}\` is no position of the key switch`, near(first, names));
  if (other === undefined) return wrong(`\`${count?.[1] ?? rest}\` is no position of the key switch`, near(count?.[1] ?? rest, names));
  const [low, high] = [one, other].map((n) => names.indexOf(n)).sort((a, b) => a - b) as [number, number];
  if (low === high)
    return wrong(`there is nothing between ${one} and ${other}: they are one detent`, whole.slice(Math.max(0, low - 1), low + 1));
  if (high - low > 1)
    return wrong(`${wordsJoined(names.slice(low + 1, high))} ${high - low > 2 ? 'lie' : 'lies'} between ${names[low]} and ${names[high]}`, [
      ...whole.slice(low, high),
    ]);
  const own = stretches.filter((s) => s.from >= detents[low]!.angle && s.to <= detents[high]!.angle);
  if (count === null) return done(own.length === 0 ? easedOff(model, detents[low]!.angle, detents[high]!.angle) : longest(own));
  const chosen = own[Number(count[2]) - 1];
  if (chosen) return done(chosen.angle);
  const has = own.length === 0 ? 'no stretch of their own' : own.length === 1 ? 'one stretch' : `${own.length} stretches`;
  return wrong(
    `between ${names[low]} and ${names[high]} the contacts have ${has}`,
    own.length === 0 ? [whole[low]!] : own.map((s) => s.name),
  );
}

type Span = { readonly from: number; readonly to: number };
const longest = (spans: readonly Span[]): number => {
  const span = spans.reduce((best, s) => (s.to - s.from > best.to - best.from ? s : best));
  return (span.from + span.to) / 2;
};

/** Where no stretch differs from both detents: the middle of the longest run without a change, so that no contact is on its edge. */
function easedOff(model: KeyModel, from: number, to: number): number {
  const edges = model.contacts.flatMap((c) => c.sectors.flat()).filter((e) => e > from && e < to);
  const cuts = [...new Set([from, ...edges, to])].sort((a, b) => a - b);
  return longest(cuts.slice(1).map((end, k) => ({ from: cuts[k]!, to: end })));
}

function near(word: string, names: readonly string[]): readonly string[] {
  const close = nearNames(word, names);
  return close.length > 0 ? close : names;
}
