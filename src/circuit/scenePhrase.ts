import type { Circuit } from './circuit.ts';
import { type HandAction, handAt, handPhrases, handTexts, looksLikeHand, settingText } from './handPhrase.ts';
import { keyPhrases, keyPlaceAt, keyText, looksLikeKeyPlace } from './keyPhrase.ts';
import { keySwitchOf, restKey } from './keySwitchOf.ts';
import { nearNames } from './nearNames.ts';
import { done, failed, listed, type Piece, part, pieceOf, problemAt } from './phrasePiece.ts';
import type { Problem, Read } from './problem.ts';
import { saidShort } from './quotedShort.ts';
import { type KeyPlace, type Scene, untouched } from './scene.ts';

export { readHand } from './handPhrase.ts';
export { keyText, readKeyPlace } from './keyPhrase.ts';

/** What a scene says when nothing is set and there is no key. */
const atRest = 'at rest';

/** The key at its first position, everything at rest, the engine stopped. */
export function restScene(circuit: Circuit): Scene {
  const lock = keySwitchOf(circuit);
  return lock ? { ...untouched, key: restKey(lock.model) } : untouched;
}

/**
 * Reads a scene: a key place and hand phrases in any order, joined by commas: `ON after START, S5 on, pulled F3`.
 * What it does not say is as in `restScene`.
 *
 * Problems: those of the pieces, and said-twice where two pieces cannot both be. All of them at once.
 */
export function readScene(text: string, circuit: Circuit, file: string, column = 1): Read<Scene> {
  const read = sceneAt(pieceOf(text, file, column), circuit);
  return read.ok ? { ...read, value: read.value.scene } : read;
}

/** A scene, and whether the phrase itself said how the engine stands. */
export type SceneSaid = { readonly scene: Scene; readonly engineSaid: boolean };

export function sceneAt(piece: Piece, circuit: Circuit): Read<SceneSaid> {
  return sceneOf(listed(piece), circuit);
}

export function sceneOf(pieces: readonly Piece[], circuit: Circuit): Read<SceneSaid> {
  const problems: Problem[] = [];
  let key: { piece: Piece; place: KeyPlace } | undefined;
  let engine: { piece: Piece; state: Scene['engine'] } | undefined;
  const hand: Record<string, string> = {};
  const apart = new Set<string>();
  const swapped = new Set<string>();
  const bridged: (readonly [string, string])[] = [];
  const take = (piece: Piece, action: HandAction) => {
    if (action.does === 'apart') apart.add(action.part);
    else if (action.does === 'swap') swapped.add(action.part);
    else if (action.does === 'engine') {
      if (engine && engine.state !== action.engine) problems.push(twice(piece, 'the engine', engine.state, action.engine));
      engine = { piece, state: action.engine };
    } else if (action.does === 'bridge') {
      const [a, b] = action.ends;
      if (!bridged.some(([c, d]) => (a === c && b === d) || (a === d && b === c))) bridged.push(action.ends);
    } else
      for (const { part, setting } of action.settings) {
        const before = hand[part];
        if (before !== undefined && before !== setting)
          problems.push(twice(piece, part, settingText(part, before), settingText(part, setting)));
        hand[part] = setting;
      }
  };
  for (const piece of pieces) {
    if (piece.text.toLowerCase() === atRest) continue;
    if (looksLikeHand(piece.text)) {
      const read = handAt(piece, circuit);
      if (read.ok) take(piece, read.value);
      else problems.push(...(commaLeftOut(piece, circuit) ?? read.problems));
      continue;
    }
    if (piece.text !== '' && !looksLikeKeyPlace(piece.text, circuit)) {
      const read = handAt(piece, circuit);
      if (read.ok) {
        take(piece, read.value);
        continue;
      }
      if (/\s/.test(piece.text)) {
        problems.push(...(commaLeftOut(piece, circuit) ?? read.problems.map((p) => withKeys(p, piece, circuit))));
        continue;
      }
    }
    const place = placeAt(piece, circuit);
    if (!place.ok) problems.push(...(commaLeftOut(piece, circuit) ?? place.problems));
    else if (key && keyText(key.place, circuit) !== keyText(place.value, circuit))
      problems.push(twice(piece, 'the key', key.piece.text, piece.text));
    else key ??= { piece, place: place.value };
  }
  if (problems.length > 0) return failed(...problems);
  const rest = restScene(circuit);
  return done({
    scene: {
      ...rest,
      ...(key && { key: key.place }),
      hand,
      engine: engine?.state ?? 'stopped',
      apart: [...apart],
      bridged,
      swapped: [...swapped],
    },
    engineSaid: engine !== undefined,
  });
}

