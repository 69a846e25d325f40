import type { Circuit } from '../src/circuit/circuit.ts';
import type { Layout } from '../src/report/layout/layout.ts';
import { layoutOf } from '../src/report/layout/layoutOf.ts';

/** px that fit beside the key column on a usual desktop, and how narrow and wide tracks may be. */
export const widthAtOnce = 1012;
export const narrowest = 60;
export const widest = 92;

/** All tracks, or those of some parts only; a little narrower where that spares scrolling. */
export function fittedOf(circuit: Circuit, only?: ReadonlySet<string>): Layout {
  const wish = only ? { only } : {};
  const usual = layoutOf(circuit, wish);
  if (usual.width <= widthAtOnce || usual.width > 1.1 * widthAtOnce) return usual;
  const narrow = layoutOf(circuit, { ...wish, pitch: narrowest });
  return narrow.width <= widthAtOnce ? narrow : usual;
}
