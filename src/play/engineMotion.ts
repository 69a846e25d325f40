import type { EngineState } from '../circuit/scene.ts';

/** How the engine turns. Speeds in 1/min. */
export type EngineMotion = {
  readonly speed: number;
  /** Running on its own: it has fired and not died since. */
  readonly fires: boolean;
  /** Seconds of spark and fuel since it began to be turned fast enough; it fires when that is long enough. */
  readonly ready_s: number;
  /** Somebody holds it off by other means (stop knob, stalled in gear) until it stands. */
  readonly heldOff: boolean;
};

/** What the wiring gives the engine at an instant. */
export type EngineFed = {
  /** The starter turns it. */
  readonly cranks: boolean;
  /** Speed of the starter as a share of that of a healthy vehicle. */
  readonly share: number;
  /** Spark and fuel are there, and nothing stops it. */
  readonly alive: boolean;
};

export type EngineWord = 'cranks' | 'runs' | 'runs down' | 'still';

export const standing: EngineMotion = { speed: 0, fires: false, ready_s: 0, heldOff: false };

/** All estimates, typical of a small warm engine; common practice, no source. */
const motion = {
  /** Cranking speed at the starter's rated volts, 1/min; common values are 150 to 250. */
  crank_rpm: 230,
  /** Below this it turns too slowly to fire. */
  fire_rpm: 80,
  /** Turning with spark and fuel before it catches, s. */
  catch_s: 0.4,
  idle_rpm: 850,
  /** From this speed the alternator is driven and the oil pressure is up. */
  turns_rpm: 400,
  /** Time constants towards cranking speed, idle, and standstill, s. Standstill: dies within about a second. */
  crank_tau: 0.12,
  idle_tau: 0.35,
  stop_tau: 0.45,
  /** Under this speed an engine without spark or fuel is gone for good, 1/min. */
  lost_rpm: 250,
  still_rpm: 20,
} as const;

/** Marks are passed by this much, s, so that what is asked just after one sees it passed. */
const past_s = 1e-6;

/** Speed it tends to, and the time constant, while what it is fed stays the same. */
function tendsTo(engine: EngineMotion, fed: EngineFed): { target: number; tau: number } {
  if (engine.fires && isAlive(engine, fed)) return { target: motion.idle_rpm, tau: motion.idle_tau };
  if (fed.cranks) return { target: motion.crank_rpm * Math.max(0, Math.min(1.2, fed.share)), tau: motion.crank_tau };
  return { target: 0, tau: motion.stop_tau };
}

const isAlive = (engine: EngineMotion, fed: EngineFed): boolean => fed.alive && !engine.heldOff;

/** The engine some seconds later, in closed form; exact up to its next event. */
export function engineAfter(engine: EngineMotion, fed: EngineFed, seconds: number): EngineMotion {
  if (engine.speed === 0 && !fed.cranks) return engine.heldOff ? standing : engine;
  const { target, tau } = tendsTo(engine, fed);
  const alive = isAlive(engine, fed);
  const speed = target + (engine.speed - target) * Math.exp(-seconds / tau);
  const ready_s = alive && speed >= motion.fire_rpm * 0.999 ? engine.ready_s + seconds : 0;
  const fires = engine.fires ? alive || speed > motion.lost_rpm : alive && ready_s >= motion.catch_s - 1e-9;
  if (speed < motion.still_rpm && target === 0) return standing;
  return { speed, fires, ready_s, heldOff: engine.heldOff };
}

/** Seconds until the next moment at which the engine's state could change; `Infinity` when it stays as it is. */
export function nextEngineEvent(engine: EngineMotion, fed: EngineFed): number {
  const { target, tau } = tendsTo(engine, fed);
  let soonest = Number.POSITIVE_INFINITY;
  for (const mark of [motion.fire_rpm, motion.lost_rpm, motion.still_rpm, motion.turns_rpm]) {
    const [far, near] = [engine.speed - target, mark - target];
    if (far * near > 0 && Math.abs(near) < Math.abs(far) - 1e-9) soonest = Math.min(soonest, tau * Math.log(far / near) + past_s);
  }
  if (!engine.fires && isAlive(engine, fed) && engine.speed >= motion.fire_rpm)
    soonest = Math.min(soonest, Math.max(past_s, motion.catch_s - engine.ready_s));
  return soonest;
}

/** What a person does to the engine besides key and wiring: stops it by its knob, has it running, pushes it. */
export function engineHandled(engine: EngineMotion, to: EngineState): EngineMotion {
  if (to === 'stopped') return engine.speed === 0 ? standing : { ...engine, fires: false, ready_s: 0, heldOff: true };
  return to === 'running'
    ? { speed: motion.idle_rpm, fires: true, ready_s: 0, heldOff: false }
    : { speed: motion.crank_rpm, fires: false, ready_s: 0, heldOff: false };
}

/** The engine as the parts see it. */
export function engineStateOf(engine: EngineMotion, cranks: boolean): EngineState {
  if (engine.speed >= motion.turns_rpm) return 'running';
  return cranks ? 'cranking' : 'stopped';
}

/** A word for the strip and the events. */
export function engineWord(engine: EngineMotion, cranks: boolean): EngineWord {
  if (engine.fires) return 'runs';
  if (cranks) return 'cranks';
  return engine.speed > 0 ? 'runs down' : 'still';
}

/** What to say when the word changes. */
export function engineEvent(from: EngineWord, to: EngineWord): string {
  if (to === 'runs') return 'engine fires and runs';
  if (to === 'cranks') return from === 'runs' ? 'engine dies, the starter still turns it' : 'starter turns the engine';
  if (from === 'runs') return 'engine dies';
  if (to === 'still') return 'engine stands still';
  return 'starter is out, the engine runs down';
}
