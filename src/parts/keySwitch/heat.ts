import type { Reading } from '../../circuit/element.ts';
import type { Rate } from '../../circuit/part.ts';
import type { State } from '../../circuit/scene.ts';
import { type KeySwitchParams, soundSectors, wear } from './travel.ts';

/**
 * A worn contact that heats as it carries current, opens, cools and closes again. Its heat tends to the square of the
 * current over the one that opens it at last, with a time constant; 1 = open. Estimates: a plug takes a minute or two
 * to get warm to the hand, a contact spring less.
 */
const heating_s = 20;
/** It closes again when it has cooled to this share. */
const closesAt = 0.6;

const heat = (contact: string) => `heat ${contact}`;
const hot = (contact: string) => `${contact} open by heat`;

/** The contacts that open hot, with the current above which they do sooner or later, A. */
function hotContacts(params: KeySwitchParams): readonly (readonly [contact: string, ampere: number])[] {
  const worn: Readonly<Record<string, unknown>> = params;
  return Object.keys(soundSectors(params)).flatMap((contact) => {
    const ampere = worn[wear.opensHot(contact)];
    return typeof ampere === 'number' ? [[contact, ampere] as const] : [];
  });
}

export const isHot = (state: State, contact: string): boolean => state[hot(contact)] === true;

/** At one instant, without a heat, such a contact opens as soon as it carries too much and closes again: it has no rest. */
export function heatSettled(params: KeySwitchParams, state: State, read: Reading): State {
  let now = state;
  for (const [contact, ampere] of hotContacts(params)) {
    const warmth = state[heat(contact)];
    const over = Math.abs(read.amperes(contact)) >= ampere;
    const opens = isHot(state, contact) ? typeof warmth === 'number' && warmth > closesAt : typeof warmth === 'number' ? warmth >= 1 : over;
    if (opens !== isHot(state, contact)) now = { ...now, [hot(contact)]: opens };
  }
  return now;
}

/** Seconds until the first of them opens if this instant lasts, from cold. */
export function heatOpensIn(params: KeySwitchParams, state: State, read: Reading): number {
  const times = hotContacts(params).map(([contact, ampere]) => {
    const target = (read.amperes(contact) / ampere) ** 2;
    return isHot(state, contact) || target <= 1 ? Number.POSITIVE_INFINITY : heating_s * Math.log(target / (target - 1));
  });
  return Math.min(Number.POSITIVE_INFINITY, ...times);
}

export function heatRates(params: KeySwitchParams, read: Reading): Readonly<Record<string, Rate>> {
  return Object.fromEntries(
    hotContacts(params).map(([contact, ampere]) => [heat(contact), { to: (read.amperes(contact) / ampere) ** 2, tau: heating_s }]),
  );
}
