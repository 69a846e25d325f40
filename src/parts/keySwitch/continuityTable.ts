import { closedAt } from '../../circuit/keyStretches.ts';
import type { KeyModel } from '../../circuit/part.ts';
import { contactEnds } from '../shared/contactName.ts';

/** A row of the check of a bare switch in the hand: which terminals an ohmmeter finds joined. */
export type ContinuityRow = {
  readonly position: string;
  /** Degrees of switch travel. */
  readonly angle: number;
  /** Contacts that ought to be closed. */
  readonly closed: readonly string[];
  /** Groups of terminals joined with each other, sorted; every other pair ought to be open. */
  readonly joined: readonly (readonly string[])[];
};

/** The continuity table of the bare switch: turned by a screwdriver, so without lost motion and with the key contact apart. */
export function continuityTable(model: KeyModel): readonly ContinuityRow[] {
  return model.positions.map(({ name, angle }) => {
    const closed = closedAt(model, angle);
    const groups: string[][] = [];
    for (const id of closed) {
      const [first, second] = contactEnds(id);
      const met = groups.filter((g) => g.includes(first) || g.includes(second));
      for (const g of met) groups.splice(groups.indexOf(g), 1);
      groups.push([...new Set([...met.flat(), first, second])]);
    }
    return { position: name, angle, closed, joined: groups.map((g) => g.sort()) };
  });
}
