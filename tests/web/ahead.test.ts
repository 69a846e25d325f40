import { expect, test } from 'vitest';
import { type Noted, paced, standing } from '../../web/session/ahead.ts';
import { Keeper } from '../../web/session/Keeper.ts';
import { type KeptJob, type Shelving, type Taken, takenWith } from '../../web/session/keep.ts';
import { keptForm } from '../../web/session/keptJob.ts';
import { type Job, newJob } from '../../web/session/session.ts';

const job: Job = newJob('j1', '2026-11-25', { from: 'library', name: 'light-van' });
const named = (vehicle: string): Job => ({ ...job, notes: { ...job.notes, vehicle } });
const kept = (vehicle: string, revision: number, desk: string, taken: Taken = {}): KeptJob => ({
  id: 'j1',
  revision,
  saved: 100,
  job: named(vehicle),
  desk,
  taken,
});
const noted = (vehicle: string, desk: string, step: number, based: number, saved = 200): Noted => ({
  id: 'j1',
  desk,
  step,
  based,
  saved,
  form: keptForm,
  job: named(vehicle),
});
const vehicles = (list: readonly Noted[]) => list.map((n) => n.job.notes.vehicle);

test('a state that was noted and never saved stands', () => {
  const { kept: now, astray } = standing(undefined, [noted('wh', 'a', 2, 0)]);
  expect(now).toMatchObject({ id: 'j1', revision: 0, taken: { a: 2 }, job: { notes: { vehicle: 'wh' } } });
  expect(astray).toEqual([]);
});

test('a state noted after the last saving of the same page stands, though that page had not heard of its saving', () => {
  const { kept: now } = standing(kept('w', 4, 'a', { a: 7 }), [noted('white', 'a', 9, 3)]);
  expect(now).toMatchObject({ revision: 4, job: { notes: { vehicle: 'white' } }, taken: { a: 9 } });
});

test('a state noted on what another page had saved stands', () => {
  const { kept: now } = standing(kept('w', 4, 'a', { a: 7 }), [noted('wh', 'b', 1, 4)]);
  expect(now).toMatchObject({ revision: 4, job: { notes: { vehicle: 'wh' } }, taken: { a: 7, b: 1 } });
});

test('what a saving includes is spent, and never comes back over it', () => {
  const { kept: now, spent, astray } = standing(kept('white', 5, 'b', { a: 7, b: 2 }), [noted('wh', 'a', 7, 3), noted('w', 'b', 1, 4)]);
  expect(now?.job.notes.vehicle).toBe('white');
  expect(vehicles(spent)).toEqual(['wh', 'w']);
  expect(astray).toEqual([]);
});

test('a state on what another page saved over is astray: neither lost nor put over the other', () => {
  const { kept: now, astray } = standing(kept('theirs', 5, 'b', { b: 3 }), [noted('mine', 'a', 8, 4)]);
  expect(now?.job.notes.vehicle).toBe('theirs');
  expect(vehicles(astray)).toEqual(['mine']);
});

test('of two pages that both went on from the same saving the later stands and the other is astray', () => {
  const both = [noted('one', 'a', 3, 4, 200), noted('two', 'b', 9, 4, 300)];
  const { kept: now, astray } = standing(kept('w', 4, 'c', { c: 1 }), both);
  expect(now?.job.notes.vehicle).toBe('two');
  expect(vehicles(astray)).toEqual(['one']);
});

test('every change is noted in the task that made it, however long a saving takes', async () => {
  const seen: string[] = [];
  let answer: () => void = () => undefined;
  const slow = new Promise<void>((done) => {
    answer = done;
  });
  const shelf: Shelving = {
    list: async () => [],
    unread: async () => [],
    read: async () => undefined,
    note: ({ notes }, based) => void seen.push(`${notes.vehicle} on ${based}`),
    unnote: () => undefined,
    save: async (_job, based) => {
      await slow;
      return { ok: true, revision: based + 1 };
    },
    drop: async () => undefined,
  };
  const unexpected = () => expect.unreachable();
  const keeper = new Keeper(shelf, undefined, {
    follow: unexpected,
    conflict: unexpected,
    left: unexpected,
    refused: unexpected,
    kept: unexpected,
  });
  keeper.took('j1', 3);
  for (const word of ['w', 'wh', 'whi']) keeper.keep(named(word));
  expect(seen).toEqual(['w on 3', 'wh on 3', 'whi on 3']);
  answer();
  await keeper.rest();
  keeper.keep(named('whit'));
  expect(seen.at(-1)).toBe('whit on 5');
  await keeper.rest();
});

