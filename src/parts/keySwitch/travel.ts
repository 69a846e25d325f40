import type { KeyModel } from '../../circuit/part.ts';
import type { KeyPlace } from '../../circuit/scene.ts';
import type { Contacts, ContactTable, Position, Sector } from './forms.ts';
import { covers, cutOut, sectorsFromTable, shifted } from './sectors.ts';

export type KeySwitchParams = {
  readonly positions: readonly Position[];
  readonly contacts: Contacts | undefined;
  readonly table: ContactTable | undefined;
  /** Degrees that the key turns up before the switch follows. */
  readonly 'lost-motion': number;
};

/**
 * Names under which faults write into the parameters, one per contact and position, so that several can be in at
 * once without knowing of each other.
 */
export const wear = {
  dead: (contact: string, position: string) => `dead ${contact} at ${position}`,
  shift: (contact: string) => `shift ${contact}`,
  weakSpring: 'weak spring',
  staysBehind: 'stays behind',
  worn: (position: string) => `worn detent ${position}`,
  jammed: 'repeat lock jammed',
  opensHot: (contact: string) => `opens hot ${contact}`,
} as const;

/** Half the width of a dead spot at a detent, degrees; less where the next detents are near. Estimate: worn track of a sliding contact. */
const deadHalf_deg = 6;

/** The stretch about a detent in which a worn contact no longer closes: at most 6° to either side, and always well inside the neighbours. */
export function deadSector(positions: readonly Position[], name: string): Sector {
  const here = positions.find((p) => p.name === name)?.angle ?? 0;
  const gap = Math.min(...positions.filter((p) => p.name !== name).map((p) => Math.abs(p.angle - here)), 10 * deadHalf_deg);
  const half = Math.min(deadHalf_deg, gap / 3);
  return [here - half, here + half];
}

/** Sectors as written, before any wear. */
export function soundSectors(params: KeySwitchParams): Contacts {
  return params.contacts ?? sectorsFromTable(params.positions, params.table ?? {});
}

const models = new WeakMap<object, KeyModel>();

/** The travel of a key switch with whatever wear its parameters hold. Worked out once for each set of parameters. */
export function keyModelOf(params: KeySwitchParams): KeyModel {
  const known = models.get(params);
  if (known) return known;
  const model = modelOf(params);
  models.set(params, model);
  return model;
}

function modelOf(params: KeySwitchParams): KeyModel {
  const { positions } = params;
  const worn: Readonly<Record<string, unknown>> = params;
  const degrees = (name: string): number => (typeof worn[name] === 'number' ? worn[name] : 0);
  const [first, last] = [positions[0]?.angle ?? 0, positions.at(-1)?.angle ?? 0];
  const slack = params['lost-motion'];
  const sectorsOf = (id: string, sectors: readonly Sector[]): readonly Sector[] => {
    const turned = shifted(sectors, degrees(wear.shift(id)));
    return positions.reduce((left, p) => (worn[wear.dead(id, p.name)] ? cutOut(left, deadSector(positions, p.name)) : left), turned);
  };
  return {
    positions,
    contacts: Object.entries(soundSectors(params)).map(([id, sectors]) => ({ id, sectors: sectorsOf(id, sectors) })),
    switchAngle: (key) => {
      const reached = worn[wear.jammed] === true ? Math.min(key.angle, jamAngle(positions)) : key.angle;
      const sag = positions.reduce((most, p) => (Math.abs(reached - p.angle) < 0.5 ? Math.max(most, degrees(wear.worn(p.name))) : most), 0);
      // The first position can only be reached by turning back, whatever the scene says.
      if (key.came === 'back' || reached <= first) return Math.min(last, Math.max(first, reached - sag + degrees(wear.staysBehind)));
      return Math.max(first, reached - Math.max(slack, sag));
    },
    released: (key) => releasedTo(positions, degrees(wear.weakSpring), key),
  };
}

/** A sprung position pulls the key back from wherever it is held on the way to it; elsewhere the key stays. */
function releasedTo(positions: readonly Position[], short_deg: number, key: KeyPlace): KeyPlace {
  for (const sprung of positions) {
    const rest = positions.find((p) => p.name === sprung.springsTo);
    if (!rest) continue;
    const way = Math.sign(sprung.angle - rest.angle);
    const beyond = (key.angle - rest.angle) * way;
    if (beyond <= 0 || beyond > Math.abs(sprung.angle - rest.angle) + 1e-9) continue;
    return { angle: rest.angle + way * Math.min(short_deg, beyond), came: way > 0 ? 'back' : 'up', in: key.in };
  }
  return key;
}

/** Where a jammed start-repeat lock stops the key: two fifths of the way to the position that it guards. */
function jamAngle(positions: readonly Position[]): number {
  const guarded = positions.findIndex((p) => p.repeatLock);
  const [before, at] = [positions[guarded - 1], positions[guarded]];
  return before && at ? before.angle + 0.4 * (at.angle - before.angle) : Number.POSITIVE_INFINITY;
}

/** True where the switch, standing at this angle, joins the pair. */
export function isClosedAt(model: KeyModel, contact: string, angle: number): boolean {
  return covers(model.contacts.find((c) => c.id === contact)?.sectors ?? [], angle);
}
