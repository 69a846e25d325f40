import type { Circuit } from '../circuit/circuit.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import type { Part } from '../circuit/part.ts';
import { restScene } from '../circuit/scenePhrase.ts';
import { keyOff } from '../drain/keyOff.ts';
import { clashes } from '../faults/clashes.ts';
import { changesOf, type Fault, faultOf, worldsOf } from '../faults/fault.ts';
import { faultModes, type PartFault } from '../faults/faultModes.ts';
import { testLamp, voltmeter } from '../solve/instruments.ts';
import { loadsOf } from '../solve/loads.ts';
import { type PositionTable, positionTable } from '../solve/positionTable.ts';
import { tableNeeds } from '../solve/tableNeeds.ts';
import type { Chance } from './chance.ts';
import { type LevelNumber, levels } from './level.ts';

/** More key-off current than the healthy vehicle by this much is a drain, A. Source: 30 mA is the usual allowance (common practice). */
const drain_A = 0.03;
/** Resistance that passes a meter's current but no load's, Ω: a pin hanging by its salts (estimate). */
const ghost_ohm = 20_000;
/** Faults looked at for one level before a circuit is said not to hold it. */
export const mostTried = 60;

/**
 * Faults that a level may hide, in seeded order: those whose nature fits, each still to be held against the table.
 * What a part is, is asked of its members only: turned by a key, set by hand, a load, a supply.
 */
export function* hiddenFaults(circuit: Circuit, level: LevelNumber, chance: Chance): Generator<readonly Fault[]> {
  const fits = natures[level];
  if (level === 11) {
    const pool = chance.shuffled(faultModes(circuit).filter((f) => [3, 4, 5].some((n) => natures[n]!(f, partOf(circuit, f)))));
    yield* pairsApart(
      circuit,
      pool.map((f) => made(f, 5, chance)),
    );
    return;
  }
  if (!fits) return;
  for (const f of chance.shuffled(faultModes(circuit).filter((x) => fits(x, partOf(circuit, x))))) yield [made(f, level, chance)];
}

/** Faults two and two, each of which would be noticed by itself in another row of the table than the other: what one does does not hide the other. */
function* pairsApart(circuit: Circuit, faults: readonly Fault[]): Generator<readonly Fault[]> {
  const alone: { readonly fault: Fault; readonly rows: ReadonlySet<string> }[] = [];
  for (const fault of faults) {
    const rows = new Set(tableWith(circuit, [fault]).rows.flatMap((r) => (r.cells.some((c) => c.changed) ? [r.id] : [])));
    if (rows.size === 0) continue;
    const k = alone.findIndex(
      (a) => a.fault.part !== fault.part && [...rows].every((row) => !a.rows.has(row)) && clashes([a.fault, fault]).length === 0,
    );
    if (k < 0) alone.push({ fault, rows });
    else yield [alone.splice(k, 1)[0]!.fault, fault];
  }
}

/**
 * Levels that a circuit has any fault for, by nature alone: without a key switch there is no lost motion. Whether one of them
 * can also be noticed and proved is found when an exercise is made.
 */
export function levelsOf(circuit: Circuit): readonly LevelNumber[] {
  const modes = faultModes(circuit);
  const has = (n: number) => modes.some((f) => natures[n]?.(f, partOf(circuit, f)));
  return levels.map((l) => l.number).filter((n) => (n < 3 ? keySwitchOf(circuit) !== undefined : n === 11 ? [3, 4, 5].some(has) : has(n)));
}

const partOf = (circuit: Circuit, { part }: PartFault): Part => circuit.parts.get(part)!;

function made({ part, mode }: PartFault, level: LevelNumber, chance: Chance): Fault {
  if (level === 6) return faultOf(part, mode, ghost_ohm);
  const grades = mode.detail?.grades ?? [];
  return faultOf(part, mode, grades.length === 0 ? undefined : chance.oneOf(grades));
}

type Nature = (fault: PartFault, part: Part) => boolean;

const changesWith = ({ mode }: PartFault) => mode.changes(mode.detail?.default ?? 0);
const opens: Nature = (f) =>
  !f.mode.sometimes && changesWith(f).some((c) => (c.do === 'series' && c.ohm === Number.POSITIVE_INFINITY) || deadSector(c));
const deadSector = (c: ReturnType<typeof changesWith>[number]) =>
  c.do === 'params' && Object.keys(c.patch).some((k) => k.startsWith('dead '));
const resists: Nature = (f) => f.mode.words === '' && f.mode.detail?.dimension === 'resistance';
/** What burns open by itself has a state too, yet it switches nothing: fuses, links and breakers belong to the feed. */
const switches = (part: Part): boolean =>
  part.kind.key !== undefined ||
  (part.kind.settings?.(part).length ?? 0) > 1 ||
  (part.kind.varies?.includes('state') === true && part.kind.opensIn === undefined);
