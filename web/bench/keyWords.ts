import type { KeyPlace } from '../../src/circuit/scene.ts';
import type { TablePosition } from '../../src/solve/positionTable.ts';
import type { CircuitSeen } from '../calls.ts';

/** The row of the table that the key stands in; the way it came decides between two of the same angle. */
export function currentPosition(positions: readonly TablePosition[], key: KeyPlace | undefined): string | undefined {
  if (!key) return positions[0]?.name;
  const fits = positions.filter((p) => Math.abs(p.key.angle - key.angle) < 0.5 || (p.from <= key.angle && key.angle <= p.to));
  return (fits.find((p) => p.key.came === key.came && Math.abs(p.key.angle - key.angle) < 0.5) ?? fits[0])?.name;
}

type Positions = NonNullable<CircuitSeen['key']>['positions'];
export function keyTitle(positions: Positions, key: KeyPlace): string {
  if (!key.in) return 'Key out';
  const here = positions.find((p) => Math.abs(p.angle - key.angle) < 0.5);
  if (here) return here.springsTo === undefined ? `Key at ${here.name}` : `Key held at ${here.name}`;
  return `Key at ${Math.round(key.angle * 10) / 10}°`;
}
export function keyNote(key: KeyPlace, positions: Positions): string {
  const here = positions.find((p) => Math.abs(p.angle - key.angle) < 0.5);
  if (!key.in) return 'lock empty';
  return here ? `${Math.round(key.angle)}° of travel, as seen at the lock` : 'held between two detents';
}
export const engineWord = (engine: string | undefined) => (engine === 'stopped' ? 'still' : (engine ?? 'still'));
