import type { Cell, CellVerdict, PositionTable, Row } from '../solve/positionTable.ts';

/** The five marks of a verdict; each always stands beside its word. */
export type Mark = 'full' | 'half' | 'struck' | 'hooked' | 'dash' | 'none';
export type CellView = {
  readonly load: string;
  readonly position: string;
  readonly mark: Mark;
  readonly word: string;
  /** `plain`, `weak` (caution tint), `bad` (framed), `other` (dashed frame), `off` (grey word). */
  readonly tone: 'plain' | 'weak' | 'bad' | 'other' | 'off';
  /** In the difference: what the healthy circuit does here, `was works`; absent where nothing differs. */
  readonly was?: string;
  /** `12.1 V, 4.03 A` */
  readonly figures: string;
};
export type RowView = { readonly id: string; readonly name: string; readonly cells: readonly CellView[]; readonly changed: number };
export type Showing = 'healthy' | 'faulty' | 'difference';

/** Loads with their cells in words, in the order of the table. */
export function positionRows(table: PositionTable, showing: Showing): readonly RowView[] {
  return table.rows.map((row) => ({
    id: row.id,
    name: row.name,
    cells: row.cells.map((cell) => cellView(row, cell, showing)),
    changed: row.cells.filter((c) => c.changed || c.otherWay).length,
  }));
}

function cellView(row: Row, cell: Cell, showing: Showing): CellView {
  const seen = showing === 'healthy' ? cell.healthy : cell;
  const designed = cell.healthy.verdict;
  const otherWay = showing !== 'healthy' && cell.otherWay;
  const looks = otherWay ? otherWayLook : lookOf(seen.verdict, designed);
  const sometimes = showing !== 'healthy' && cell.sometimes;
  const word = sometimes ? `${looks.word}, at times ${lookOf(sometimes.verdict, designed).word}` : looks.word;
  const was = showing === 'difference' && (cell.changed || otherWay) ? `was ${lookOf(designed, designed).word}` : undefined;
  const figures =
    seen.verdict === 'dead' && Math.abs(seen.amperes) < 1e-9
      ? voltsText(seen.volts)
      : `${voltsText(seen.volts)}, ${amperesText(seen.amperes)}`;
  const tone = looks.tone === 'plain' && was !== undefined ? 'bad' : looks.tone;
  return { load: row.id, position: cell.position, mark: looks.mark, word, tone, figures, ...(was !== undefined && { was }) };
}

type Look = { readonly mark: Mark; readonly word: string; readonly tone: CellView['tone'] };
const otherWayLook: Look = { mark: 'hooked', word: 'other way', tone: 'other' };

/** Dead is only a fault where the healthy circuit would feed the load; else it is off, as designed. */
function lookOf(verdict: CellVerdict, designed: CellVerdict): Look {
  switch (verdict) {
    case 'works':
    case 'cranks':
    case 'runs':
      return { mark: 'full', word: verdict, tone: 'plain' };
    case 'weak':
      return { mark: 'half', word: 'weak', tone: 'weak' };
    case 'chatters':
      return { mark: 'half', word: 'chatters', tone: 'bad' };
    case 'still':
      return designed === 'still' ? { mark: 'dash', word: 'still', tone: 'off' } : { mark: 'struck', word: 'still', tone: 'bad' };
    case 'dead':
      return designed === 'dead' ? { mark: 'dash', word: 'off', tone: 'off' } : { mark: 'struck', word: 'dead', tone: 'bad' };
  }
}

/** Volts as a technician reads them: two decimals under 1 V, else one; microvolts are 0. */
export function voltsText(volts: number): string {
  const size = Math.abs(volts);
  if (size < 0.0005) return '0 V';
  if (size < 0.1) return `${trimmed((volts * 1000).toFixed(size < 0.01 ? 1 : 0))} mV`;
  return `${volts.toFixed(size < 1 ? 2 : 1)} V`;
}

/** Amperes with three figures and the prefix that a clamp or meter shows. */
export function amperesText(amperes: number): string {
  const size = Math.abs(amperes);
  if (size < 5e-8) return '0 A';
  if (size < 9.995e-4) return `${(amperes * 1e6).toPrecision(size < 9.95e-6 ? 2 : 3)} µA`;
  if (size < 0.9995) return `${plain(amperes * 1e3)} mA`;
  return `${plain(amperes)} A`;
}

const plain = (x: number) => (Math.abs(x) >= 100 ? x.toFixed(0) : x.toPrecision(3));
const trimmed = (text: string) => text.replace(/\.0$/, '');

/** Said above the table and in the live region: which loads differ, and where. `5 loads die at ON` or undefined when nothing differs. */
export function tableSentence(table: PositionTable): string | undefined {
  const changed = table.positions
    .map((p, k) => ({ name: p.name, rows: table.rows.filter((r) => r.id !== 'engine' && (r.cells[k]!.changed || r.cells[k]!.otherWay)) }))
    .filter((p) => p.rows.length > 0);
  const worst = changed.reduce<(typeof changed)[number] | undefined>(
    (a, b) => (a === undefined || b.rows.length > a.rows.length ? b : a),
    undefined,
  );
  if (!worst) return undefined;
  const k = table.positions.findIndex((p) => p.name === worst.name);
  const counts = new Map<string, number>();
  for (const r of worst.rows) counts.set(happens(r.cells[k]!), (counts.get(happens(r.cells[k]!)) ?? 0) + 1);
  const parts = [...counts].map(([what, count], i) => `${count} ${i === 0 ? (count === 1 ? 'load ' : 'loads ') : ''}${verb(what, count)}`);
  return `${parts.join(', ')} at ${worst.name}`;
}

function happens(cell: Cell): 'die' | 'live' | 'weak' | 'other' | 'chatter' {
  if (cell.otherWay) return 'other';
  if (cell.verdict === 'dead') return 'die';
  if (cell.verdict === 'weak') return 'weak';
  if (cell.verdict === 'chatters') return 'chatter';
  return 'live';
}
function verb(what: string, count: number): string {
  const one = count === 1;
  if (what === 'die') return one ? 'dies' : 'die';
  if (what === 'weak') return one ? 'is weak' : 'are weak';
  if (what === 'other') return one ? 'is fed another way' : 'are fed another way';
  if (what === 'chatter') return one ? 'chatters' : 'chatter';
  return one ? 'works and ought not' : 'work and ought not';
}
