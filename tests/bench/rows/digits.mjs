import { createRequire } from 'node:module';
import { eliminationPattern } from '../../../dist/cli/solve/eliminationPattern.js';
import { eliminate, nodeVoltages } from '../../../dist/cli/solve/starMesh.js';
import { row } from '../measure.mjs';

const require = createRequire(import.meta.url);

/**
 * Digits that are left where small and large resistances meet: two points joined by 1 mΩ, each with 1 TΩ to the
 * body, 1 A fed into the first. In fractions the second stands at (1 TΩ)² / (2·1 TΩ + 1 mΩ) volts.
 */
export async function rows() {
  const [joint, leak] = [1 / 1e-3, 1 / 1e12];
  const exact = 1e12 / (2 + 1e-15);
  const off = (volts) => Math.abs(volts / exact - 1);
  const volts = new Float64Array(3);
  nodeVoltages(eliminate(eliminationPattern(3, [1, 2, 1, 0, 2, 0]), [joint, leak, leak]), Float64Array.of(0, 1, 0), volts);
  const rows = [row('digits', 'relative error of a voltage, 1 mΩ beside 1 TΩ', off(volts[2]), '', '<= 1e-10')];
  for (const [name, solve] of [
    [
      'cholesky-solve',
      () =>
        require('cholesky-solve').prepare(
          [
            [0, 0, joint + leak],
            [0, 1, -joint],
            [1, 1, joint + leak],
          ],
          2,
          null,
        )([1, 0])[1],
    ],
    [
      'numeric',
      () =>
        require('numeric').solve(
          [
            [joint + leak, -joint],
            [-joint, joint + leak],
          ],
          [1, 0],
        )[1],
    ],
  ]) {
    const error = installed(solve);
    if (error !== undefined) rows.push(row(`digits-${name}`, `the same by ${name}`, off(error)));
  }
  return rows;
}

function installed(solve) {
  try {
    return solve();
  } catch (failure) {
    if (failure.code === 'MODULE_NOT_FOUND') return undefined;
    throw failure;
  }
}
