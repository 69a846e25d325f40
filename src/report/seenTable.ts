import type { Circuit } from '../circuit/circuit.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import type { KeyPlace, Scene } from '../circuit/scene.ts';
import { restScene, sceneText } from '../circuit/scenePhrase.ts';
import { readFinding } from '../diagnose/findingPhrase.ts';
import { engineRow, positionTable, type Row } from '../solve/positionTable.ts';

/** A place of the key that is asked about; `came: 'back'` is the one a spring returns to. */
export type SeenPlace = { readonly name: string; readonly angle: number; readonly key: KeyPlace | undefined };

/** One question: does this load work here? The finding is `head` and a seen word: `ON, S5 on: M2` and `works`. */
export type SeenCell = {
  readonly head: string;
  /** As designed it has no power here, so that not working tells little. */
  readonly isOff: boolean;
};
export type SeenRow = {
  readonly id: string;
  readonly name: string;
  readonly words: readonly string[];
  readonly cells: readonly SeenCell[];
};

/** The position table as a sheet to fill in: what was seen of every load, in every place of the key. */
export type SeenTable = { readonly places: readonly SeenPlace[]; readonly rows: readonly SeenRow[] };

const loadWords = ['works', 'dead', 'weak', 'comes and goes'] as const;
const engineWords = ['fires', 'cranks', 'cranks slowly', 'runs', 'dies', 'still'] as const;

/**
 * Every load against every key position, the stretches between them, and the position that a spring returns to, each
 * with the beginning of the finding that a word completes. A load that needs a switch has that switch in its scene.
 *
 * Cost: one position table of the healthy circuit.
 */
export function seenTable(circuit: Circuit): SeenTable {
  const table = positionTable(circuit, [{ share: 1, changes: [] }], { between: true });
  const lock = table.positions.some((p) => p.detent) && restScene(circuit).key !== undefined;
  const places: SeenPlace[] = table.positions.map(({ name, angle, key }) => ({ name, angle, key: lock ? key : undefined }));
  for (const back of lock ? releasedPlaces(places, circuit) : []) places.push(back);
  const healthy = new Map(table.positions.map((p, k) => [p.name, k]));
  return {
    places,
    rows: engineFirst(table.rows).map((row) => ({
      id: row.id,
      name: row.id === engineRow ? 'Engine' : row.name,
      words: row.id === engineRow ? engineWords : loadWords,
      cells: places.map((place) => {
        const cell = row.cells[healthy.get(place.name.replace(/ after .*$/, '')) ?? -1];
        return { head: headOf(place, row, circuit), isOff: cell?.healthy.verdict === 'dead' };
      }),
    })),
  };
}

/** Positions that a spring returns to, reached from the sprung one. */
function releasedPlaces(places: readonly SeenPlace[], circuit: Circuit): readonly SeenPlace[] {
  const positions = keySwitchOf(circuit)?.model.positions ?? [];
  const homes = new Set(positions.flatMap((p) => p.springsTo ?? []));
  return positions.flatMap(({ name, angle }): readonly SeenPlace[] => {
    if (!homes.has(name) || places.some((p) => p.key?.came === 'back' && p.angle === angle)) return [];
    const key: KeyPlace = { angle, came: 'back', in: true };
    return [{ name: sceneText({ ...restScene(circuit), key }, circuit), angle, key }];
  });
}

const engineFirst = (rows: readonly Row[]): readonly Row[] => [
  ...rows.filter((r) => r.id === engineRow),
  ...rows.filter((r) => r.id !== engineRow),
];

/** The phrase up to the seen word, as a finding that was read says it back. */
function headOf(place: SeenPlace, row: Row, circuit: Circuit): string {
  const scene: Scene = { ...restScene(circuit), ...(place.key && { key: place.key }), hand: row.needs };
  const word = row.id === engineRow ? 'still' : 'works';
  const phrase = `${sceneText(scene, circuit)}: ${row.id} ${word}`;
  const read = readFinding(phrase, circuit);
  const said = read.ok ? (read.value[0]?.phrase ?? phrase) : phrase;
  return said.slice(0, -word.length - 1);
}