/** The canonical phrase of a scene; `readScene` gives the same scene back. */
export function sceneText(scene: Scene, circuit: Circuit): string {
  const pieces = [...(scene.key ? [keyText(scene.key, circuit)] : []), ...handTexts(scene, circuit)];
  return pieces.length === 0 ? atRest : pieces.join(', ');
}

/** An empty piece, or one word: a key place where there is a key, else told as what it could have been. */
function placeAt(piece: Piece, circuit: Circuit): Read<KeyPlace> {
  if (keySwitchOf(circuit) && piece.text !== '') {
    const read = keyPlaceAt(piece, circuit);
    if (read.ok || looksLikeKeyPlace(piece.text, circuit)) return read;
    const problems = read.problems.map((p) => saidShort({ ...p, what: `\`${piece.text}\` is neither a key place nor a hand action` }));
    return failed(...problems.map((p) => withKeys(p, piece, circuit)));
  }
  if (piece.text !== '' && looksLikeKeyPlace(piece.text, circuit)) return keyPlaceAt(piece, circuit);
  const what = piece.text === '' ? 'a part of the scene is empty' : `\`${piece.text}\` is no hand action that Detent knows`;
  const mend = piece.text === '' ? [atRest] : nearNames(piece.text, [...handPhrases(circuit)]);
  return failed(problemAt(piece, 'unknown-hand', what, 'a scene is a key place and hand actions, joined by commas', mend));
}

/** Longer phrases are not tried, since every place between two words would be (estimate: several times what a person says in one breath). */
const mostLetters = 200;

/** `ON S4 on`: two things that were said in one breath, each of them right. */
function commaLeftOut(piece: Piece, circuit: Circuit): readonly Problem[] | undefined {
  if (piece.text.length > mostLetters) return undefined;
  const isRead = (p: Piece) => (looksLikeKeyPlace(p.text, circuit) ? keyPlaceAt(p, circuit).ok : handAt(p, circuit).ok);
  for (const { index } of piece.text.matchAll(/\s+/g)) {
    const [one, other] = [part(piece, 0, index), part(piece, index)];
    const areKeys = looksLikeKeyPlace(one.text, circuit) && looksLikeKeyPlace(other.text, circuit);
    if (areKeys || !isRead(one) || !isRead(other)) continue;
    const what = `\`${one.text}\` and \`${other.text}\` stand together without a comma`;
    return [
      problemAt(piece, 'unknown-hand', what, 'a scene is a key place and hand actions, joined by commas', [`${one.text}, ${other.text}`]),
    ];
  }
  return undefined;
}

/** Near phrases of either sort, nearest first. */
function withKeys(problem: Problem, piece: Piece, circuit: Circuit): Problem {
  if (problem.code !== 'unknown-hand' && problem.code !== 'unknown-key-place') return problem;
  if (keySwitchOf(circuit) === undefined) return problem;
  const near = nearNames(piece.text, [...keyPhrases(circuit), ...handPhrases(circuit)]);
  const what = `\`${piece.text}\` is neither a key place nor a hand action`;
  return saidShort({ ...problem, ...(problem.what.includes('no hand action') && { what }), ...(near.length > 0 && { mend: near }) });
}

function twice(piece: Piece, who: string, before: string, now: string): Problem {
  return problemAt(
    piece,
    'said-twice',
    `${who} is said twice and differently: \`${before}\` and \`${now}\``,
    'one scene is one instant; tell two findings for two instants',
    [`leave out \`${before}\``, `leave out \`${now}\``],
  );
}
