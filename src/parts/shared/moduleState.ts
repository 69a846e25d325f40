import type { Reading } from '../../circuit/element.ts';
import { remembered } from '../../circuit/remembered.ts';
import type { Condition, State } from '../../circuit/scene.ts';
import { isMet, type ModuleCondition, type ModuleMode, type ModuleWorld, pinsNamed } from '../moduleCondition.ts';
import { isFed } from './fed.ts';
import type { ModuleOutput, ModulePin } from './moduleForms.ts';

/** What a module holds, as far as its behaviour goes. */
export type ModuleHeld = {
  readonly pins: Readonly<Record<string, ModulePin>>;
  readonly outputs: Readonly<Record<string, ModuleOutput>>;
  readonly 'awake-when': ModuleCondition | undefined;
  readonly 'live-above': number;
  readonly needs: number;
  readonly 'kept-awake': 'no' | 'after-run' | 'awake';
};

/** A pulled-up input counts as grounded under the first, as let go above the second, V (estimate). */
const grounded_V = 1.5;
const letGo_V = 2.5;

/** The pin that feeds the module first of all: 30 where there is one, else 15, 87, or the first with a current. */
export function mainPin(pins: ModuleHeld['pins']): string {
  const drawing = Object.keys(pins).filter((name) => pins[name]!.is === 'draw');
  return ['30', '15', '87'].find((name) => drawing.includes(name)) ?? drawing[0] ?? '30';
}

/** When nothing is said: awake while any pin but the main one is live; a module with one pin alone never sleeps. */
export function awakeWhen(held: Pick<ModuleHeld, 'pins' | 'awake-when'>): ModuleCondition {
  if (held['awake-when']) return held['awake-when'];
  const main = mainPin(held.pins);
  const others = Object.keys(held.pins).filter((name) => name !== main);
  if (others.length === 0) return { is: 'always' };
  return {
    is: 'any',
    of: others.map((pin) => ({ is: 'pin', pin, level: held.pins[pin]!.is === 'pull-up' ? 'grounded' : 'live' })),
  };
}

export function modeOf(state: State): ModuleMode {
  const mode = state['mode'];
  return mode === 'awake' || mode === 'after-run' || mode === 'off' ? mode : 'asleep';
}

/** What a module goes by, worked out once: a search asks the same module thousands of times. */
type Ways = {
  readonly main: string;
  readonly awakeWhen: ModuleCondition;
  /** Pins that any condition asks about, each with the names under which its state is kept. */
  readonly felt: readonly {
    readonly pin: string;
    readonly live: string;
    readonly low: string | undefined;
    readonly since: string | undefined;
  }[];
  /** Pins whose live time counts, with the time after which it no longer matters, s. */
  readonly counted: ReadonlyMap<string, number>;
  readonly feeds: readonly { readonly pin: string; readonly awake_A: number }[];
  readonly outputs: readonly { readonly closed: string; readonly when: ModuleCondition }[];
};

function waysOf(held: ModuleHeld): Ways {
  return remembered(ways, held, () => {
    const longest = new Map<string, number>();
    for (const condition of [awakeWhen(held), ...Object.values(held.outputs).map((o) => o.when)])
      for (const { pin, seconds } of pinsNamed(condition)) longest.set(pin, Math.max(seconds, longest.get(pin) ?? 0));
    return {
      main: mainPin(held.pins),
      awakeWhen: awakeWhen(held),
      felt: [...longest].map(([pin, seconds]) => ({
        pin,
        live: `live ${pin}`,
        low: held.pins[pin]?.is === 'pull-up' ? `low ${pin}` : undefined,
        since: seconds > 0 ? `for ${pin}` : undefined,
      })),
      counted: new Map([...longest].filter(([, seconds]) => seconds > 0)),
      feeds: Object.entries(held.pins).flatMap(([pin, p]) => (p.is === 'draw' ? [{ pin, awake_A: p.awake }] : [])),
      outputs: Object.entries(held.outputs).map(([name, { when }]) => ({ closed: `closed ${name}`, when })),
    };
  });
}
const ways = new WeakMap<ModuleHeld, Ways>();

/** Pins whose live time counts, with the time after which it no longer matters, s. */
export const countedPins = (held: ModuleHeld): ReadonlyMap<string, number> => waysOf(held).counted;

export function startState(held: ModuleHeld): State {
  return { mode: awakeWhen(held).is === 'always' || held['kept-awake'] === 'awake' ? 'awake' : 'asleep' };
}

/**
 * Where the module would go from here. Inputs, waking and outputs change at once; a step towards sleep is taken only
 * when nothing else changes, so that a play can let it wait by itself.
 */
export function nextState(held: ModuleHeld, at: Condition, read: Reading): State {
  const { state } = at;
  const { main, awakeWhen, felt, feeds, outputs } = waysOf(held);
  const now: Record<string, number | boolean | string> = { ...state };
  for (const { pin, live, low, since } of felt) {
    const volts = read.across(pin, '31');
    now[live] = isFed(state, live, volts, held['live-above']);
    if (low !== undefined) now[low] = volts < (state[low] === true ? letGo_V : grounded_V);
    if (since === undefined) continue;
    if (now[live] !== true) now[since] = 0;
    else now[since] ??= 0;
  }
  now['fed'] = feeds.some(({ pin, awake_A }) => isSupplied(held, state, pin, awake_A, read));
  const mode = modeOf(state);
  // A pull-up has nothing to pull with when the module is not fed.
  const worldIn = (mode: ModuleMode): ModuleWorld => ({
    engine: at.engine,
    mode,
    isLive: (pin) => now[`live ${pin}`] === true,
    isGrounded: (pin) => now['fed'] === true && read.across(main, '31') > letGo_V && now[`low ${pin}`] === true,
    liveFor_s: (pin) => Number(now[`for ${pin}`] ?? 0),
  });
  const wakes = held['kept-awake'] === 'awake' || isMet(awakeWhen, worldIn(mode));
  const soon: ModuleMode = now['fed'] !== true ? 'off' : wakes || mode === 'off' ? 'awake' : mode;
  now['mode'] = soon;
  for (const { closed, when } of outputs) now[closed] = soon !== 'off' && isMet(when, worldIn(soon));
  if (!sameState(state, now)) return now;
  if (soon === 'off' || wakes) return state;
  if (soon === 'awake') return { ...state, mode: 'after-run' };
  return soon === 'after-run' && held['kept-awake'] === 'no' ? { ...state, mode: 'asleep' } : state;
}

/** Enough volts on a feeding pin, and current in it: a pin broken inside feeds nothing. */
function isSupplied(held: ModuleHeld, state: State, name: string, awake_A: number, read: Reading): boolean {
  if (awake_A > 0 && !(read.amperes(name) > 0)) return false;
  return read.across(name, '31') >= (state['fed'] === true ? held.needs - 0.5 : held.needs);
}

export function pinNames(held: Pick<ModuleHeld, 'pins' | 'outputs'>): readonly string[] {
  return [...new Set([...Object.keys(held.pins), ...Object.keys(held.outputs)])];
}

function sameState(a: State, b: State): boolean {
  for (const name in b) if (a[name] !== b[name]) return false;
  for (const name in a) if (!(name in b)) return false;
  return true;
}
