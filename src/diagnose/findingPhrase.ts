import type { Circuit } from '../circuit/circuit.ts';
import { settingText } from '../circuit/handPhrase.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import { nearNames } from '../circuit/nearNames.ts';
import { done, failed, listed, type Piece, part, pieceOf, problemAt } from '../circuit/phrasePiece.ts';
import { partAt } from '../circuit/placePhrase.ts';
import type { Problem, Read } from '../circuit/problem.ts';
import type { Scene } from '../circuit/scene.ts';
import { restScene, sceneOf, sceneText } from '../circuit/scenePhrase.ts';
import type { EngineWord, Finding, Observable, SeenWord } from './finding.ts';
import { examplesOf } from './findingExamples.ts';
import { findingText, offVehicle } from './findingText.ts';
import { handLeftOut, hasCome, sceneMeant } from './handAssumed.ts';
import { benchAt, meanwhileAt, type Noticed, readingAt } from './readingPhrase.ts';

const seenWords: readonly SeenWord[] = ['works', 'weak', 'dead', 'comes and goes', 'hot', 'not tried'];
const engineWords: readonly EngineWord[] = ['cranks', 'cranks slowly', 'fires', 'runs', 'dies', 'still'];
const outcomes = ['no change', 'cured', 'changes'] as const;
type Outcome = (typeof outcomes)[number];
const exchanges = ['replaced', 'swapped'] as const;
const touches = ['wiggled', 'heated', 'tapped'] as const;

/** A part that was exchanged or touched, as the scene of a finding says it. */
type Act = { readonly how: (typeof exchanges)[number] | (typeof touches)[number]; readonly part: string; readonly piece: Piece };
type Head = { readonly scene: Scene; readonly acts: readonly Act[]; readonly off: boolean };

/**
 * Reads what was found: `SCENE: what was seen`, several joined by commas, one finding each, in the order told.
 *
 * Seen: `M1 works`, `engine dies`, `0.4 V at S1.15`, `11.8 V from S1.30 to S1.15`, `320 mA at G1.-`, each reading with
 * an instrument behind it if it was another than the usual (`with test lamp`, `with clamp`), and the load that was
 * watched meanwhile where it comes and goes (`0 V at B1.1 while B1 dead`); `off the vehicle: S1.30 to S1.15 at ON open`; `replaced S1: no change`, `swapped S1: cured`, `wiggled X2: changes`.
 *
 * A load, or the engine, is taken with what it needs switched on, as in the position table, whether it came or not, unless the phrase
 * sets that otherwise: `ON: M3 dead` as `ON, S6 on: M3 dead`, `ON: M3 works` likewise; `ON, S6 off: M3 dead` as it stands.
 *
 * Problems: no-scene, unknown-seen, not-a-load, reading-quantity, outcome, hand-assumed (a warning), and those of scenes and places.
 */
export function readFinding(text: string, circuit: Circuit, file = '--saw', line = 1): Read<readonly Finding[]> {
  const whole = pieceOf(text, file, 1, line);
  const colon = whole.text.indexOf(':');
  if (colon < 0)
    return failed(
      problemAt(
        whole,
        'no-scene',
        `\`${whole.text}\` does not say in which scene it was seen`,
        'the same load can work in one key position and be dead in another',
        [`${sceneText(exampleScene(circuit), circuit)}: ${whole.text || examplesOf(circuit).load}`],
      ),
    );
  const head = headAt(part(whole, 0, colon), circuit);
  const told = listed(part(whole, colon + 1));
  const problems: Problem[] = head.ok ? [] : [...head.problems];
  const findings: Finding[] = [];
  for (const piece of told) {
    const noticed = head.ok
      ? noticedAt(piece, head.value, circuit)
      : noticedAt(
          piece,
          { scene: restScene(circuit), acts: [], off: new RegExp(offVehicle, 'i').test(whole.text.slice(0, colon)) },
          circuit,
        );
    // With its scene unread, an outcome cannot be told to fit it or not.
    if (!noticed.ok) problems.push(...noticed.problems.filter((p) => head.ok || p.code !== 'outcome'));
    else if (head.ok) {
      const { finding, warnings } = understood({ ...noticed.value, scene: sceneFor(noticed.value, head.value) }, piece, circuit);
      findings.push(finding);
      problems.push(...warnings);
    }
  }
  return problems.some((p) => p.severity === 'error') ? failed(...problems) : { ok: true, value: findings, problems };
}

