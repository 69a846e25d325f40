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
  const all = row.cells.map((c) => c.position);
  const places = (cells: readonly Cell[]): string => inPlaces(positions(cells), all);
  const said: string[] = [];
  if (lost.length > 0) said.push(`The engine dies ${places(lost)}${still.length > 0 ? `; it runs ${inPlaces(still, all)}` : ''}.`);
  if (silent.length > 0) said.push(`The starter does not turn ${places(silent)}.`);
  if (kept.length > 0) said.push(`The engine runs on ${places(kept)}.`);
  if (turns.length > 0) said.push(`The starter turns ${places(turns)}.`);
  return [...said, ...lucky.map((c) => atTimes(c, all))];
}

/** What comes and goes. Where the key should crank, spark and fuel that are there are not noticed: the starter is what is missed. */
function atTimes({ position, verdict, sometimes, healthy }: Cell, all: readonly string[]): string {
  const where = inPlaces([position], all);
  const [head, share] = [`${where.charAt(0).toUpperCase()}${where.slice(1)}`, Math.round(100 * sometimes!.share)];
  const both = [verdict, sometimes!.verdict];
  if (both.includes('cranks')) {
    const [usual, other] = verdict === 'cranks' ? ['turns', 'does not'] : ['does not turn', 'does'];
    return `${head} the starter ${usual}, but ${share} times in 100 it ${other}.`;
  }
  if (healthy.verdict === 'cranks') return `${head} the starter does not turn.`;
  const says = (v: string) => (v !== 'still' ? v : healthy.verdict === 'runs' ? 'dies' : 'is still');
  return `${head} the engine ${says(verdict)}, but ${share} times in 100 it ${says(sometimes!.verdict)}.`;
}

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
    const all = positions(alike[0]!.cells);
    return `${names}: ${[...what].map(([text, here]) => `${text} ${inPlaces(positions(here), all)}`).join('; ')}.`;
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

/** `in ON and START`; a stretch needs no `in`: `between ON and START`. @param all  every position of the table */
const inPlaces = (names: readonly string[], all: readonly string[]): string =>
  wordsJoined(undivided(names, all).map((n) => (n.startsWith('between') ? n : `in ${n}`)));
const positions = (cells: readonly Cell[]): readonly string[] => cells.map((c) => c.position);

/** `between ON and START 1` and `2` are `between ON and START` where that is all of it. */
function undivided(names: readonly string[], all: readonly string[]): readonly string[] {
  const stretchOf = (name: string): string | undefined => /^(between .+) \d+$/.exec(name)?.[1];
  const isWhole = (stretch: string): boolean => all.every((n) => stretchOf(n) !== stretch || names.includes(n));
  const said = names.map((name) => {
    const stretch = stretchOf(name);
    return stretch !== undefined && isWhole(stretch) ? stretch : name;
  });
  return [...new Set(said)];
}
