import type { EngineState } from '../circuit/scene.ts';

/** How the engine turns. Speeds in 1/min. */
export type EngineMotion = {
  readonly speed: number;
  /** Running on its own: it has fired and not died since. */
  readonly fires: boolean;
  /** Seconds of spark and fuel since it began to be turned fast enough; it fires when that is long enough. */
  readonly ready_s: number;
};

/** What the wiring gives the engine at an instant. */
export type EngineFed = {
  readonly cranks: boolean /** Volts at the starter over its rated volts. */;
  readonly share: number;
  readonly alive: boolean;
};

export const standing: EngineMotion = { speed: 0, fires: false, ready_s: 0 };

/** All estimates, typical of a small warm engine; common practice, no source. */
const motion = {
  /** Cranking speed at the rated volts of the starter, 1/min; common values are 150 to 250. */
  crank_rpm: 230,
  /** Below this it turns too slowly to fire. */
  fire_rpm: 80,
  /** Turning with spark and fuel before it catches, s. */
  catch_s: 0.4,
  idle_rpm: 850,
  /** Time constants towards cranking speed, idle, and standstill, s. Standstill: dies within about a second. */
  crank_tau: 0.12,
  idle_tau: 0.35,
  stop_tau: 0.45,
  /** Under this speed an engine without spark or fuel is gone for good, 1/min. */
  lost_rpm: 250,
  still_rpm: 20,
} as const;

/** Speed it tends to, and the time constant, while what it is fed stays the same. */
function tendsTo(engine: EngineMotion, fed: EngineFed): { target: number; tau: number } {
  if (engine.fires && fed.alive) return { target: motion.idle_rpm, tau: motion.idle_tau };
  if (fed.cranks) return { target: motion.crank_rpm * Math.max(0, Math.min(1.2, fed.share)), tau: motion.crank_tau };
  return { target: 0, tau: motion.stop_tau };
}

/** The engine some seconds later, in closed form. */
export function engineAfter(engine: EngineMotion, fed: EngineFed, seconds: number): EngineMotion {
  const { target, tau } = tendsTo(engine, fed);
  const speed = target + (engine.speed - target) * Math.exp(-seconds / tau);
  const turning = fed.alive && speed >= motion.fire_rpm * 0.999;
  const ready_s = turning ? engine.ready_s + seconds : 0;
  const fires = engine.fires ? fed.alive || speed > motion.lost_rpm : fed.alive && ready_s >= motion.catch_s - 1e-9;
  const stands = speed < motion.still_rpm && target === 0;
  return { speed: stands ? 0 : speed, fires: fires && !stands, ready_s };
}

/** Seconds until the next moment at which the engine's state could change; `Infinity` when it stays as it is. */
export function nextEngineEvent(engine: EngineMotion, fed: EngineFed): number {
  const { target, tau } = tendsTo(engine, fed);
  const times = [motion.fire_rpm, motion.lost_rpm, motion.still_rpm, turns_rpm].map((mark) => {
    const [far, near] = [engine.speed - target, mark - target];
    return far * near > 0 && Math.abs(near) < Math.abs(far) - 1e-9 ? tau * Math.log(far / near) + 1e-6 : Number.POSITIVE_INFINITY;
  });
  if (!engine.fires && fed.alive && engine.speed >= motion.fire_rpm) times.push(Math.max(1e-6, motion.catch_s - engine.ready_s));
  return Math.min(...times);
}

/** From this speed the alternator is driven and the oil pressure is up, 1/min (estimate). */
const turns_rpm = 400;

/** The engine as the parts see it. */
export function engineStateOf(engine: EngineMotion, cranks: boolean): EngineState {
  if (engine.speed >= turns_rpm) return 'running';
  return cranks && engine.speed > 0 ? 'cranking' : cranks ? 'cranking' : 'stopped';
}

/** A word for the strip and the events. */
export function engineWord(engine: EngineMotion, cranks: boolean): 'cranks' | 'runs' | 'runs down' | 'still' {
  if (engine.fires) return 'runs';
  if (cranks) return 'cranks';
  return engine.speed > 0 ? 'runs down' : 'still';
}
