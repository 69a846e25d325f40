import type { Point } from '../../src/report/layout/layout.ts';

export const pathOf = (points: readonly Point[]) => points.map(([x, y], k) => `${k === 0 ? 'M' : 'L'}${x} ${y}`).join('');
