import type { FaultMode } from '../../circuit/part.ts';
import { seriesFaults } from '../shared/seriesFaults.ts';
import { bridged } from '../shared/shortFaults.ts';
import { estimate } from '../shared/sources.ts';
import type { Position } from './forms.ts';
import { covers } from './sectors.ts';
import { deadSector, type KeySwitchParams, soundSectors, wear } from './travel.ts';

/**
 * How often an old key switch fails at all, in wires breaking, and how that is shared out between the contact that
 * is closed in ON and START, those closed in running positions only, those of START alone, and the mechanism.
 * The switch's share of its feed pin belongs to the connector.
 */
const whole = 10;
const shareOf = { throughStart: 0.35, running: 0.2, startOnly: 0.2, mechanism: 0.1 };
const source = 'estimate: shares of an old switch without relay, contact of ON 0.35, ACC 0.2, START 0.2, mechanism 0.1';

/** Shares of one contact's faults: estimate. */
const contactShare = { atDetent: 0.35, open: 0.1, resistance: 0.25, comesAndGoes: 0.12, opensHot: 0.03, stuck: 0.1, shifted: 0.05 };

/** A worn contact gets too hot from this share of its rating, or from this current where no rating is written, A (estimates). */
const hotShare = 0.5;
const hot_A = 6;

export function keySwitchFaults(
  id: string,
  params: KeySwitchParams,
  contact_ohm: number,
  ratings: Readonly<Record<string, number>> | undefined,
): readonly FaultMode[] {
  const contacts = Object.entries(soundSectors(params));
  return [
    ...contacts.flatMap(([contact, sectors]) => {
      const closed = params.positions.filter((p) => covers(sectors, p.angle));
      const rated_A = ratings?.[contact] ?? ratings?.['all'];
      return [...contactModes(id, contact, closed, params.positions, contact_ohm), opensHot(id, contact, closed, rated_A)];
    }),
    ...bridges(
      id,
      contacts.map(([contact]) => contact),
    ),
    ...mechanismModes(id, params),
  ];
}

/** How often the contacts of a family fail. */
function familyWeight(closed: readonly Position[]): number {
  const sprung = closed.filter((p) => p.springsTo !== undefined).length;
  return whole * (sprung === 0 ? shareOf.running : sprung === closed.length ? shareOf.startOnly : shareOf.throughStart);
}

function opensHot(id: string, contact: string, closed: readonly Position[], rated_A: number | undefined): FaultMode {
  const ampere = rated_A === undefined ? hot_A : hotShare * rated_A;
  return {
    subject: `${id}.${contact}`,
    words: 'opens hot',
    detail: { dimension: 'current', default: ampere, grades: [ampere], min: 0.01, max: 500, optional: true },
    text: `contact ${contact} heats under more than this current, opens, and closes again as it cools`,
    weight: familyWeight(closed) * contactShare.opensHot,
    source,
    changes: (over) => [{ do: 'params', patch: { [wear.opensHot(contact)]: over } }],
  };
}

function contactModes(
  id: string,
  contact: string,
  closed: readonly Position[],
  positions: readonly Position[],
  contact_ohm: number,
): readonly FaultMode[] {
  const subject = `${id}.${contact}`;
  const what = `contact ${contact}`;
  const all = familyWeight(closed);
  return [
    ...closed.map((p): FaultMode => {
      const [from, to] = deadSector(positions, p.name);
      return {
        subject,
        words: `open at ${p.name}`,
        text: `${what} does not close within ${Math.round((to - from) / 2)}° of the ${p.name} detent; beyond, it does`,
        weight: (all * contactShare.atDetent) / closed.length,
        source,
        excludes: `${subject} at ${p.name}`,
        changes: () => [{ do: 'params', patch: { [wear.dead(contact, p.name)]: true } }],
      };
    }),
    ...seriesFaults(
      subject,
      contact,
      what,
      { open: all * contactShare.open, resistance: all * contactShare.resistance, comesAndGoes: all * contactShare.comesAndGoes },
      source,
      [0.1, 0.5, 3],
    ),
    {
      subject,
      words: 'stuck closed',
      text: `${what} stays closed in every position`,
      weight: all * contactShare.stuck,
      source,
      changes: () => [{ do: 'fix', element: contact, ohm: contact_ohm }],
    },
    {
      subject,
      words: 'shifted',
      detail: { dimension: 'angle', default: 10, grades: [10, -10], min: -90, max: 90, optional: false },
      text: `${what} closes and opens late by some degrees of travel`,
      weight: all * contactShare.shifted,
      source,
      excludes: `${subject} shifted`,
      changes: (degrees) => [{ do: 'params', patch: { [wear.shift(contact)]: degrees } }],
    },
  ];
}

