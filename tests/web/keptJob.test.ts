import { expect, test } from 'vitest';
import { Keeper } from '../../web/session/Keeper.ts';
import type { KeptJob, Shelving } from '../../web/session/keep.ts';
import { readKept } from '../../web/session/keptJob.ts';
import { type Job, newJob } from '../../web/session/session.ts';

const job: Job = newJob('j1', '2026-11-25', { from: 'library', name: 'light-van' });
const record = { id: 'j1', form: 1, revision: 3, saved: 5, job };
const named = (vehicle: string, id = 'j1'): Job => ({ ...job, id, notes: { ...job.notes, vehicle } });

test('a record of today comes back as it was', () => {
  expect(readKept(record)).toEqual({ ok: true, kept: { id: 'j1', revision: 3, saved: 5, job } });
});

test('a record of an older program has what it lacks filled in', () => {
  const { id, day, circuit } = job;
  const read = readKept({ id: 'j1', revision: 1, saved: 1, job: { id, day, circuit, notes: { vehicle: 'van' } } });
  expect(read.ok && read.kept.job).toEqual({ ...job, notes: { ...job.notes, vehicle: 'van' } });
});

const refused: readonly (readonly [why: string, record: unknown])[] = [
  ['of a newer program', { ...record, form: 2 }],
  ['without a job', { ...record, job: undefined }],
  ['whose job bears another name', { ...record, job: named('x', 'j2') }],
  ['with a scene that is none', { ...record, job: { ...job, scene: { key: 'ON' } } }],
  ['with faults that are no phrases', { ...record, job: { ...job, faults: [3] } }],
  ['that is a text', 'j1'],
  ['that is nothing', null],
];
test.each(refused)('a record %s is refused with what, why, how to mend, and all that it holds', (_why, held) => {
  const read = readKept(held);
  if (read.ok) expect.unreachable();
  else {
    expect([read.unread.what, read.unread.why].every((words) => words.length > 10)).toBe(true);
    expect(read.unread.mend.length).toBeGreaterThan(0);
    expect(read.unread.text).toBe(JSON.stringify(held, null, 1));
  }
});

/** A shelf that refuses while `full`, and takes its time. */
function shelf() {
  const jobs = new Map<string, KeptJob>();
  const state = { full: false };
  const made: Shelving = {
    list: async () => [...jobs.values()],
    unread: async () => [],
    note: () => undefined,
    unnote: () => undefined,
    read: async (id) => jobs.get(id),
    save: async (saved, based) => {
      await new Promise((done) => setTimeout(done, 2));
      if (state.full) throw new DOMException('full', 'QuotaExceededError');
      const there = jobs.get(saved.id);
      if (there && there.revision !== based) return { ok: false, theirs: there };
      jobs.set(saved.id, { id: saved.id, revision: based + 1, saved: 0, job: saved });
      return { ok: true, revision: based + 1 };
    },
    drop: async (id) => void jobs.delete(id),
  };
  return { made, jobs, state };
}
const told: string[] = [];
const events = {
  follow: () => void told.push('follow'),
  conflict: () => void told.push('conflict'),
  left: (mine: Job) => void told.push(`left ${mine.notes.vehicle}`),
  refused: (mine: Job) => void told.push(`refused ${mine.notes.vehicle}`),
  kept: () => void told.push('kept'),
};

test('a full disk is said, and the next change is kept once there is room', async () => {
  told.length = 0;
  const { made, jobs, state } = shelf();
  const keeper = new Keeper(made, undefined, events);
  state.full = true;
  keeper.keep(named('one'));
  await keeper.rest();
  expect(told).toEqual(['refused one']);
  state.full = false;
  keeper.keep(named('two'));
  await keeper.rest();
  expect(told).toEqual(['refused one', 'kept']);
  expect(jobs.get('j1')?.job.notes.vehicle).toBe('two');
});

test('the last change of a job that leaves the desk is kept, too', async () => {
  told.length = 0;
  const { made, jobs } = shelf();
  const keeper = new Keeper(made, undefined, events);
  keeper.keep(named('w'));
  keeper.keep(named('white'));
  keeper.took('j2', 0);
  keeper.keep(named('red', 'j2'));
  await keeper.rest();
  expect([...jobs.values()].map((k) => k.job.notes.vehicle)).toEqual(['white', 'red']);
  expect(told).toEqual([]);
});

test('a change to a job that left the desk, and that another tab changed, is handed on', async () => {
  told.length = 0;
  const { made, jobs } = shelf();
  const keeper = new Keeper(made, undefined, events);
  keeper.took('j1', 0);
  jobs.set('j1', { id: 'j1', revision: 7, saved: 0, job: named('theirs') });
  keeper.keep(named('w'));
  keeper.keep(named('mine'));
  keeper.took('j2', 0);
  keeper.keep(named('red', 'j2'));
  await keeper.rest();
  expect(told).toEqual(['left mine']);
  expect(jobs.get('j1')?.job.notes.vehicle).toBe('theirs');
});
