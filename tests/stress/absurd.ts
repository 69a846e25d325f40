import type { Circuit } from '../../src/circuit/circuit.ts';
import type { Part } from '../../src/circuit/part.ts';
import type { Scene } from '../../src/circuit/scene.ts';
import type { Dice } from '../fuzz/dice.ts';
import * as pool from './partPool.ts';

/** A circuit that nobody would wire, and a scene in it. */
export type Absurd = { readonly sort: string; readonly circuit: Circuit; readonly scene: Scene };

type Joint = readonly [terminal: string, point: string];

/** Terminals of a part, each on a point: its own choice where `place` gives one. */
const joined = (part: Part, place: (terminal: string, k: number) => string): readonly Joint[] =>
  part.kind.terminals(part).map(({ name }, k) => [`${part.id}.${name}`, place(name, k)] as const);

function circuitOf(parts: readonly Part[], attached: readonly Joint[]): Circuit {
  const fastened = attached.map(([terminal, point]) => [terminal, point === '0' ? 'ground' : `at.${point}`] as const);
  return { title: 'absurd', ambient: 20, cautions: [], parts: new Map(parts.map((p) => [p.id, p])), attached: fastened };
}

/** So many points, of which the first is the body. */
const pointOf = (dice: Dice, points: number) => (): string => String(dice.roll(points));

function soup(dice: Dice, parts: readonly Part[], points: number): Circuit {
  return circuitOf(
    parts,
    parts.flatMap((part) => joined(part, pointOf(dice, points))),
  );
}

const several = (dice: Dice, many: number, from: readonly Part[], letter: string): readonly Part[] =>
  Array.from({ length: many }, (_, k) => pool.named(dice.pick(from), `${letter}${k}`));

/** A battery across two points, plus on the second. */
const battery = (part: Part, id: string, minus: string, plus: string): { readonly part: Part; readonly joints: readonly Joint[] } => {
  const own = pool.named(part, id);
  const [first, second] = own.kind.supply!(own)!;
  return { part: own, joints: joined(own, (t) => (t === first ? plus : t === second ? minus : minus)) };
};

/** Either way round across the points 0 and 1. */
const turnedBattery = (dice: Dice, id: string) => {
  const part = dice.pick([...pool.batteries, ...pool.supplies]);
  return dice.once(2) ? battery(part, id, '0', '1') : battery(part, id, '1', '0');
};