test('what was noted of a job that gives way to another tab is given up, so that it does not come back', async () => {
  const given: string[] = [];
  const conflicts: KeptJob[] = [];
  const shelf: Shelving = {
    list: async () => [],
    unread: async () => [],
    read: async () => undefined,
    note: () => undefined,
    unnote: (id) => void given.push(id),
    save: async () => ({ ok: false, theirs: kept('theirs', 9, 'b') }),
    drop: async () => undefined,
  };
  const unexpected = () => expect.unreachable();
  const keeper = new Keeper(shelf, undefined, {
    follow: unexpected,
    conflict: (theirs) => conflicts.push(theirs),
    left: unexpected,
    refused: unexpected,
    kept: unexpected,
  });
  keeper.took('j1', 3);
  keeper.keep(named('mine'));
  await keeper.rest();
  expect(conflicts).toHaveLength(1);
  expect(given).toEqual([]);
  keeper.took('j1', 9);
  expect(given).toEqual(['j1']);
});

test('with a pause between savings every change is noted, and the last one is saved when the hand rests', async () => {
  const seen: string[] = [];
  const shelf: Shelving = {
    list: async () => [],
    unread: async () => [],
    read: async () => undefined,
    note: ({ notes }) => void seen.push(`noted ${notes.vehicle}`),
    unnote: () => undefined,
    save: async ({ notes }, based) => {
      seen.push(`saved ${notes.vehicle} on ${based}`);
      return { ok: true, revision: based + 1 };
    },
    drop: async () => undefined,
  };
  const unexpected = () => expect.unreachable();
  const events = { follow: unexpected, conflict: unexpected, left: unexpected, refused: unexpected, kept: unexpected };
  const keeper = new Keeper(shelf, undefined, events, 60_000);
  keeper.took('j1', 3);
  for (const word of ['w', 'wh', 'whi']) keeper.keep(named(word));
  expect(seen).toEqual(['noted w', 'noted wh', 'noted whi']);
  await keeper.rest();
  expect(seen.slice(3)).toEqual(['saved whi on 3']);
  keeper.keep(named('whit'));
  await keeper.rest();
  expect(seen.slice(4)).toEqual(['noted whit', 'saved whit on 4']);
});

test('a page that has just saved is remembered as the last, however long ago it saved first', () => {
  const pages = ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'a', 'i'];
  const taken = pages.reduce<Taken>((all, page, k) => takenWith(all, page, k), {});
  expect(Object.entries(taken)).toEqual([
    ['c', 2],
    ['d', 3],
    ['e', 4],
    ['f', 5],
    ['g', 6],
    ['h', 7],
    ['a', 8],
    ['i', 9],
  ]);
});

test('on a slow disk the last state of every job waits, not only that of the last job', async () => {
  const written: string[] = [];
  let go: () => void = () => undefined;
  const held = new Promise<void>((done) => {
    go = done;
  });
  const write = paced(async (n) => {
    written.push(`${n.id} ${n.step}`);
    await held;
  });
  const of = (id: string, step: number): Noted => ({ ...noted('w', 'a', step, 0), id });
  for (let step = 1; step <= 18; step++) write(of('j1', step));
  write(of('j2', 19));
  write(of('j2', 20));
  expect(written).toHaveLength(16);
  go();
  await new Promise((done) => setTimeout(done, 5));
  expect(written.slice(16)).toEqual(['j1 18', 'j2 20']);
});
