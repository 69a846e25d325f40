import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Scene } from '../../src/circuit/scene.ts';
import { begin, type History, redo, step, undo } from '../../web/session/history.ts';
import { linkText, readLink } from '../../web/session/link.ts';
import { newJob, type Session } from '../../web/session/session.ts';
import { type Message, update } from '../../web/session/update.ts';

const rest: Scene = { key: { angle: 0, came: 'up', in: true }, hand: {}, engine: 'stopped', apart: [], bridged: [], swapped: [] };
const fresh: Session = { view: 'bench', job: { ...newJob('j1', '2026-11-25', { from: 'library', name: 'light-van' }), scene: rest } };
const key = (angle: number, gesture?: string): Message => ({ do: 'key', key: { angle, came: 'up', in: true }, gesture });

test('a message never changes the session it was given', () => {
  const frozen = structuredClone(fresh);
  update(fresh, key(30));
  update(fresh, { do: 'hand', part: 'S2', setting: '1' });
  update(fresh, { do: 'faults', faults: ['F3 blown'] });
  expect(fresh).toEqual(frozen);
});

test('a setting put back to rest is no longer named', () => {
  const on = update(fresh, { do: 'hand', part: 'S2', setting: '1' });
  expect(on.job.scene?.hand).toEqual({ S2: '1' });
  expect(update(on, { do: 'hand', part: 'S2', setting: undefined }).job.scene?.hand).toEqual({});
});

test('another circuit takes scene, faults and meter of the old one away, and keeps the notes', () => {
  const noted = update(update(fresh, { do: 'faults', faults: ['F3 blown'] }), { do: 'notes', notes: { vehicle: 'no. 12' } });
  const changed = update(noted, { do: 'circuit', circuit: { from: 'library', name: 'truck' } });
  expect(changed.job).toMatchObject({ faults: [], scene: undefined, notes: { vehicle: 'no. 12' } });
  expect(changed.job.meter.red).toBeUndefined();
});

test('the steps of one drag are one step of undo; looking is none', () => {
  let history = begin(fresh);
  for (let angle = 1; angle <= 30; angle++) history = step(history, key(angle, 'turn 1'));
  history = step(history, { do: 'look', look: { load: 'T1' } });
  history = step(history, key(60, 'turn 2'));
  expect(history.past).toHaveLength(2);
  expect(undo(history).now.job.scene?.key?.angle).toBe(30);
  expect(undo(undo(history)).now.job.scene?.key?.angle).toBe(0);
});

const anyMessage: fc.Arbitrary<Message> = fc.oneof(
  fc.record({
    do: fc.constant('key' as const),
    key: fc.record({ angle: fc.integer({ min: 0, max: 90 }), came: fc.constant('up' as const), in: fc.boolean() }),
  }),
  fc.record({ do: fc.constant('faults' as const), faults: fc.array(fc.string(), { maxLength: 3 }) }),
  fc.record({ do: fc.constant('hand' as const), part: fc.string(), setting: fc.option(fc.string(), { nil: undefined }) }),
  fc.record({ do: fc.constant('notes' as const), notes: fc.record({ complaint: fc.string() }) }),
);
test('undo as often as there were steps leads back to the start, redo to the end', () => {
  fc.assert(
    fc.property(fc.array(anyMessage, { maxLength: 30 }), (messages) => {
      let history: History = begin(fresh);
      for (const m of messages) history = step(history, m);
      const end = history.now;
      const steps = history.past.length;
      for (let k = 0; k < steps; k++) history = undo(history);
      expect(history.now).toBe(fresh);
      for (let k = 0; k < steps; k++) history = redo(history);
      expect(history.now).toBe(end);
    }),
    { seed: 4 },
  );
});

test('whatever a link carries comes back as it went in', () => {
  fc.assert(
    fc.property(fc.string({ minLength: 1 }), fc.string(), fc.array(fc.string(), { maxLength: 4 }), (circuit, scene, faults) => {
      expect(readLink(`#${linkText({ circuit, scene, faults })}`)).toEqual({ circuit, scene, faults, view: undefined });
    }),
    { seed: 4 },
  );
  expect(readLink('')).toBeUndefined();
  expect(readLink('#scene=ON')).toBeUndefined();
});
