import { expect, test } from 'vitest';
import { amperesText, positionRows, tableSentence, voltsText } from '../../src/report/positionRows.ts';
import type { Cell, CellVerdict, PositionTable } from '../../src/solve/positionTable.ts';

function cell(verdict: CellVerdict, healthy: CellVerdict, more: Partial<Cell> = {}): Cell {
  return {
    position: 'ON',
    verdict,
    volts: 12,
    amperes: 1,
    otherWay: false,
    changed: verdict !== healthy,
    healthy: { verdict: healthy, volts: 12, amperes: 1 },
    ...more,
  };
}
const on = { name: 'ON', angle: 60, from: 60, to: 60, detent: true, key: { angle: 60, came: 'up' as const, in: true } };
const table = (cells: readonly Cell[]): PositionTable => ({
  positions: [on],
  rows: cells.map((c, k) => ({ id: `E${k}`, name: `Load ${k}`, needs: {}, cells: [c] })),
  warnings: [],
  chatters: [],
});

const looks = [
  { is: cell('works', 'works'), mark: 'full', word: 'works', tone: 'plain', was: undefined },
  { is: cell('dead', 'dead'), mark: 'dash', word: 'off', tone: 'off', was: undefined },
  { is: cell('dead', 'works'), mark: 'struck', word: 'dead', tone: 'bad', was: 'was works' },
  { is: cell('weak', 'works'), mark: 'half', word: 'weak', tone: 'weak', was: 'was works' },
  { is: cell('works', 'dead'), mark: 'full', word: 'works', tone: 'bad', was: 'was off' },
  { is: cell('works', 'works', { otherWay: true }), mark: 'hooked', word: 'other way', tone: 'other', was: 'was works' },
  { is: cell('chatters', 'works'), mark: 'half', word: 'chatters', tone: 'bad', was: 'was works' },
  { is: cell('still', 'runs'), mark: 'struck', word: 'still', tone: 'bad', was: 'was runs' },
  { is: cell('still', 'still'), mark: 'dash', word: 'still', tone: 'off', was: undefined },
  {
    is: cell('works', 'works', { sometimes: { verdict: 'dead', share: 0.4 }, changed: true }),
    mark: 'full',
    word: 'works, at times dead',
    tone: 'bad',
    was: 'was works',
  },
] as const;

test.each(looks)('$word, $tone: every verdict has a mark and a word, and a change says what was', ({ is, mark, word, tone, was }) => {
  const seen = positionRows(table([is]), 'difference')[0]!.cells[0]!;
  expect(seen).toMatchObject({ mark, word, tone });
  expect(seen.was).toBe(was);
});

test('healthy and faulty show one line each', () => {
  const seen = table([cell('dead', 'works')]);
  expect(positionRows(seen, 'healthy')[0]!.cells[0]).toMatchObject({ word: 'works' });
  expect(positionRows(seen, 'healthy')[0]!.cells[0]!.was).toBeUndefined();
  expect(positionRows(seen, 'faulty')[0]!.cells[0]).toMatchObject({ word: 'dead' });
  expect(positionRows(seen, 'faulty')[0]!.cells[0]!.was).toBeUndefined();
});

test('the sentence counts what happens in the position where most changes; none where nothing does', () => {
  expect(tableSentence(table([cell('dead', 'works'), cell('dead', 'works'), cell('works', 'works')]))).toBe('2 loads die at ON');
  expect(tableSentence(table([cell('dead', 'works')]))).toBe('1 load dies at ON');
  expect(tableSentence(table([cell('dead', 'works'), cell('works', 'dead')]))).toBe('1 load dies, 1 works and ought not at ON');
  expect(tableSentence(table([cell('works', 'works')]))).toBeUndefined();
});

test.each([
  [12.345, '12.3 V'],
  [-6.2, '-6.2 V'],
  [0.4567, '0.46 V'],
  [0.0123, '12 mV'],
  [0.00456, '4.6 mV'],
  [1e-7, '0 V'],
])('%d V is written %s', (volts, text) => {
  expect(voltsText(volts)).toBe(text);
});
test.each([
  [4.03, '4.03 A'],
  [212.4, '212 A'],
  [0.32, '320 mA'],
  [0.0042, '4.20 mA'],
  [2.1e-6, '2.1 µA'],
  [0, '0 A'],
])('%d A is written %s', (amperes, text) => {
  expect(amperesText(amperes)).toBe(text);
});
