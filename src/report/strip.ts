import type { Circuit } from '../circuit/circuit.ts';
import type { Played } from '../play/play.ts';

/** A stretch of time in which one word holds. Seconds. */
export type Stretch = { readonly from: number; readonly to: number; readonly word: string };

/** A story over time, as a strip chart shows it. Plain data. */
export type Strip = {
  readonly seconds: number;
  /** Key angle over time; straight between two points. */
  readonly key: readonly { readonly t: number; readonly angle: number }[];
  readonly engine: readonly Stretch[];
  /** Loads whose verdict changes on the way, in file order. */
  readonly loads: readonly { readonly id: string; readonly name: string; readonly stretches: readonly Stretch[] }[];
  readonly events: readonly { readonly t: number; readonly what: string; readonly part: string }[];
};

/** Cuts a played story into stretches of equal words, and keeps the loads on which anything happens. */
export function stripOf(played: Pick<Played, 'samples' | 'events' | 'travel'>, circuit: Circuit): Strip {
  const { samples, events, travel } = played;
  const seconds = Math.max(samples.at(-1)?.t ?? 0, 1e-9);
  const ids = samples[0]?.loads.map((l) => l.id) ?? [];
  const loads = ids.map((id) => {
    const part = circuit.parts.get(id);
    const stretches = stretchesOf(
      samples.map((s) => ({ t: s.t, word: s.loads.find((l) => l.id === id)?.verdict ?? 'dead' })),
      seconds,
    );
    return { id, name: part?.name ?? part?.kind.title ?? id, stretches };
  });
  return {
    seconds,
    key: travel,
    engine: stretchesOf(
      samples.map((s) => ({ t: s.t, word: s.engine })),
      seconds,
    ).filter((s) => s.word !== ''),
    loads: loads.filter((l) => l.stretches.length > 1),
    events,
  };
}

/** Of two samples at one time the later holds from there on. */
function stretchesOf(samples: readonly { readonly t: number; readonly word: string }[], seconds: number): readonly Stretch[] {
  const found: { from: number; to: number; word: string }[] = [];
  for (const { t, word } of samples) {
    const last = found.at(-1);
    if (last?.word === word) continue;
    if (last) last.to = t;
    if (last && last.from === t) found.pop();
    const before = found.at(-1);
    if (before?.word === word) before.to = seconds;
    else found.push({ from: t, to: seconds, word });
  }
  return found;
}

/** Key angle and engine at a time of the strip; the angle is straight between two samples. */
export function stripAt(
  strip: Strip,
  t: number,
): { readonly angle: number | undefined; readonly came: 'up' | 'back'; readonly engine: string } {
  const k = strip.key.findIndex((p) => p.t > t);
  const [before, after] = k < 0 ? [strip.key.at(-1), undefined] : [strip.key[Math.max(0, k - 1)], strip.key[k]];
  const engine = strip.engine.filter((s) => s.from <= t).at(-1)?.word ?? '';
  if (!before) return { angle: undefined, came: 'up', engine };
  const share = after && after.t > before.t ? Math.min(1, Math.max(0, (t - before.t) / (after.t - before.t))) : 0;
  const angle = before.angle + share * ((after?.angle ?? before.angle) - before.angle);
  const turned = strip.key.filter((p) => p.t <= t);
  const last = turned.filter((p, i) => i > 0 && p.angle !== turned[i - 1]!.angle).at(-1);
  const previous = last && turned[turned.indexOf(last) - 1];
  const came =
    after && after.angle !== before.angle
      ? after.angle > before.angle
        ? 'up'
        : 'back'
      : last && previous && last.angle < previous.angle
        ? 'back'
        : 'up';
  return { angle, came, engine };
}
