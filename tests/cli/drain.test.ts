import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { runLine } from '../../src/cli/runLine.ts';
import { fakeIo } from './fakeIo.ts';

const folder = mkdtempSync(join(tmpdir(), 'drain-'));
afterAll(() => rmSync(folder, { recursive: true }));

async function run(...words: readonly string[]) {
  const { io, out, err } = fakeIo();
  return { exit: await runLine(['drain', ...words], io), out: out(), errors: err() };
}
const van = 'circuits/light-van.yaml';

test('data: what outsiders read of a healthy vehicle', async () => {
  const { exit, out } = await run(van, '--json');
  expect(exit).toBe(0);
  const data = JSON.parse(out) as {
    amperes: number;
    draws: { part: string; amperes: number; feed: string[]; fuse: string | null; expected: number }[];
    battery: { ampereHours: number; hoursToNoStart: number };
    hypothesis: unknown;
    plan: { reading: string; expect: string; minutes: number }[];
  };
  expect(data.draws.reduce((sum, d) => sum + d.amperes, 0)).toBeCloseTo(data.amperes, 6);
  expect(data.draws.map((d) => [d.part, d.fuse])).toEqual([
    ['P3', 'F1'],
    ['A1', 'F1'],
    ['G2', null],
  ]);
  for (const d of data.draws) expect(d.feed[0]).toBe('G1.+');
  expect(data.battery.hoursToNoStart * (data.amperes + 0.00278)).toBeCloseTo(data.battery.ampereHours, 1);
  expect(data.hypothesis).toBeNull();
  for (const p of data.plan) expect([typeof p.reading, typeof p.expect, p.minutes > 0]).toEqual(['string', 'string', true]);
});

test('data: a hypothesis with readings', { timeout: 60_000 }, async () => {
  const { exit, out } = await run(van, '--suspect', 'S1.30-75 stuck closed', '--saw', 'key out: 430 mA at G1.-, A1 dead', '--json');
  expect(exit).toBe(0);
  const { hypothesis, amperes } = JSON.parse(out) as { amperes: number; hypothesis: Record<string, unknown> };
  expect(hypothesis).toMatchObject({ fault: 'S1.30-75 stuck closed', verdict: 'rejected' });
  expect(Object.keys(hypothesis)).toEqual(expect.arrayContaining(['fault', 'predicts', 'verdict', 'text']));
  // The circuit itself stays as it is: only --fault puts something in.
  expect(amperes).toBeLessThan(0.01);
  const { draws, amperes: supposed } = hypothesis['predicts'] as { draws: { amperes: number }[]; amperes: number };
  expect(draws.reduce((sum, d) => sum + d.amperes, 0)).toBeCloseTo(supposed, 6);
});

test.each([[], ['--saw', 'key out: 906 mA at G1.-']])(
  'text: who draws adds up to what the hypothesis says, headed as supposed %j',
  {
    timeout: 60_000,
  },
  async (...saw) => {
    const { out } = await run(van, '--suspect', 'S1.30-75 stuck closed', ...saw);
    const table = out.slice(out.indexOf('Who draws'), out.indexOf('Allowed here'));
    expect(table.split('\n')[0]).toMatch(/^Who draws +if so +designed/);
    const sum = [...table.matchAll(/\) +([\d.]+) mA /g)].reduce((all, m) => all + Number(m[1]), 0);
    // The radio's 0.9 A nameplate is among them; what is listed is rounded to the milliampere.
    expect(Math.abs(sum - Number(/cable reads ([\d.]+) mA/.exec(out)![1]))).toBeLessThan(1.5);
    expect(sum).toBeGreaterThan(850);
  },
);

test('text: a hypothesis that was rejected is not listed among who draws', { timeout: 60_000 }, async () => {
  const { out } = await run(van, '--suspect', 'S1.30-75 stuck closed', '--saw', 'key out: 430 mA at G1.-, A1 dead');
  expect(out).toMatch(/Who draws +now/);
});

test('text: within 80 columns, cautions with the meter, the table to print', { timeout: 60_000 }, async () => {
  const { exit, out } = await run(van, '--fault', 'S14 stuck closed');
  expect(exit).toBe(0);
  expect(Math.max(...out.split('\n').map((l) => l.length))).toBeLessThanOrEqual(80);
  expect(out.split('\n')[0]).toMatch(/^43\d mA with the key out$/);
  for (const word of ['never start', 'airbag', 'alarm', 'settings', 'E8 (Interior lamp)', 'F1 16 A', 'per 0.1 mV'])
    expect(out).toContain(word);
});

test('once proved, only what is left to do', { timeout: 60_000 }, async () => {
  const readings = ['key out: 906 mA at G1.-', 'key out: 15.8 mV from F6.1 to F6.2', 'key out, unplugged X2: 9 mA at G1.-'];
  const bench = 'off the vehicle: S1.30 to S1.75 at LOCK 0.1 Ω';
  const { exit, out } = await run(van, '--suspect', 'S1.30-75 stuck closed', ...[...readings, bench].flatMap((r) => ['--saw', r]));
  expect(exit).toBe(0);
  expect(out).toContain('S1.30-75 stuck closed is proved: the readings would have been otherwise');
  expect(out).toContain('After the repair: the key-off current again');
  expect(out).not.toContain('Then read, in this order');
});

test('cold shortens the days', { timeout: 60_000 }, async () => {
  const hours = async (...more: string[]) =>
    (JSON.parse((await run(van, '--json', ...more)).out) as { battery: { hoursToNoStart: number } }).battery.hoursToNoStart;
  expect(await hours('--ambient', '-10 °C')).toBeLessThan(await hours('--ambient', '20'));
});

test('a vehicle left with its lamps on', { timeout: 60_000 }, async () => {
  const { out } = await run('circuits/motorcycle.yaml', '--json', '--with', 'S10 on');
  expect(JSON.parse(out)).toHaveProperty('amperes');
});

test('a log is read, its bad row named, its last level counted as a reading', { timeout: 60_000 }, async () => {
  const rows = Array.from({ length: 700 }, (_, k) => `${k};${k < 20 ? 900 : 431}`);
  const file = join(folder, 'log.csv');
  writeFileSync(file, ['time [s];current [mA]', ...rows.slice(0, 100), '100;OL', ...rows.slice(100)].join('\n'));
  const { exit, out, errors } = await run(van, '--log', file);
  expect(exit).toBe(0);
  expect(errors).toContain('line 102 was left out: `OL` is no current');
  expect(out).toContain('700 rows over 12 min, 1 left out');
  expect(out).toContain('S14 stuck closed');
  expect(out.split('\n')[0]).toBe('431 mA with the key out');
});

test.each([
  [['--log', 'nothing.csv'], 'there is no file nothing.csv'],
  [['--suspect', 'S99 stuck'], 'S99'],
  [['--fault', 'S14 stuck open', '--fault', 'S14 stuck closed'], 'S14'],
  [['--saw', 'key out: 3 Ω at G1.-'], 'ohmmeter'],
  [['--ambient', '300 °C'], 'outside of -40 to 60 °C'],
  [['--ambient', '3 V'], 'temperature'],
] as const)('%j is a problem', async (words, said) => {
  const { exit, out, errors } = await run(van, ...words);
  expect(exit).toBe(1);
  expect(errors).toContain(said);
  expect(out).toBe('');
});

test('a command line without a file is wrong', async () => {
  const { exit } = await run();
  expect(exit).toBe(2);
});
