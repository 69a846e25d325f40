import type { Flaw } from '../circuit/part.ts';
import { definePart, type Part } from '../circuit/part.ts';
import { keySwitchFaults } from './keySwitch/faults.ts';
import { contactsForm, keyInForm, positionsForm, ratingsForm, tableForm } from './keySwitch/forms.ts';
import { heatOpensIn, heatRates, heatSettled, isHot } from './keySwitch/heat.ts';
import { isClosedAt, type KeySwitchParams, keyModelOf, soundSectors } from './keySwitch/travel.ts';
import { accessOf } from './shared/access.ts';
import { contactFaults } from './shared/contactFaults.ts';
import { contactEnds } from './shared/contactName.ts';
import { estimate } from './shared/sources.ts';

/**
 * The key switch: pairs of terminals that are joined over sectors of rotation. Several barrels, two feeds and two
 * decks are more pairs with terminals of their own. A pair that depends on the key being in the lock is `key-in`.
 */
export const keySwitch = definePart({
  kind: 'key-switch',
  title: 'key switch',
  about: 'contacts that close over sectors of rotation, with lost motion, springs and detents',
  letter: 'S',
  parameters: {
    positions: {
      as: 'form',
      schema: positionsForm,
      about: 'detents by name: angle, key-out, springs-to, repeat-lock',
      required: true,
      written: '{ ON: { at: 60° }, START: { at: 90°, springs-to: ON } }',
    },
    contacts: {
      as: 'form',
      schema: contactsForm,
      about: 'pairs of terminals with the sectors of switch travel in which they are joined',
      written: '{ 30-15: [48°..95°] }',
    },
    table: {
      as: 'form',
      schema: tableForm,
      about: 'short form in place of contacts: the pairs joined in each position; they change half-way between detents',
      written: '{ LOCK: [], ON: [30-15] }',
    },
    'key-in': {
      as: 'form',
      schema: keyInForm,
      about: 'a pair that is joined while the key is in the lock (or out of it)',
      written: '{ pair: K-31, closed-when: key in }',
    },
    contact: {
      as: 'quantity',
      dimension: 'resistance',
      about: 'a closed contact',
      default: 0.005,
      min: 1e-9,
      max: 1e3,
      source: 'estimate: new 5 to 10 mΩ, worn 50 to 300 mΩ, burnt 0.3 to 5 Ω',
    },
    ratings: { as: 'form', schema: ratingsForm, about: 'what each contact may carry, or all', written: '{ 30-15: 20 A, all: 10 A }' },
    'lost-motion': {
      as: 'quantity',
      dimension: 'angle',
      about: 'degrees that the key turns up before the switch follows; on the way back it follows at once',
      default: 3,
      min: 0,
      max: 180,
      source: 'estimate: 2° to 4° of play in a good lock',
    },
  },
  check: (part) => flawsOf(part),
  terminals: ({ params }) => {
    const pairs = [...Object.keys(soundSectors(params)), ...(params['key-in'] ? [params['key-in'].pair] : [])];
    return [...new Set(pairs.flatMap(contactEnds))].map((name) => ({ name }));
  },
  key: ({ params }) => keyModelOf(params),
  varies: ['key', 'state'],
  elements: ({ params }, at) => {
    const model = keyModelOf(params);
    const angle = at.key === undefined ? undefined : model.switchAngle(at.key);
    const pair = (id: string, closed: boolean) => {
      const [from, to] = contactEnds(id);
      return { id, from, to, ohm: closed && !isHot(at.state, id) ? params.contact : Number.POSITIVE_INFINITY };
    };
    const turned = model.contacts.map(({ id }) => pair(id, angle !== undefined && isClosedAt(model, id, angle)));
    const keyIn = params['key-in'];
    if (!keyIn) return turned;
    return [...turned, pair(keyIn.pair, (at.key?.in ?? false) === (keyIn['closed-when'] !== 'key out'))];
  },
  settle: ({ params }, { state }, read) => heatSettled(params, state, read),
  opensIn: ({ params }, { state }, read) => heatOpensIn(params, state, read),
  timing: { rates: ({ params }, _at, read) => heatRates(params, read) },
  ratings: ({ params }) =>
    keyModelOf(params).contacts.flatMap(({ id }) => {
      const limit_A = params.ratings?.[id] ?? params.ratings?.['all'];
      return limit_A === undefined ? [] : [{ element: id, limit_A, what: `contact ${id}`, source: 'rating in the circuit file' }];
    }),
  poles: ({ params }) => {
    const pairs = [...keyModelOf(params).contacts.map((c) => c.id), ...(params['key-in'] ? [params['key-in'].pair] : [])];
    return pairs.map((id) => ({ id, from: contactEnds(id)[0], to: contactEnds(id)[1], symbol: 'contact', label: id }));
  },
  faults: (part) => {
    const { params } = part;
    const keyIn = params['key-in']?.pair;
    return [
      ...keySwitchFaults(part.id, params, params.contact, params.ratings),
      ...(keyIn === undefined
        ? []
        : contactFaults(
            `${part.id}.${keyIn}`,
            '',
            keyIn,
            'the key-in contact',
            params.contact,
            { open: 0.5, resistance: 0.2, comesAndGoes: 0.3, stuck: 0.5 },
            estimate,
          )),
    ];
  },
  access: () =>
    accessOf(
      12,
      'behind the key switch, covers off',
      'airbag and steering-column work only after the maker’s waiting time and by qualified persons; disconnect the battery before unplugging an unfused feed',
      60,
    ),
});

/** What the parameters say together: names that must meet, angles that must differ. */
function flawsOf({ params }: Part<KeySwitchParams & { readonly ratings: Readonly<Record<string, number>> | undefined }>): readonly Flaw[] {
  const { positions, contacts, table, ratings } = params;
  const names = positions.map((p) => p.name);
  const flaws: Flaw[] = [];
  if (positions.length === 0) flaws.push({ at: ['positions'], what: 'the key switch has no positions', mend: ['write `ON: { at: 60° }`'] });
  if (!contacts && !table)
    flaws.push({ what: 'the key switch has neither contacts nor a table', mend: ['write `contacts: { 30-15: [48°..95°] }`'] });
  if (contacts && table)
    flaws.push({ at: ['table'], what: 'contacts and table both say which terminals are joined', mend: ['leave one of them out'] });
  for (const [k, p] of positions.entries()) {
    const before = positions[k - 1];
    if (before && p.angle - before.angle < 1)
      flaws.push({
        at: ['positions', p.name, 'at'],
        what: `positions ${before.name} and ${p.name} are less than 1° apart`,
        mend: ['give each position an angle of its own'],
      });
    if (p.springsTo !== undefined && (!names.includes(p.springsTo) || p.springsTo === p.name))
      flaws.push({
        at: ['positions', p.name, 'springs-to'],
        what: `position ${p.name} springs to \`${p.springsTo}\`, which is no other position`,
        mend: [`positions: ${names.join(', ')}`],
      });
  }
  for (const name of Object.keys(table ?? {}))
    if (!names.includes(name))
      flaws.push({
        at: ['table', name],
        what: `the table names \`${name}\`, which is no position`,
        mend: [`positions: ${names.join(', ')}`],
      });
  const ids = Object.keys(soundSectors(params));
  for (const id of Object.keys(ratings ?? {}))
    if (id !== 'all' && !ids.includes(id))
      flaws.push({
        at: ['ratings', id],
        what: `ratings name \`${id}\`, which is no contact of this switch`,
        mend: [`contacts: ${ids.join(', ')}`],
      });
  return flaws;
}