/** A finding in the scene that it means: switches that were left out are set as the position table would, and that is said. */
function understood(
  told: Noticed & { readonly scene: Scene },
  piece: Piece,
  circuit: Circuit,
): { readonly finding: Finding; readonly warnings: readonly Problem[] } {
  const literal = { ...told, scene: sceneMeant(told, circuit) };
  const hand = literal.scene === told.scene ? handLeftOut(told, circuit) : undefined;
  if (hand === undefined) return { finding: withPhrase(literal, circuit), warnings: [] };
  const finding = withPhrase({ ...told, scene: { ...told.scene, hand: { ...told.scene.hand, ...hand } } }, circuit);
  const set = Object.entries(hand).map(([id, setting]) => settingText(id, setting));
  const works = told.observable.of === 'load' ? `${told.observable.load} works` : 'the engine cranks';
  const what = `${works} only with ${set.join(' and ')}; taken as \`${finding.phrase}\``;
  const why = hasCome(told.seen)
    ? 'as it was said it would work though nothing was switched on; if it did, say that'
    : 'as it was said a sound vehicle shows the same, and nothing would be amiss; if nothing was switched on, say that';
  return { finding, warnings: [{ ...problemAt(piece, 'hand-assumed', what, why, [findingText(told, circuit)]), severity: 'warning' }] };
}

/** An outcome is told of the vehicle as it is; what a load does is told of the vehicle with the other part in. */
function sceneFor({ observable }: Noticed, { scene, acts }: Head): Scene {
  if (observable.of === 'exchange' || observable.of === 'touch' || acts.length === 0) return scene;
  return { ...scene, swapped: [...new Set([...scene.swapped, ...acts.map((a) => a.part)])] };
}

function withPhrase(noticed: Noticed & { readonly scene: Scene }, circuit: Circuit): Finding {
  const { scene, observable, seen } = noticed;
  return { scene, observable, seen, phrase: findingText(noticed, circuit) };
}

function headAt(piece: Piece, circuit: Circuit): Read<Head> {
  const pieces = listed(piece);
  const isOff = (p: Piece) => p.text.toLowerCase() === offVehicle;
  const actOf = (p: Piece) => /^(replaced|swapped|wiggled|heated|tapped)\s+(.*)$/i.exec(p.text);
  const acts = pieces.filter((p) => actOf(p) !== null);
  const rest = pieces.filter((p) => !isOff(p) && !acts.includes(p));
  const scene = rest.length === 0 ? done({ scene: restScene(circuit), engineSaid: false }) : sceneOf(rest, circuit);
  const off = rest.length < pieces.length - acts.length;
  const problems: Problem[] = scene.ok ? [] : [...scene.problems];
  const read = acts.map((p): { how: Act['how']; piece: Piece; on: Read<{ readonly id: string }> } => {
    const [, how, who] = actOf(p)!;
    return { how: how!.toLowerCase() as Act['how'], piece: p, on: partAt(part(p, p.text.length - who!.length), circuit) };
  });
  for (const { on } of read) if (!on.ok) problems.push(...on.problems);
  if (off && rest.length + acts.length > 0)
    problems.push(
      problemAt(piece, 'no-scene', `\`${offVehicle}\` stands alone before the colon`, 'a part on the bench has no scene', [
        `${offVehicle}: ${examplesOf(circuit).bench} open`,
      ]),
    );
  if (problems.length > 0 || !scene.ok) return failed(...problems);
  const told = read.flatMap(({ how, piece: p, on }): Act[] => (on.ok ? [{ how, part: on.value.id, piece: p }] : []));
  return done({ scene: scene.value.scene, acts: told, off });
}