const sorts: Readonly<Record<string, (dice: Dice) => Circuit>> = {
  'any parts anyhow': (dice) =>
    soup(
      dice,
      [...several(dice, 3 + dice.roll(25), pool.everyKind, 'A'), ...several(dice, 1 + dice.roll(3), pool.supplies, 'G')],
      2 + dice.roll(14),
    ),
  'everything shorted': (dice) =>
    soup(
      dice,
      [...several(dice, 3 + dice.roll(15), pool.everyKind, 'A'), ...several(dice, 1 + dice.roll(3), pool.batteries, 'G')],
      1 + dice.roll(2),
    ),
  'batteries against each other': (dice) => {
    const many = Array.from({ length: 2 + dice.roll(5) }, (_, k) => turnedBattery(dice, `G${k}`));
    const loads = several(dice, 1 + dice.roll(4), [...pool.lamps, ...pool.resistors], 'E');
    return circuitOf(
      [...many.map((b) => b.part), ...loads],
      [...many.flatMap((b) => b.joints), ...loads.flatMap((l) => joined(l, (_, k) => String(k)))],
    );
  },
  'relays in a ring': (dice) => {
    const ring = 2 + dice.roll(12);
    const supply = battery(dice.pick(pool.batteries), 'G', '0', 'plus');
    const relays = several(dice, ring, pool.relays, 'K');
    const joints = relays.flatMap((relay, k) =>
      joined(relay, (t) => {
        if (t === '30') return 'plus';
        if (t === '85') return '0';
        if (t === '86') return `coil${k}`;
        // Its contacts feed the coil of the next one, some by both.
        return dice.once(8) ? 'plus' : `coil${(k + 1) % ring}`;
      }),
    );
    const spark = pool.named(dice.pick(pool.resistors.slice(2, 7)), 'R');
    return circuitOf(
      [supply.part, ...relays, spark],
      [...supply.joints, ...joints, ...joined(spark, (_, k) => (k === 0 ? 'plus' : 'coil0'))],
    );
  },
  'milliohms beside gigaohms': (dice) =>
    soup(
      dice,
      [
        ...several(dice, 5 + dice.roll(40), dice.once(2) ? pool.extremeResistors : pool.resistors, 'R'),
        ...several(dice, 1 + dice.roll(3), pool.supplies, 'G'),
        ...several(dice, dice.roll(3), [...pool.diodes, ...pool.lamps], 'D'),
      ],
      3 + dice.roll(20),
    ),
  islands: (dice) => {
    const many = dice.once(20) ? 3000 : 20 + dice.roll(60);
    const islands = several(
      dice,
      many,
      dice.once(2) ? pool.resistors : [...pool.resistors, ...pool.supplies, ...pool.lamps, ...pool.diodes],
      'R',
    );
    const supply = battery(dice.pick(pool.batteries), 'G', '0', 'plus');
    const load = pool.named(dice.pick(pool.lamps), 'E');
    return circuitOf(
      [supply.part, load, ...islands],
      [
        ...supply.joints,
        ...joined(load, (_, k) => (k === 0 ? 'plus' : '0')),
        ...islands.flatMap((r, n) => joined(r, (_, k) => `i${n - (n % 3)}.${k + (n % 3)}`)),
      ],
    );
  },
  'a chain of curves': (dice) => {
    const links = several(dice, 4 + dice.roll(30), [...pool.diodes, ...pool.lamps, ...pool.resistors.slice(0, 6)], 'D');
    const supply = battery(dice.pick([...pool.batteries, ...pool.supplies]), 'G', '0', 'c0');
    const way = links.flatMap((part, n) => {
      const turned = dice.once(6);
      return joined(part, (_, k) => {
        const at = n + ((k === 0) === turned ? 1 : 0);
        return at === links.length ? '0' : `c${at}`;
      });
    });
    return circuitOf([supply.part, ...links], [...supply.joints, ...way]);
  },
  'modules and relays': (dice) => {
    const busy = pool.everyKind.filter((p) => p.kind.settle !== undefined);
    return soup(
      dice,
      [...several(dice, 3 + dice.roll(12), busy, 'A'), ...several(dice, 1 + dice.roll(2), pool.batteries, 'G')],
      3 + dice.roll(6),
    );
  },
  'an exact supply anyhow': (dice) =>
    soup(
      dice,
      [pool.named(pool.exactSupply, 'G'), ...several(dice, 3 + dice.roll(12), [...pool.everyKind, ...pool.resistors], 'A')],
      2 + dice.roll(8),
    ),
};

export const sortNames = Object.keys(sorts);

export function absurd(dice: Dice): Absurd {
  const sort = dice.pick(sortNames);
  const circuit = sorts[sort]!(dice);
  const lock = [...circuit.parts.values()].find((p) => p.kind.key);
  const hand = Object.fromEntries(
    [...circuit.parts.values()].flatMap((p) => {
      const settings = p.kind.settings?.(p) ?? [];
      return settings.length > 0 && dice.once(2) ? [[p.id, dice.pick(settings)] as const] : [];
    }),
  );
  const key = lock ? { key: { angle: dice.roll(95), came: dice.pick(['up', 'back'] as const), in: true } } : {};
  return {
    sort,
    circuit,
    scene: { ...key, hand, engine: dice.pick(['stopped', 'cranking', 'running'] as const), apart: [], bridged: [], swapped: [] },
  };
}
