import { beforeAll, expect, test } from 'vitest';
import { type Diagnosis, diagnose } from '../../src/diagnose/diagnose.ts';
import { readFinding } from '../../src/diagnose/findingPhrase.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import { type JobSheet, jobSheet } from '../../src/report/jobSheet.ts';
import { jobSheetHtml } from '../../src/report/jobSheetHtml.ts';
import { markPlace } from '../../src/report/markPlace.ts';
import { libraryCircuit } from '../diagnose/library.ts';
import { unsoundXml } from './unsoundXml.ts';

const board = libraryCircuit('bench-board');
const predictor = new Predictor(board);
const findingsOf = (...phrases: string[]) =>
  phrases.flatMap((p) => {
    const read = readFinding(p, board);
    if (!read.ok) throw new Error(`${p}: ${read.problems[0]?.what}`);
    return read.value;
  });
const seen = [
  'START: engine fires',
  'ON after START: engine dies',
  'ON: T1 dead, A1 works',
  'between ON and START: T1 works',
  'ON: 0.02 V at S1.15',
  'off the vehicle: S1.30 to S1.15 at ON open',
];
const notes = { vehicle: '', complaint: 'Dies on <release> & "stays" dead.', history: ['radio fitted'], repair: ['replaced S1: cured'] };
let diagnosis: Diagnosis;
let sheet: JobSheet;
beforeAll(() => {
  diagnosis = diagnose(board, findingsOf(...seen), {}, predictor);
  sheet = jobSheet(board, diagnosis, notes, { tableRun: true, after: [], exchanged: ['S1'] }, predictor);
}, 60_000);

test('the cause stands on it as proved, ringed on a drawing of its own tracks', () => {
  expect(diagnosis.verdict.state).toBe('proved');
  expect(sheet.cause).toMatchObject({ title: 'Cause, proved', fault: 'S1.30-15 open at ON' });
  const ring = sheet.marks.find((m) => m.is === 'cause');
  expect(ring && markPlace(sheet.layout, ring.at)).toBeDefined();
  expect(sheet.layout.tracks.map((t) => t.load)).toContain('T1');
});

test('labels of the drawing stay readable on A4', () => {
  // 190 mm less the column of words leave 145 mm for the drawing; 13 px of its labels are to be 7 pt (2.47 mm) or more.
  expect((13 / sheet.layout.width) * 145).toBeGreaterThan(2.4);
});

test('readings are numbered by their place, with what is good beside what was read', () => {
  expect(sheet.readings.map(({ number, read, tells }) => [number, read, tells.startsWith('not as it should be')])).toEqual([
    [1, '20 mV', true],
    [2, 'open', true],
  ]);
  // Battery of 12.6 V, a few milliohms before the switch: circuits/bench-board.yaml.
  expect(Number.parseFloat(sheet.readings[0]!.good)).toBeGreaterThan(12);
  const marked = sheet.marks.filter((m) => m.is === 'reading').map((m) => (m.is === 'reading' ? m.number : 0));
  expect(marked).toEqual([1, 2]);
});

test('what was asked, the table after, what was done and the words for the customer are there', () => {
  expect(sheet.asked[0]).toBe('radio fitted');
  expect(sheet.asked.join(' ')).toContain('ON after START: engine dies');
  expect(sheet.table.title).toBe('Table run again after the repair');
  expect(sheet.table.rows.every((r) => r.cells.length === sheet.table.positions.length)).toBe(true);
  expect(sheet.done).toBe('Replaced S1: cured.');
  expect(sheet.customer).toContain('It has been replaced.');
});

test('without a proof it says so and blames nothing', () => {
  const open = diagnose(board, findingsOf('START: engine fires', 'ON after START: engine dies'), {}, predictor);
  const draft = jobSheet(board, open, { ...notes, repair: [] }, { tableRun: false, after: [], exchanged: [] }, predictor);
  expect(draft.cause.title).toBe('Cause, not proved yet');
  expect([draft.cause.fault, draft.customer, draft.why]).toEqual(['', '', '']);
  expect(draft.table.title).toBe('Table to run again after the repair');
}, 60_000);

test('the HTML file escapes every text, has no script and asks for nothing', () => {
  const evil = '<script>alert(1)</script><img src=x onerror=alert(2)>';
  const html = jobSheetHtml(
    { ...sheet, vehicle: evil, asked: [evil], title: evil },
    { day: '25 Nov 2026', registration: evil, odometer: evil, technician: evil, done: evil, why: evil, customer: evil },
  );
  expect(html).not.toMatch(/<script|<img/i);
  expect(html).not.toMatch(/<[^>]*\s(?:src|href|on\w+)=/i);
  expect(html).toContain('Dies on &lt;release&gt; &amp; &quot;stays&quot; dead.');
  const svg = html.slice(html.indexOf('<svg'), html.indexOf('</svg>') + 6);
  expect(unsoundXml(svg)).toEqual([]);
});
