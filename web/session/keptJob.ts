import type { Scene } from '../../src/circuit/scene.ts';
import type { KeptJob, Taken } from './keep.ts';
import { type CircuitChoice, type Job, type Look, type Meter, type Notes, newJob, noNotes } from './session.ts';

/** The form in which jobs are kept. It rises when a program of the form before could not read them any more. */
export const keptForm = 1;

/** A record on the shelf that is no job to this program. It is left as it is; `text` is all of it, to be saved as a file. */
export type Unread = {
  readonly id: string;
  readonly what: string;
  readonly why: string;
  readonly mend: readonly string[];
  readonly text: string;
};
export type KeptRead = { readonly ok: true; readonly kept: KeptJob } | { readonly ok: false; readonly unread: Unread };

/**
 * A record of the shelf as a job. What an older program did not know yet is filled in as in a new job; what this one cannot
 * know, or what is damaged, is refused whole, so that it is never kept again with half of it missing.
 */
export function readKept(record: unknown): KeptRead {
  if (!isMap(record)) return refused(record, 'a kept job is damaged');
  const { form = 1, revision, saved } = record;
  if (typeof form === 'number' && form > keptForm) return refused(record, 'a kept job was written by a newer Detent');
  const job = jobIn(record['job']);
  if (!job || job.id !== record['id'] || !isCount(revision) || !isCount(saved)) return refused(record, 'a kept job is damaged');
  const { desk, taken } = record;
  return { ok: true, kept: { id: job.id, revision, saved, job, ...(isText(desk) && { desk }), ...(isTaken(taken) && { taken }) } };
}

function refused(record: unknown, what: string): KeptRead {
  const id = isMap(record) && typeof record['id'] === 'string' ? record['id'] : '';
  const mend = ['save it as a file', what.includes('newer') ? 'open it with the newer Detent' : 'drop it once it is saved'];
  return {
    ok: false,
    unread: { id, what, why: 'it cannot be shown here, and stays on the shelf as it is', mend, text: wholeText(record) },
  };
}

/** Never throws: a record may hold what JSON cannot. */
function wholeText(record: unknown): string {
  try {
    return JSON.stringify(record, null, 1) ?? String(record);
  } catch {
    return isMap(record) ? Object.keys(record).join('\n') : typeof record;
  }
}

type Held = Readonly<Record<string, unknown>>;
const isMap = (x: unknown): x is Held => typeof x === 'object' && x !== null && !Array.isArray(x);
const isText = (x: unknown): x is string => typeof x === 'string';
const isCount = (x: unknown): x is number => typeof x === 'number' && Number.isFinite(x);
const isTexts = (x: unknown): x is readonly string[] => Array.isArray(x) && x.every(isText);
const isOneOf = <T extends string>(words: readonly T[], x: unknown): x is T => isText(x) && (words as readonly string[]).includes(x);
/** Absent, or of the kind that `is` asks for. */
const maybe = (x: unknown, is: (x: unknown) => boolean): boolean => x === undefined || is(x);

const isTaken = (x: unknown): x is Taken => isMap(x) && Object.values(x).every(isCount);

function jobIn(held: unknown): Job | undefined {
  if (!isMap(held)) return undefined;
  const { id, day, circuit, scene, beside, faults = [], notes = {}, look = {}, meter = {}, more = {} } = held;
  if (!isText(id) || !isText(day) || !isCircuit(circuit) || !isTexts(faults) || !maybe(scene, isScene) || !isMap(more)) return undefined;
  if (!isNotes(notes) || !isLook(look) || !isMeter(meter)) return undefined;
  if (!maybe(beside, (x) => isMap(x) && isScene(x['scene']) && isTexts(x['faults']))) return undefined;
  const fresh = newJob(id, day, circuit);
  return {
    ...(held as Partial<Job>),
    ...{ id, day, circuit, faults, more },
    notes: { ...noNotes, ...notes },
    look: { ...fresh.look, ...look },
    meter: { ...fresh.meter, ...meter },
  };
}

const isCircuit = (x: unknown): x is CircuitChoice =>
  isMap(x) && isText(x['name']) && (x['from'] === 'library' || (x['from'] === 'file' && isText(x['text'])));

const isNotes = (x: unknown): x is Partial<Notes> =>
  isMap(x) &&
  ['vehicle', 'complaint'].every((k) => maybe(x[k], isText)) &&
  ['history', 'findings', 'repair'].every((k) => maybe(x[k], isTexts));

const isLook = (x: unknown): x is Partial<Look> =>
  isMap(x) &&
  maybe(x['show'], (w) => isOneOf(['healthy', 'faulty', 'difference'], w)) &&
  maybe(x['panel'], (w) => isOneOf(['key', 'drawing', 'table'], w)) &&
  ['load', 'part'].every((k) => maybe(x[k], isText)) &&
  maybe(x['functions'], isTexts) &&
  ['between', 'only', 'playing', 'whole'].every((k) => maybe(x[k], (b) => typeof b === 'boolean'));

const isMeter = (x: unknown): x is Partial<Meter> =>
  isMap(x) &&
  maybe(x['instrument'], (w) => isOneOf(['volts', 'test lamp', 'ohms', 'clamp', 'amperes', 'jumper'], w)) &&
  ['red', 'black'].every((k) => maybe(x[k], isText)) &&
  maybe(x['placing'], (w) => isOneOf(['red', 'black'], w)) &&
  maybe(x['open'], (b) => typeof b === 'boolean');

const isScene = (x: unknown): x is Scene =>
  isMap(x) &&
  maybe(x['key'], (k) => isMap(k) && isCount(k['angle']) && isOneOf(['up', 'back'], k['came']) && typeof k['in'] === 'boolean') &&
  isMap(x['hand']) &&
  Object.values(x['hand']).every(isText) &&
  isOneOf(['stopped', 'cranking', 'running'], x['engine']) &&
  isTexts(x['apart']) &&
  isTexts(x['swapped']) &&
  Array.isArray(x['bridged']) &&
  x['bridged'].every((pair) => isTexts(pair) && pair.length === 2);