function noticedAt(piece: Piece, head: Head, circuit: Circuit): Read<Noticed> {
  const text = piece.text.toLowerCase();
  const outcome = outcomes.find((o) => o === text);
  if (outcome !== undefined) return outcomeOf(piece, outcome, head.acts, circuit);
  if (head.off) return benchAt(piece, circuit);
  const touched = head.acts.find((a) => touches.some((t) => t === a.how));
  if (touched) {
    if (text.endsWith('comes and goes')) return outcomeOf(piece, 'changes', head.acts, circuit);
    const told = `${touched.how} ${touched.part}`;
    const what = `after \`${touched.piece.text}\` it is said whether that changed anything`;
    return failed(
      problemAt(piece, 'outcome', what, 'what it did meanwhile decides, not how it is', [`${told}: changes`, `${told}: no change`]),
    );
  }
  if (/^[-+.\d]/.test(text)) return readingAt(piece, circuit);
  if (/^engine(\s|$)/.test(text)) {
    const word = engineWords.find((w) => w === text.slice(6).trim().replace(/\s+/g, ' '));
    if (word) return done({ observable: { of: 'engine' }, seen: { engine: word } });
    return failed(
      problemAt(
        piece,
        'unknown-seen',
        `\`${piece.text}\` is not how an engine is seen`,
        'each word stands for something else that was there or missing',
        engineWords.map((w) => `engine ${w}`),
      ),
    );
  }
  return meanwhileAt(piece, circuit, loadAt);
}

function outcomeOf(piece: Piece, outcome: Outcome, acts: readonly Act[], circuit: Circuit): Read<Noticed> {
  const [act, second] = acts;
  if (!act) {
    const { exchanged, touched } = examplesOf(circuit);
    const mend = [`${exchanged}: ${outcome}`, `${touched}: ${outcome}`];
    const what = `\`${outcome}\` does not say what was exchanged or touched`;
    return failed(problemAt(piece, 'outcome', what, 'an outcome belongs to something that was done', mend));
  }
  if (second) {
    const mend = acts.map((a) => `${a.how} ${a.part}: ${outcome}`);
    const what = 'two parts were exchanged or touched in one finding';
    return failed(problemAt(second.piece, 'outcome', what, 'one thing at a time shows which of them mattered', mend));
  }
  const exchange = exchanges.find((e) => e === act.how);
  const touch = touches.find((t) => t === act.how);
  const observable: Observable = exchange
    ? { of: 'exchange', part: act.part, how: exchange }
    : { of: 'touch', part: act.part, how: touch ?? 'wiggled' };
  return done({ observable, seen: { outcome } });
}

function loadAt(piece: Piece, circuit: Circuit): Read<Noticed> {
  const text = piece.text.toLowerCase();
  const word = seenWords.find((w) => text === w || text.endsWith(` ${w}`));
  if (word === undefined) {
    const first = partAt(part(piece, 0, /^\S*/.exec(piece.text)![0].length), circuit);
    const mend = first.ok ? seenWords.slice(0, 4).map((w) => `${first.value.id} ${w}`) : nearNames(piece.text, loadPhrases(circuit));
    return failed(
      problemAt(
        piece,
        'unknown-seen',
        piece.text === '' ? 'what was seen is missing' : `\`${piece.text}\` does not say what was seen`,
        `seen words are ${seenWords.join(', ')}`,
        mend.length > 0 ? mend : [examplesOf(circuit).load, examplesOf(circuit).volts],
      ),
    );
  }
  const who = part(piece, 0, piece.text.length - word.length);
  const read = partAt(who, circuit);
  if (!read.ok) return read;
  if (word === 'hot' || read.value.kind.judge !== undefined)
    return done({ observable: { of: 'load', load: read.value.id }, seen: { word } });
  return failed(
    problemAt(
      who,
      'not-a-load',
      `${read.value.id} (${read.value.name ?? read.value.kind.title}) does not work or fail by itself`,
      'a part that only passes current on is read with a meter',
      [`0.4 V at ${terminalOf(read.value.id, circuit)}`, `${read.value.id} hot`],
    ),
  );
}

function exampleScene(circuit: Circuit): Scene {
  const rest = restScene(circuit);
  const last = keySwitchOf(circuit)?.model.positions.at(-1);
  return last ? { ...rest, key: { angle: last.angle, came: 'up', in: true } } : rest;
}

function loadPhrases(circuit: Circuit): readonly string[] {
  return [...circuit.parts.values()].filter((p) => p.isLoad).flatMap((p) => seenWords.map((w) => `${p.id} ${w}`));
}

function terminalOf(id: string, circuit: Circuit): string {
  const p = circuit.parts.get(id)!;
  return `${id}.${p.kind.terminals(p)[0]?.name ?? '1'}`;
}
