import { expect, test } from 'vitest';
import { closedAt, keyAngleFor, keyStretches } from '../../src/circuit/keyStretches.ts';
import type { KeyModel } from '../../src/circuit/part.ts';

type Sector = readonly [number, number];
/** A key switch that follows its key `lag` degrees late on the way up. Positions are given out of order. */
const model = (contacts: Readonly<Record<string, readonly Sector[]>>, lag = 0): KeyModel =>
  ({
    positions: [
      { name: 'ON', angle: 60 },
      { name: 'OFF', angle: 0 },
      { name: 'START', angle: 90, springsTo: 'ON' },
    ],
    contacts: Object.entries(contacts).map(([id, sectors]) => ({ id, sectors })),
    switchAngle: ({ angle, came }: { angle: number; came: string }) => (came === 'up' ? angle - lag : angle),
  }) as unknown as KeyModel;
const shown = (of: KeyModel) => keyStretches(of).map((s) => [s.name, s.angle, s.from, s.to, s.closed.join(' '), s.detent]);

test('both ends of a sector belong to it, and nothing beyond', () => {
  const of = model({
    a: [[10, 20]],
    b: [
      [0, 5],
      [20, 30],
    ],
  });
  expect([9, 10, 15, 20, 21].map((at) => closedAt(of, at).join(' '))).toEqual(['', 'a', 'a', 'a b', 'b']);
  expect([0, 5, 6, 30, 31].map((at) => closedAt(of, at).join(' '))).toEqual(['b', 'b', '', 'b', '']);
});

test('where the contacts merely go on from a detent there is no stretch of its own', () => {
  expect(shown(model({ a: [[40, 90]] }))).toEqual([
    ['OFF', 0, 0, 0, '', true],
    ['ON', 60, 60, 60, 'a', true],
    ['START', 90, 90, 90, 'a', true],
  ]);
});

test('a gap between two detents is a stretch with its middle, and two of them are counted', () => {
  expect(
    shown(
      model({
        a: [
          [0, 20],
          [50, 90],
        ],
        b: [[55, 70]],
      }),
    ),
  ).toEqual([
    ['OFF', 0, 0, 0, 'a', true],
    ['between OFF and ON 1', 35, 20, 50, '', false],
    ['between OFF and ON 2', 52.5, 50, 55, 'a', false],
    ['ON', 60, 60, 60, 'a b', true],
    ['START', 90, 90, 90, 'a', true],
  ]);
  expect(
    shown(
      model({
        a: [
          [0, 20],
          [50, 90],
        ],
      }),
    )[1],
  ).toEqual(['between OFF and ON', 35, 20, 50, '', false]);
});

test('edges at which nothing changes do not cut a stretch', () => {
  expect(
    keyStretches(
      model({
        a: [
          [30, 35],
          [35, 40],
        ],
      }),
    )
      .filter((s) => !s.detent)
      .map((s) => [s.from, s.to]),
  ).toEqual([[30, 40]]);
});

test('of two contacts in place of one another the set is another, though it is as large', () => {
  expect(shown(model({ a: [[0, 30]], b: [[30, 90]] })).map(([name]) => name)).toEqual(['OFF', 'ON', 'START']);
  expect(
    shown(
      model({
        a: [
          [0, 20],
          [40, 90],
        ],
        b: [[20, 40]],
      }),
    ).map(([name, , , , closed]) => `${name}: ${closed}`),
  ).toEqual(['OFF: a', 'between OFF and ON: b', 'ON: a', 'START: a']);
});

test('a key turned up is ahead of a switch that follows late; where it cannot come that far it stands where the switch would', () => {
  const late = model(
    {
      a: [
        [0, 20],
        [50, 90],
      ],
    },
    8,
  );
  expect(keyAngleFor(late, 35)).toBe(43);
  expect(keyStretches(late).find((s) => !s.detent)).toMatchObject({ angle: 35, keyAngle: 43 });
  expect(keyStretches(late).find((s) => s.name === 'ON')).toMatchObject({ angle: 60, keyAngle: 60 });
  expect(keyAngleFor(late, 82)).toBe(90);
  expect(keyAngleFor(late, 83)).toBe(83);
  expect(keyAngleFor(model({}), 35)).toBe(35);
});

test('stretches of one model are worked out once', () => {
  const of = model({ a: [[0, 20]] });
  expect(keyStretches(of)).toBe(keyStretches(of));
});
