import { readQuantity } from '../circuit/quantity.ts';
import type { EngineState } from '../circuit/scene.ts';

/** How far an electronic module has gone to sleep. `off`: without supply. */
export type ModuleMode = 'awake' | 'after-run' | 'asleep' | 'off';

/** When a module closes an output or stays awake, as written in plain words. */
export type ModuleCondition =
  | { readonly is: 'any' | 'all'; readonly of: readonly ModuleCondition[] }
  | { readonly is: 'not'; readonly of: ModuleCondition }
  | { readonly is: 'always' | 'never' }
  | { readonly is: 'engine'; readonly does: 'turning' | EngineState }
  | { readonly is: 'mode'; readonly mode: ModuleMode }
  | { readonly is: 'pin'; readonly pin: string; readonly level: 'live' | 'grounded' }
  | { readonly is: 'within'; readonly seconds: number; readonly pin: string };

/** Why a text is no condition: `at` and `length` in UTF-16 units of the text. */
export type ConditionProblem = { readonly at: number; readonly length: number; readonly what: string; readonly mend: string };
export type ConditionRead =
  | { readonly ok: true; readonly condition: ModuleCondition }
  | { readonly ok: false; readonly problem: ConditionProblem };

/** What a condition may ask about at one instant. */
export type ModuleWorld = {
  readonly engine: EngineState;
  readonly mode: ModuleMode;
  readonly isLive: (pin: string) => boolean;
  readonly isGrounded: (pin: string) => boolean;
  /** Seconds since the pin became live; 0 in a single scene. */
  readonly liveFor_s: (pin: string) => number;
};

type Word = { readonly text: string; readonly at: number };

const engineWords = ['turning', 'cranking', 'running', 'stopped'] as const;
const modeWords = ['awake', 'after-run', 'asleep'] as const;
const reserved = new Set(['and', 'or', 'not', 'engine', 'within', 'of', 'live', 'grounded', 'always', 'never', ...modeWords]);
const mostDeep = 40;

/**
 * Reads a condition such as `15 and (50 or engine turning)`.
 *
 *     any    = all { "or" all }                        `and` binds closer than `or`
 *     all    = one { "and" one }
 *     one    = "not" one | "(" any ")" | "always" | "never"
 *            | "engine" ( "turning" | "cranking" | "running" | "stopped" )       turning = cranking or running
 *            | "awake" | "after-run" | "asleep"                                  the module's own state
 *            | PIN [ "live" ] | PIN "grounded"                                   PIN: as named in `pins` or `outputs`
 *            | "within" TIME "of" PIN                                            TIME: `2 s`, `500 ms`; the first moments after the pin became live
 *
 * Words are separated by spaces, keywords are small letters, pins are written exactly as they are named.
 * Not checked here: whether the pins exist (`pinsNamed` gives them to whoever knows).
 */
