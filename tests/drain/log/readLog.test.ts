import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { clockSeconds, plainNumber } from '../../../src/drain/log/figures.ts';
import { LogReader } from '../../../src/drain/log/readLog.ts';

function read(text: string, piece = 7) {
  const reader = new LogReader('log.csv');
  for (let k = 0; k < text.length; k += piece) reader.push(text.slice(k, k + piece));
  return reader.end();
}
const log = (text: string, piece?: number) => {
  const done = read(text, piece);
  if (!done.ok) throw new Error(done.problems.map((p) => p.what).join('; '));
  return done.value;
};

/** The same three rows, 0, 1 and 2 s, 450, 120 and 23.5 mA, as loggers write them. Invented. */
const forms = [
  'time [s];current [mA]\n0;450\n1;120\n2;23.5',
  'time [s];current [mA]\r\n0;450\r\n1;120\r\n2;23,5\r\n',
  'Time (s)\tClamp (A)\n10\t0,45\n11\t0,12\n12\t0,0235\n',
  'Timestamp,Current (A)\n2026-02-28T23:59:59,0.45\n2026-03-01T00:00:00,0.12\n2026-03-01T00:00:01,0.0235\n',
  'Date Time;I [mA]\n2026-11-25 07:30:00;450\n2026-11-25 07:30:01;120\n2026-11-25 07:30:02;23.5\n',
  'time,current in mA\n23:59:59,450\n00:00:00,120\n00:00:01,23.5',
  '# clamp 3, minus cable\nno,time in min,current_mA,volts [V]\n1,0,450,12.6\n2,0.0166666667,120,12.6\n3,0.0333333333,23.5,12.6',
  '\uFEFFt/ms;I/µA\n0;450000\n1000;120000\n2000;23500',
  'time;current [A]\n2026-11-25T07:30:00.000+01:00;0.45\n2026-11-25T06:30:01.000Z;0.12\n2026-11-25T06:30:02Z;0.0235',
];
test.each(forms)('%j', (text) => {
  const { seconds, amperes, skipped } = log(text);
  expect([...seconds].map((s) => Math.round(1000 * s) / 1000)).toEqual([0, 1, 2]);
  expect([...amperes].map((a) => Math.round(1e6 * a) / 1e6)).toEqual([0.45, 0.12, 0.0235]);
  expect(skipped).toBe(0);
});

test('in whatever pieces a file comes, it reads the same', () => {
  const text = forms[3]!;
  const whole = log(text, text.length);
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 50 }), (piece) => {
      const { seconds, amperes } = log(text, piece);
      return seconds.join() === whole.seconds.join() && amperes.join() === whole.amperes.join();
    }),
    { seed: 20261125 },
  );
});

describe('bad rows', () => {
  const rows = Array.from({ length: 60 }, (_, k) => `${k};${k + 1}`);
  const text = (bad: string, at = 30) => ['time [s];current [mA]', ...rows.slice(0, at), bad, ...rows.slice(at)].join('\n');
  test.each([
    ['abc;12', '`abc` is no time'],
    ['30;', 'the current is missing'],
    ['30;OL', '`OL` is no current'],
    ['30', 'a column is missing'],
    ['1;12', 'its time is before that of the row above'],
    ['30;0x10', '`0x10` is no current'],
    ['30;Infinity', '`Infinity` is no current'],
  ])('%j is left out with a word that names line 32: %s', (bad, why) => {
    const { amperes, warnings, skipped } = log(text(bad));
    expect(skipped).toBe(1);
    expect(amperes.length).toBe(60);
    expect(warnings).toHaveLength(1);
    expect(warnings[0]).toMatchObject({ line: 32, severity: 'warning', code: 'log-row' });
    expect(warnings[0]!.what).toBe(`line 32 was left out: ${why}`);
  });

  test('many are counted, five are named', () => {
    const { warnings, skipped } = log(`${text('x;1')}\n${Array.from({ length: 9 }, () => 'x;1').join('\n')}`);
    expect(skipped).toBe(10);
    expect(warnings).toHaveLength(6);
    expect(warnings.at(-1)!.what).toBe('5 more rows were left out');
  });
});

test.each([
  ['', 'log-empty'],
  ['time [s];current [mA]\n', 'log-empty'],
  ['0;450\n1;120\n', 'log-header'],
  ['time [s];volts [V]\n0;12\n', 'log-header'],
  ['time [s];current\n0;12\n', 'log-header'],
  ['time [s];current [V]\n0;12\n', 'log-header'],
  ['current [mA]\n12\n', 'log-header'],
  ['time [s];current [mA]\na;b\nc;d\n0;1\n', 'log-not-read'],
])('%j is refused as %s, with what to do', (text, code) => {
  const done = read(text);
  expect(done.ok).toBe(false);
  if (done.ok) return;
  expect(done.problems[0]!.code).toBe(code);
  expect(done.problems[0]!.mend.length).toBeGreaterThan(0);
});

test('no text makes the reader throw', () => {
  fc.assert(
    fc.property(fc.string({ maxLength: 200 }), fc.boolean(), (text, headed) => {
      const done = read(headed ? `time [s];current [mA]\n${text}` : text);
      return done.ok || done.problems.length > 0;
    }),
    { numRuns: 300, seed: 20261125 },
  );
});

test('a clamp that sat the other way round is turned', () => {
  const { amperes, turned } = log('time [s];current [mA]\n0;-450\n1;-120\n2;-23');
  expect(turned).toBe(true);
  expect(amperes[0]).toBeCloseTo(0.45, 12);
});

/** Seconds since 1970. Source: arithmetic, 20 513 days to 1 March 2026 (56 years of 365 days, 14 leap days, 59 days). */
test.each([
  ['2026-03-01T00:00:00', 20_513 * 86_400],
  ['1970-01-01T00:00:00', 0],
  ['2000-02-29 12:00:00', 11_016 * 86_400 + 43_200],
])('%s', (text, seconds) => {
  expect(clockSeconds(text)).toEqual({ seconds, dated: true });
});

test.each([
  ['1,5', 1.5],
  [' -0.02 ', -0.02],
  ['1e-3', 0.001],
  ['', Number.NaN],
  ['1.2.3', Number.NaN],
  ['1,2,3', Number.NaN],
])('number %j', (text, figure) => {
  expect(plainNumber(text)).toBe(figure);
});

test('half a million rows in pieces lose none; how long a million take, npm run bench says', () => {
  const rows = Array.from({ length: 500_000 }, (_, k) => `${k / 10};${(k % 7) + 20}`);
  const text = `time [s];current [mA]\n${rows.join('\n')}`;
  const reader = new LogReader('log.csv');
  for (let k = 0; k < text.length; k += 1 << 18) reader.push(text.slice(k, k + (1 << 18)));
  const done = reader.end();
  expect(done.ok && done.value.seconds.length).toBe(500_000);
  expect(done.ok && done.value.seconds.at(-1)).toBe(49_999.9);
});