const passesOn = (part: Part) => !part.isLoad && part.kind.supply?.(part) === undefined;
const turnsWrong: Nature = (f, part) => part.kind.key !== undefined && f.mode.detail?.dimension === 'angle';
const staysLive: Nature = (f) =>
  !f.mode.sometimes && changesWith(f).some((c) => c.do === 'fix' || c.do === 'bridge' || c.do === 'draw' || c.do === 'params');
const joinsOther: Nature = (f, part) =>
  !f.mode.sometimes &&
  changesWith(f).some(
    (c) => c.do === 'attach' || c.do === 'bridge' || (c.do === 'series' && c.ohm === Number.POSITIVE_INFINITY && passesOn(part)),
  );

const natures: Readonly<Partial<Record<number, Nature>>> = {
  2: (f, part) => opens(f, part) || resists(f, part),
  3: (f, part) => passesOn(part) && switches(part) && opens(f, part),
  4: (f, part) => passesOn(part) && !switches(part) && opens(f, part),
  5: (f, part) => passesOn(part) && resists(f, part),
  6: (f, part) => passesOn(part) && !switches(part) && resists(f, part),
  7: turnsWrong,
  8: (f, part) => part.kind.supply?.(part) === undefined && staysLive(f, part),
  9: joinsOther,
  10: (f, part) => passesOn(part) && f.mode.sometimes === true,
};

/** The table with a set of faults in it; detents, and the way back from a sprung one. */
export const tableWith = (circuit: Circuit, faults: readonly Fault[]): PositionTable => positionTable(circuit, worldsOf(faults));

/** Whether the set does what its level is about, by the solver: a fault that nobody could notice teaches nothing. */
export function suits(circuit: Circuit, level: LevelNumber, faults: readonly Fault[], table: PositionTable): boolean {
  const cells = table.rows.flatMap((r) => r.cells);
  const changed = cells.filter((c) => c.changed);
  const lost = table.rows.filter((r) => r.cells.some((c) => c.changed && c.healthy.verdict !== 'dead' && c.verdict !== c.healthy.verdict));
  switch (level) {
    case 4:
      return lost.length >= 2;
    case 6:
      return showsGhost(circuit, faults, table);
    case 8:
      return keyOff(circuit, changesOf(faults)).amperes > keyOff(circuit).amperes + drain_A && batteryHolds(circuit, faults);
    case 9:
      return cells.some((c) => c.otherWay && c.changed);
    case 10:
      return cells.some((c) => c.sometimes);
    case 11:
      return faults.every((f) => differs(tableWith(circuit, [f]), table)) && changed.length > 0;
    default:
      return changed.length > 0;
  }
}

const differs = (a: PositionTable, b: PositionTable): boolean => {
  const verdicts = (t: PositionTable) => t.rows.flatMap((r) => r.cells.map((c) => c.verdict)).join();
  return verdicts(a) !== verdicts(b);
};

/** A dead short empties the battery at once; that is no drain. */
const batteryHolds = (circuit: Circuit, faults: readonly Fault[]) => keyOff(circuit, changesOf(faults)).amperes < 15;

/**
 * A point on the way of a dead load where, with the load unplugged, a meter still shows most of the supply and a test
 * lamp stays dark: the very definition of volts that cannot be believed.
 */
function showsGhost(circuit: Circuit, faults: readonly Fault[], table: PositionTable): boolean {
  const changes = changesOf(faults);
  const needs = tableNeeds(circuit);
  for (const load of loadsOf(circuit.parts.values())) {
    const row = table.rows.find((r) => r.id === load.id);
    const k = row?.cells.findIndex((c) => c.verdict === 'dead' && c.healthy.verdict === 'works') ?? -1;
    const ends = load.kind.loadEnds?.(load);
    if (k < 0 || !ends) continue;
    const scene = {
      ...restScene(circuit),
      ...(keySwitchOf(circuit) && { key: table.positions[k]!.key }),
      hand: needs.get(load.id) ?? {},
      apart: [load.id],
    };
    const sound = { circuit, changes: [], scene };
    const bench = { circuit, changes, scene };
    for (const end of ends) {
      const at = `${load.id}.${end}`;
      const [full, seen] = [voltmeter(sound, at, 'ground'), voltmeter(bench, at, 'ground')];
      if (full.shows !== 'volts' || seen.shows !== 'volts' || Math.abs(full.volts) < 4) continue;
      const lamp = testLamp(bench, at, 'ground');
      if (Math.abs(seen.volts) > 0.6 * Math.abs(full.volts) && lamp.shows === 'lamp' && lamp.brightness === 'dark') return true;
    }
  }
  return false;
}