export function readCondition(text: string): ConditionRead {
  const words: readonly Word[] = [...text.matchAll(/[()]|[^\s()]+/g)].map((m) => ({ text: m[0], at: m.index }));
  let next = 0;
  let depth = 0;
  const fail = (word: Word | undefined, what: string, mend: string): never => {
    throw new Unreadable(word ? { at: word.at, length: word.text.length, what, mend } : { at: text.length, length: 1, what, mend });
  };
  const take = (wanted: string): boolean => {
    if (words[next]?.text !== wanted) return false;
    next++;
    return true;
  };
  const several = (is: 'any' | 'all', between: string, piece: () => ModuleCondition): ModuleCondition => {
    const of = [piece()];
    while (take(between)) of.push(piece());
    return of.length === 1 ? of[0]! : { is, of };
  };
  const any = (): ModuleCondition => several('any', 'or', () => several('all', 'and', one));
  const one = (): ModuleCondition => {
    if (++depth > mostDeep) fail(words[next], `the condition is nested more than ${mostDeep} deep`, 'write it with fewer brackets');
    const condition = piece();
    depth--;
    return condition;
  };
  const piece = (): ModuleCondition => {
    const word = words[next];
    if (!word) return fail(word, 'the condition ends where a pin or a state should follow', 'add it, or leave the last word out');
    next++;
    if (word.text === 'not') return { is: 'not', of: one() };
    if (word.text === '(') {
      const inside = any();
      if (!take(')')) fail(words[next], 'a bracket is not closed', 'add `)`');
      return inside;
    }
    if (word.text === 'always' || word.text === 'never') return { is: word.text };
    const mode = modeWords.find((m) => m === word.text);
    if (mode) return { is: 'mode', mode };
    if (word.text === 'engine') {
      const does = engineWords.find((w) => w === words[next]?.text);
      if (!does) return fail(words[next] ?? word, `the engine is ${engineWords.join(', ')}`, `write \`engine ${engineWords[0]}\``);
      next++;
      return { is: 'engine', does };
    }
    if (word.text === 'within') return within(word);
    if (word.text === ')' || reserved.has(word.text))
      return fail(word, `\`${word.text}\` stands where a pin or a state should be`, 'leave it out, or put a pin before it');
    if (take('grounded')) return { is: 'pin', pin: word.text, level: 'grounded' };
    take('live');
    return { is: 'pin', pin: word.text, level: 'live' };
  };
  const within = (word: Word): ModuleCondition => {
    const from = next;
    while (next < words.length && words[next]!.text !== 'of') next++;
    const time = words.slice(from, next).map((w) => w.text);
    const read = readQuantity(time.join(' '), 'time');
    if (!read.ok || read.value < 0) return fail(words[from] ?? word, 'after `within` a time is needed', 'write `within 2 s of 15`');
    if (!take('of')) fail(undefined, 'after the time `of` and a pin are needed', 'write `within 2 s of 15`');
    const pin = words[next++];
    if (!pin || reserved.has(pin.text) || /[()]/.test(pin.text)) return fail(pin, 'after `of` a pin is needed', 'write `within 2 s of 15`');
    return { is: 'within', seconds: read.value, pin: pin.text };
  };
  try {
    if (words.length === 0) fail(undefined, 'the condition is empty', 'write `always`, or a pin such as `15`');
    const condition = any();
    const left = words[next];
    if (left) fail(left, `\`${left.text}\` follows where \`and\` or \`or\` is needed`, 'put `and` or `or` before it');
    return { ok: true, condition };
  } catch (thrown) {
    if (thrown instanceof Unreadable) return { ok: false, problem: thrown.problem };
    throw thrown;
  }
}

/** Carries a problem out of the recursion; never leaves this file. */
class Unreadable extends Error {
  readonly problem: ConditionProblem;
  constructor(problem: ConditionProblem) {
    super(problem.what);
    this.problem = problem;
  }
}

/** Whether a condition is met. */
export function isMet(condition: ModuleCondition, world: ModuleWorld): boolean {
  switch (condition.is) {
    case 'any':
      return condition.of.some((c) => isMet(c, world));
    case 'all':
      return condition.of.every((c) => isMet(c, world));
    case 'not':
      return !isMet(condition.of, world);
    case 'always':
      return true;
    case 'never':
      return false;
    case 'engine':
      return condition.does === 'turning' ? world.engine !== 'stopped' : world.engine === condition.does;
    case 'mode':
      return world.mode === condition.mode;
    case 'pin':
      return condition.level === 'live' ? world.isLive(condition.pin) : world.isGrounded(condition.pin);
    case 'within':
      return world.isLive(condition.pin) && world.liveFor_s(condition.pin) < condition.seconds;
  }
}

/** Every place where a condition names a pin, and what it asks there. */
export function pinsNamed(
  condition: ModuleCondition,
): readonly { readonly pin: string; readonly asks: 'live' | 'grounded' | 'within'; readonly seconds: number }[] {
  switch (condition.is) {
    case 'any':
    case 'all':
      return condition.of.flatMap(pinsNamed);
    case 'not':
      return pinsNamed(condition.of);
    case 'pin':
      return [{ pin: condition.pin, asks: condition.level, seconds: 0 }];
    case 'within':
      return [{ pin: condition.pin, asks: 'within', seconds: condition.seconds }];
    default:
      return [];
  }
}
