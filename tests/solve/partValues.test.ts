import { describe, expect, test } from 'vitest';
import type { Element } from '../../src/circuit/element.ts';
import { definePart, type Part } from '../../src/circuit/part.ts';
import type { Condition } from '../../src/circuit/scene.ts';
import { sameState, sameValues, valuesOf } from '../../src/solve/partValues.ts';

type Varies = NonNullable<Parameters<typeof definePart>[0]['varies']>;

/** A part of no kind, with nothing but what its numbers hang on. */
const thing = (varies: Varies): Part => ({
  id: 'R1',
  kind: definePart({
    kind: 'thing',
    title: 'thing',
    about: 'made for this test',
    letter: 'R',
    parameters: {},
    varies,
    terminals: () => [{ name: '1' }, { name: '2' }],
    elements: () => [],
    poles: () => [],
    faults: () => [],
    access: () => ({ minutes: 0, where: 'in the hand', source: 'estimate' }),
  }),
  params: {},
  given: new Set(),
  isLoad: false,
});
const rest: Condition = {
  key: { angle: 60, came: 'up', in: true },
  setting: 'off',
  engine: 'stopped',
  ambient: 20,
  state: { heat: 0 },
};
/** How often the elements are asked for over a row of conditions. */
function asked(varies: Varies, ...conditions: readonly Condition[]): number {
  let times = 0;
  const values = valuesOf(thing(varies), () => {
    times++;
    return [{ id: '', from: '1', to: '2', ohm: times }];
  });
  for (const at of conditions) values(at);
  return times;
}
const { key: _key, ...keyless } = rest;

describe('a part is asked anew exactly where what it hangs on has changed', () => {
  const others: readonly [string, Varies[number] | 'ambient', Condition][] = [
    ['warmer', 'ambient', { ...rest, ambient: 40 }],
    ['key turned further', 'key', { ...rest, key: { ...rest.key!, angle: 90 } }],
    ['come from the other side', 'key', { ...rest, key: { ...rest.key!, came: 'back' } }],
    ['key drawn', 'key', { ...rest, key: { ...rest.key!, in: false } }],
    ['no key at all', 'key', keyless as Condition],
    ['another setting', 'hand', { ...rest, setting: 'on' }],
    ['engine runs', 'engine', { ...rest, engine: 'running' }],
    ['warm inside', 'state', { ...rest, state: { heat: 1 } }],
    ['one more thing in its state', 'state', { ...rest, state: { heat: 0, on: 1 } }],
    ['nothing in its state', 'state', { ...rest, state: {} }],
  ];
  test.each(others)('%s: %s', (_what, matters, other) => {
    const all: Varies = ['key', 'hand', 'engine', 'state'];
    expect(asked(all, rest, other)).toBe(2);
    expect(asked(all, other, rest)).toBe(2);
    expect(
      asked(
        all.filter((v) => v !== matters),
        rest,
        other,
      ),
    ).toBe(matters === 'ambient' ? 2 : 1);
  });
  test('the same conditions said by other objects are the same', () => {
    const again = { ...rest, key: { ...rest.key! }, state: { ...rest.state } };
    expect(asked(['key', 'hand', 'engine', 'state'], rest, again, rest)).toBe(1);
  });
  test('sixteen conditions are kept, the newest; the seventeenth displaces the first', () => {
    const row = Array.from({ length: 16 }, (_, k) => ({ ...rest, ambient: k }));
    expect(asked([], ...row, ...row)).toBe(16);
    const longer = [...row, { ...rest, ambient: 99 }];
    expect(asked([], ...longer, longer[1]!)).toBe(17);
    expect(asked([], ...longer, longer[0]!)).toBe(18);
  });
});

test('the numbers of every sort of element', () => {
  const law = { ampere: () => 0, siemens: () => 0 } as unknown as Extract<Element, { law: unknown }>['law'];
  const numbers = (...elements: readonly Element[]) => valuesOf(thing([]), () => elements)(rest);
  expect(numbers({ id: 'a', from: '1', to: '2', ohm: 4 }, { id: 'b', plus: '1', minus: '2', volt: 12, ohm: 0.5 })).toEqual({
    siemens: [0.25, 2],
    push: [0, 24],
  });
  expect(numbers({ id: 'a', from: '1', to: '2', ohm: 0 }, { id: 'b', plus: '1', minus: '2', volt: 12, ohm: 0 })).toEqual({
    siemens: [0, 0],
    push: [0, 0],
  });
  expect(numbers({ id: 'a', from: '1', to: '2', ohm: Number.POSITIVE_INFINITY })).toEqual({ siemens: [0], push: [0] });
  expect(numbers({ id: 'a', into: '1', outOf: '2', ampere: 3 })).toEqual({ siemens: [0], push: [3] });
  expect(numbers({ id: 'a', from: '1', to: '2', ohm: 4 }, { id: 'b', from: '1', to: '2', law })).toEqual({
    siemens: [0.25, 0],
    push: [0, 0],
    laws: [undefined, law],
  });
});

test('values are the same when every number and every law is', () => {
  const law = { a: 1 } as never;
  const other = { a: 1 } as never;
  const one = { siemens: [1, 2], push: [0, 3] };
  expect(sameValues(one, one)).toBe(true);
  expect(sameValues(one, { siemens: [1, 2], push: [0, 3] })).toBe(true);
  for (const different of [
    { siemens: [1, 3], push: [0, 3] },
    { siemens: [1, 2], push: [0, 4] },
    { siemens: [1], push: [0, 3] },
    { siemens: [1, 2], push: [0] },
    { siemens: [1, 2], push: [0, 3], laws: [law, undefined] },
  ]) {
    expect(sameValues(one, different)).toBe(false);
    expect(sameValues(different, one)).toBe(false);
  }
  expect(sameValues({ ...one, laws: [law, undefined] }, { ...one, laws: [law, undefined] })).toBe(true);
  expect(sameValues({ ...one, laws: [law, undefined] }, { ...one, laws: [other, undefined] })).toBe(false);
});

test.each([
  [undefined, undefined, true],
  [{}, undefined, false],
  [undefined, {}, false],
  [{}, {}, true],
  [{ heat: 1 }, { heat: 1 }, true],
  [{ heat: 1 }, { heat: 2 }, false],
  [{ heat: 1 }, {}, false],
  [{}, { heat: 1 }, false],
  [{ heat: 1 }, { phase: 1 }, false],
])('states %j and %j are the same: %s', (a, b, same) => {
  expect(sameState(a, b)).toBe(same);
});
