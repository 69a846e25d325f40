import { wordsJoined } from '../circuit/wordsJoined.ts';
import { type Cell, engineRow, type PositionTable, type Row } from '../solve/positionTable.ts';

/**
 * What the driver would notice, in sentences: first the engine, then the loads that change, those that change alike
 * in one sentence. Empty when nothing changes.
 */
export function noticed(table: PositionTable): readonly string[] {
  const engine = table.rows.find((r) => r.id === engineRow);
  const loads = table.rows.filter((r) => r.id !== engineRow);
  return [...(engine ? engineWords(engine) : []), ...changedAlike(loads), ...otherWays(loads)];
}

function engineWords(row: Row): readonly string[] {
  const changed = row.cells.filter((c) => c.changed);
  if (changed.length === 0) return [];
  const lost = changed.filter((c) => c.verdict === 'still' && c.healthy.verdict === 'runs' && !c.sometimes);
  const silent = changed.filter((c) => c.verdict !== 'cranks' && c.healthy.verdict === 'cranks' && !c.sometimes);
  const kept = changed.filter((c) => c.verdict === 'runs' && c.healthy.verdict === 'still');
  const turns = changed.filter((c) => c.verdict === 'cranks' && c.healthy.verdict !== 'cranks');
  const lucky = changed.filter((c) => c.sometimes);
  const still = row.cells.filter((c) => c.verdict === 'runs').map((c) => c.position);
  const said: string[] = [];
  if (lost.length > 0) said.push(`The engine dies ${places(lost)}${still.length > 0 ? `; it runs ${inPlaces(still)}` : ''}.`);
  if (silent.length > 0) said.push(`The starter does not turn ${places(silent)}.`);
  if (kept.length > 0) said.push(`The engine runs on ${places(kept)}.`);
  if (turns.length > 0) said.push(`The starter turns ${places(turns)}.`);
  for (const c of lucky) {
    const share = Math.round(100 * c.sometimes!.share);
    const [less, usual] = [engineSays(c.sometimes!.verdict), engineSays(c.verdict)];
    said.push(`In ${c.position} the engine ${usual}, but ${share} times in 100 it ${less}.`);
  }
  return said;
}

const engineSays = (verdict: string): string => (verdict === 'still' ? 'does not turn' : verdict === 'cranks' ? 'is cranked' : verdict);

function changedAlike(rows: readonly Row[]): readonly string[] {
  const groups = new Map<string, { rows: Row[]; cells: readonly Cell[] }>();
  for (const row of rows) {
    const cells = row.cells.filter((c) => c.changed);
    if (cells.length === 0) continue;
    const key = cells.map((c) => `${c.position} ${c.verdict} ${c.sometimes?.verdict ?? ''} ${c.healthy.verdict}`).join('|');
    const group = groups.get(key);
    if (group) group.rows.push(row);
    else groups.set(key, { rows: [row], cells });
  }
  return [...groups.values()].map(({ rows: alike, cells }) => {
    const names = wordsJoined(alike.map((r) => r.name));
    const what = new Map<string, Cell[]>();
    for (const c of cells) what.set(words(c), [...(what.get(words(c)) ?? []), c]);
    return `${names}: ${[...what].map(([text, here]) => `${text} ${places(here)}`).join('; ')}.`;
  });
}

function words(c: Cell): string {
  if (c.sometimes) return `${c.verdict}, but ${Math.round(100 * c.sometimes.share)} times in 100 ${c.sometimes.verdict}`;
  if (c.healthy.verdict === 'dead') return c.verdict === 'works' ? 'live' : `${c.verdict}, where it should be off`;
  return c.verdict;
}

function otherWays(rows: readonly Row[]): readonly string[] {
  const odd = rows.flatMap((r) => {
    const cells = r.cells.filter((c) => c.otherWay);
    return cells.length > 0 ? [`${r.name} (${wordsJoined(cells.map((c) => c.position))})`] : [];
  });
  return odd.length > 0 ? [`Fed by another way than in the healthy circuit: ${wordsJoined(odd)}.`] : [];
}

/** `in ON and START`; a stretch needs no `in`: `between ON and START`. */
const inPlaces = (names: readonly string[]): string => wordsJoined(names.map((n) => (n.startsWith('between') ? n : `in ${n}`)));
const places = (cells: readonly Cell[]): string => inPlaces(cells.map((c) => c.position));
