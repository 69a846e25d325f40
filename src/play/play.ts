import type { Circuit } from '../circuit/circuit.ts';
import type { HandAction } from '../circuit/handPhrase.ts';
import { closedAt } from '../circuit/keyStretches.ts';
import { keyTakenOut } from '../circuit/keySwitchOf.ts';
import type { KeyModel } from '../circuit/part.ts';
import type { KeyPlace } from '../circuit/scene.ts';
import { restScene } from '../circuit/scenePhrase.ts';
import { engineHandled } from './engineMotion.ts';
import { handed, undone } from './hand.ts';
import { type Corner, firstMoment, type Moment, type PlayEvent, type Put, type Sample } from './moment.ts';
import { Player, type Stopped } from './player.ts';
import type { Step } from './story.ts';

/** Degrees a second: an ordinary turn, and a slow one (estimate: SAE J259 lets a key travel take 0.1 to 0.5 s). */
const handSpeed = 150;
const easeSpeed = 15;
/** Return by the spring, degrees a second (estimate). */
const springSpeed = 400;

/** A story that has been played. Plain data, but for the solved circuit in each sample. */
export type Played = {
  readonly samples: readonly Sample[];
  readonly events: readonly PlayEvent[];
  /** Where the key was: straight between two corners. */
  readonly travel: readonly Corner[];
  /** When each step of the story began. */
  readonly steps: readonly { readonly t: number; readonly text: string }[];
  /** Where it stopped; a story continues from here. */
  readonly end: Moment;
  /** Slow quantities are off by no more than this share of themselves or of 1, whichever is more. */
  readonly bound: number;
  /** Why it stopped before its end. */
  readonly chatters?: Stopped;
};

/**
 * Plays a story on a circuit, which stays as it is.
 *
 * @param put   the faults in it: their changes, and those that are there only sometimes
 * @param from  a moment to continue from, or the seed of a new story
 */
export function play(
  circuit: Circuit,
  story: readonly Step[],
  put: Put = { changes: [], sometimes: [] },
  from: Moment | number = 1,
): Played {
  const player = new Player(circuit, put, typeof from === 'number' ? firstMoment(restScene(circuit), from) : from);
  const steps: { t: number; text: string }[] = [];
  for (const step of story) {
    if (player.chatters) break;
    steps.push({ t: player.moment.t, text: step.text });
    act(player, step);
    player.wait(step.holds);
  }
  const { samples, events, travel, moment: end, bound, chatters } = player;
  return { samples, events, travel, steps, end, bound, ...(chatters && { chatters }) };
}

function act(player: Player, { does }: Step): void {
  if (does.act === 'jolt') jolt(player);
  else if (does.act === 'hand') handle(player, does.hand, does.back);
  else if (does.act === 'key out') {
    if (player.keyModel) turn(player, keyTakenOut(player.keyModel).angle, handSpeed);
    setKey(player, (key) => ({ ...key, in: false }));
  } else if (does.act === 'key in') setKey(player, (key) => ({ ...key, in: true }));
  else if (does.act === 'release') release(player);
  else if (does.act === 'turn') turn(player, does.to.angle, does.slowly ? easeSpeed : handSpeed);
}

function handle(player: Player, hand: HandAction, back: boolean): void {
  const { scene, engine } = player.moment;
  player.setScene(back ? undone(scene, hand) : handed(scene, hand));
  if (hand.does === 'swap' && !back) player.renew(hand.part);
  if (hand.does === 'engine') player.change({ engine: engineHandled(engine, hand.engine) });
  player.redraw();
}

function setKey(player: Player, change: (key: KeyPlace) => KeyPlace): void {
  const { scene } = player.moment;
  if (scene.key) player.setScene({ ...scene, key: change(scene.key) });
}

/** The spring takes the key back; a weak one stops short, and it is said where. */
function release(player: Player): void {
  const { key } = player.moment.scene;
  const model = player.keyModel;
  if (!key || !model) return;
  const home = model.released(key);
  if (home.angle === key.angle) return;
  turn(player, home.angle, springSpeed);
  const named = model.positions.find((p) => p.angle === home.angle)?.name;
  player.say(named ? `key springs back to ${named}` : `key stops short at ${Math.round(home.angle)}°`, '');
}

/** A knock makes what comes and goes do so, and shakes a key that stands between detents into the nearer one. */
function jolt(player: Player): void {
  player.redraw();
  player.say('jolt');
  const { key } = player.moment.scene;
  const model = player.keyModel;
  if (!key || !model) return;
  const near = [...model.positions].sort((a, b) => Math.abs(a.angle - key.angle) - Math.abs(b.angle - key.angle))[0];
  if (near && near.angle !== key.angle) turn(player, near.angle, springSpeed);
}

/**
 * Turns the key through everything on the way: time passes from one change of contacts to the next, so that what a
 * contact does for a few milliseconds is played too. A start-repeat lock stops it.
 */
function turn(player: Player, to: number, degreesPerSecond: number): void {
  const model = player.keyModel;
  const start = player.moment.scene.key;
  if (!model || !start) return;
  player.redraw();
  const stop = barred(player, model, start, to);
  const came = stop >= start.angle ? 'up' : 'back';
  if (!start.in) setKey(player, (key) => ({ ...key, in: true }));
  if (stop !== start.angle) setKey(player, (key) => ({ ...key, came }));
  let at = start.angle;
  for (const mark of [...marks(model, start, stop), stop]) {
    player.wait(Math.abs(mark - at) / degreesPerSecond);
    setKey(player, (key) => ({ ...key, angle: mark }));
    at = mark;
  }
  const guarded = model.positions.find((p) => p.repeatLock);
  const { locked } = player.moment;
  const first = Math.min(...model.positions.map((p) => p.angle));
  const now = stop <= first ? false : locked || (guarded !== undefined && stop >= guarded.angle);
  if (now !== locked) player.moment = { ...player.moment, locked: now };
}

function barred(player: Player, model: KeyModel, key: KeyPlace, to: number): number {
  const guarded = model.positions.find((p) => p.repeatLock);
  if (!guarded || !player.moment.locked || to < guarded.angle || key.angle >= guarded.angle) return to;
  const before = model.positions.filter((p) => p.angle < guarded.angle).at(-1)!;
  player.say(`start-repeat lock: back to ${model.positions[0]!.name} first`, '');
  return Math.max(key.angle, before.angle);
}

/** Angles on the way, just past every change of contacts, in the order of the turn. */
function marks(model: KeyModel, key: KeyPlace, to: number): readonly number[] {
  const came = to >= key.angle ? 'up' : 'back';
  const step = 0.25 * Math.sign(to - key.angle);
  const closed = (angle: number) => closedAt(model, model.switchAngle({ angle, came, in: true })).join();
  const found: number[] = [];
  if (step === 0) return found;
  let before = closed(key.angle);
  for (let angle = key.angle + step; Math.sign(step) * (to - angle) > 0; angle += step) {
    const now = closed(angle);
    if (now !== before) found.push(angle);
    before = now;
  }
  return found;
}
