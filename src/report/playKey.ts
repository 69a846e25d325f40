import { type PlayView, valueAt } from './playView.ts';

/** Nearer to a detent than this, degrees, the key is at it. */
const near = 0.5;

/** Where the key is, in a word: a position, an angle, `/` while it turns; '' without a key switch. */
export function keyWordAt(view: PlayView, t: number): string {
  if (!view.key) return '';
  const { travel, positions } = view.key;
  const next = travel.findIndex((c) => c.t > t);
  const [from, to] = [travel[next - 1], travel[next]];
  if (from && to && from.angle !== to.angle) return '/';
  const angle = valueAt(
    travel.map((c) => ({ t: c.t, value: c.angle })),
    t,
  );
  return angle === null ? '' : keyWord(angle, positions);
}

export function keyWord(angle: number, positions: readonly { readonly name: string; readonly angle: number }[]): string {
  return positions.find((p) => Math.abs(p.angle - angle) < near)?.name ?? `${Math.round(angle)}°`;
}
