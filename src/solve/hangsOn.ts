import { loadsAt } from './loads.ts';
import { network, type PartChange } from './network.ts';
import { type OperatingPoint, operatingPoint } from './operatingPoint.ts';

/**
 * The points that a load hangs on: parts whose loss alone leaves it dead in this scene. Asked of the solver and not of
 * the wiring's form, since a lost feed may still be tied to the supply through other loads that are dark.
 *
 * @param parts  ids to try, such as those on the load's feed and return
 * Cost: one solve for each part.
 */
export function hangsOn(at: OperatingPoint, load: string, parts: readonly string[]): readonly string[] {
  const { circuit, changes, setup } = at.network;
  return parts.filter((part) => {
    const lost: PartChange[] = at.network.branches
      .filter((b) => b.part === part)
      .map((b) => ({
        part,
        change: { do: 'series', element: b.id === part ? '' : b.id.slice(part.length + 1), ohm: Number.POSITIVE_INFINITY },
      }));
    const then = operatingPoint(network(circuit, [...changes, ...lost], setup), at.scene);
    return loadsAt(then).find((l) => l.id === load)?.verdict === 'dead';
  });
}
