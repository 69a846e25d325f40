import * as v from 'valibot';
import { issueText } from '../circuit/issueText.ts';
import { definePart } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { contactFaults, ordinaryContact } from './shared/contactFaults.ts';
import { contactEnds, contactName } from './shared/contactName.ts';
import { estimate } from './shared/sources.ts';

type States = Readonly<Record<string, readonly string[]>>;

const statesForm: v.GenericSchema<unknown, States> = v.record(
  v.string(),
  v.array(contactName, issueText('wrong-shape', 'a list of pairs is wanted here', ['write `[30-58, 30-56]`, and `[]` for none'])),
  issueText('wrong-shape', 'states are written as a map: each state, a colon, and the pairs joined in it', ['write `"1": [30-58]`']),
);

const pairsOf = (states: States): readonly string[] => [...new Set(Object.values(states).flat())];

/** The rest position first: the one named, else `off` or `0`, else the first. Names that are numbers come before others by themselves. */
function settingsOf(states: States, rest: string | undefined): readonly string[] {
  const names = Object.keys(states);
  const first = names.find((n) => n === rest) ?? names.find((n) => n === 'off' || n === '0') ?? names[0];
  return names.length === 0 ? [] : [first!, ...names.filter((n) => n !== first)];
}

/** A hand switch with any number of positions, given by the terminals that it joins in each. */
export const multiSwitch = definePart({
  kind: 'multi-switch',
  title: 'switch with several positions',
  about: 'a hand switch given by the pairs of terminals that it joins in each position',
  letter: 'S',
  parameters: {
    states: {
      as: 'form',
      schema: statesForm,
      about: 'positions by name, with the pairs joined in each',
      required: true,
      written: '{ "0": [], "1": [30-58], "2": [30-58, 30-56] }',
    },
    rest: { as: 'text', about: 'the position that it has untouched; absent: off, 0, or the first' },
    rating: { as: 'quantity', dimension: 'current', about: 'what each of its contacts may carry all the time', min: 0.001, max: 1000 },
    contact: {
      as: 'quantity',
      dimension: 'resistance',
      about: 'a closed contact',
      default: 0.005,
      min: 1e-9,
      max: 1e3,
      source: 'estimate: new 5 to 10 mΩ',
    },
  },
  check: ({ params }) => {
    const names = Object.keys(params.states);
    if (pairsOf(params.states).length === 0)
      return [{ at: ['states'], what: 'the switch joins nothing in any position', mend: ['write `"1": [30-58]`'] }];
    if (params.rest !== undefined && !names.includes(params.rest))
      return [{ at: ['rest'], what: `\`${params.rest}\` is no position of the switch`, mend: [`positions: ${names.join(', ')}`] }];
    return [];
  },
  terminals: ({ params }) => [...new Set(pairsOf(params.states).flatMap(contactEnds))].map((name) => ({ name })),
  settings: ({ params }) => settingsOf(params.states, params.rest),
  varies: ['hand'],
  elements: ({ params }, at) => {
    const closed = params.states[at.setting] ?? [];
    return pairsOf(params.states).map((id) => {
      const [from, to] = contactEnds(id);
      return { id, from, to, ohm: closed.includes(id) ? params.contact : Number.POSITIVE_INFINITY };
    });
  },
  ratings: ({ params }) => {
    const { rating } = params;
    if (rating === undefined) return [];
    return pairsOf(params.states).map((id) => ({
      element: id,
      limit_A: rating,
      what: `contact ${id}`,
      source: 'rating in the circuit file',
    }));
  },
  poles: ({ params }) =>
    pairsOf(params.states).map((id) => ({ id, from: contactEnds(id)[0], to: contactEnds(id)[1], symbol: 'contact', label: id })),
  faults: (part) =>
    pairsOf(part.params.states).flatMap((id) =>
      contactFaults(`${part.id}.${id}`, '', id, `contact ${id}`, part.params.contact, ordinaryContact, estimate),
    ),
  access: () => accessOf(6, 'behind its panel'),
});