/** Dirt or tracking between any two terminals: abrasion of the contacts makes a conducting film. */
function bridges(id: string, contacts: readonly string[]): readonly FaultMode[] {
  const terminals = [...new Set(contacts.flatMap((c) => c.split('-')))].sort(byNumber);
  const pairs = terminals.flatMap((first, k) => terminals.slice(k + 1).map((second) => [first, second] as const));
  const written = new Map(contacts.map((c) => [c.split('-').sort().join('-'), c]));
  return pairs.map(([first, second]) => {
    const [a, b] = (written.get([first, second].sort().join('-')) ?? `${first}-${second}`).split('-');
    return bridged(id, a!, b!, 'terminals', (0.05 * whole) / pairs.length, estimate);
  });
}

/** 15 before 75, numbers before letters: a pair that is no contact is named in that order. */
function byNumber(a: string, b: string): number {
  const [x, y] = [Number.parseFloat(a), Number.parseFloat(b)];
  if (x !== y && !(Number.isNaN(x) && Number.isNaN(y))) return Number.isNaN(x) ? 1 : Number.isNaN(y) ? -1 : x - y;
  return a < b ? -1 : a > b ? 1 : 0;
}

function mechanismModes(id: string, { positions }: KeySwitchParams): readonly FaultMode[] {
  const all = whole * shareOf.mechanism;
  const angle = { dimension: 'angle', min: 0, max: 180 } as const;
  const modes: FaultMode[] = [
    {
      subject: id,
      words: 'lost motion',
      detail: { ...angle, default: 12, grades: [10, 14, 20], optional: false },
      text: 'the key turns some degrees before the switch follows',
      weight: 0.4 * all,
      source,
      excludes: `${id} lost motion`,
      changes: (degrees) => [{ do: 'params', patch: { 'lost-motion': degrees } }],
    },
    {
      subject: id,
      words: 'stays behind',
      detail: { ...angle, default: 15, grades: [15, 30], optional: false },
      text: 'the switch does not follow the key all the way back',
      weight: 0.15 * all,
      source,
      excludes: `${id} stays behind`,
      changes: (degrees) => [{ do: 'params', patch: { [wear.staysBehind]: degrees } }],
    },
  ];
  if (positions.some((p) => p.springsTo !== undefined))
    modes.push({
      subject: id,
      words: 'spring weak',
      detail: { ...angle, default: 15, grades: [8, 15, 22], optional: true },
      text: 'the key stops short when it springs back, by some degrees',
      weight: 0.3 * all,
      source,
      excludes: `${id} spring weak`,
      changes: (degrees) => [{ do: 'params', patch: { [wear.weakSpring]: degrees } }],
    });
  if (positions.some((p) => p.repeatLock))
    modes.push({
      subject: id,
      words: 'repeat lock jammed',
      text: 'the start-repeat lock stops the key before the position that it guards',
      weight: 0.1 * all,
      source,
      excludes: `${id} repeat lock jammed`,
      changes: () => [{ do: 'params', patch: { [wear.jammed]: true } }],
    });
  const between = positions.slice(1).filter((p) => p.springsTo === undefined);
  return [
    ...modes,
    ...between.map(
      (p): FaultMode => ({
        subject: id,
        words: `detent worn at ${p.name}`,
        detail: { ...angle, default: 10, grades: [10], optional: true },
        text: `the key sags back from the ${p.name} detent by some degrees`,
        weight: (0.15 * all) / between.length,
        source,
        excludes: `${id} detent worn at ${p.name}`,
        changes: (degrees) => [{ do: 'params', patch: { [wear.worn(p.name)]: degrees } }],
      }),
    ),
  ];
}
