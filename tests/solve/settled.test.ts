import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import type { Part } from '../../src/circuit/part.ts';
import { network } from '../../src/solve/network.ts';
import { operatingPoint } from '../../src/solve/operatingPoint.ts';
import { madeCircuit, madePart, ohms, quiet, source } from './exact/madeCircuit.ts';

// Hundreds of random circuits: seconds on a busy machine, and no measure of speed.
vi.setConfig({ testTimeout: 120_000 });

/** A coil of 85 Ω between 1 and 2 that pulls in at 7 V and drops out at 3 V, with a contact between `c` and `d`. */
function relay(id: string, contact: 'make' | 'break'): Part {
  return madePart(
    id,
    (_, { state }) => [
      { id: 'coil', from: '1', to: '2', ohm: 85 },
      { id: 'contact', from: 'c', to: 'd', ohm: (state['pulled'] === true) === (contact === 'make') ? 0.005 : Number.POSITIVE_INFINITY },
    ],
    {
      varies: ['state'],
      initial: () => ({ pulled: false }),
      settle: (_, { state }, read) => {
        const volts = Math.abs(read.across('1', '2'));
        const pulled = volts >= 7 || (volts > 3 && state['pulled'] === true);
        return pulled === state['pulled'] ? state : { pulled };
      },
    },
  );
}

/** Blows above 10 A; `seconds` says how soon. */
function fuse(id: string, seconds: number): Part {
  return madePart(id, (_, { state }) => [{ id: '', from: '1', to: '2', ohm: state['blown'] === true ? Number.POSITIVE_INFINITY : 0.01 }], {
    varies: ['state'],
    initial: () => ({ blown: false }),
    settle: (_, { state }, read) => (Math.abs(read.amperes('')) > 10 ? { blown: true } : state),
    opensIn: (_, { state }, read) => (state['blown'] !== true && Math.abs(read.amperes('')) > 10 ? seconds : Number.POSITIVE_INFINITY),
  });
}

const battery = [source('G', 12.6, 0.01), 'p', '0'] as const;
/** A relay whose own break contact feeds its coil. */
const buzzer = (id: string) => ({
  part: [relay(id, 'break'), `${id}in`, '0'] as const,
  contact: [
    [`${id}.c`, 'p'],
    [`${id}.d`, `${id}in`],
  ] as const,
});
const solve = (circuit: Parameters<typeof network>[0]) => operatingPoint(network(circuit), quiet);
const isPulled = (at: ReturnType<typeof solve>, id: string) => at.states.get(id)!['pulled'];

describe('a relay that interrupts its own coil', () => {
  const one = buzzer('K1');

  test('is reported, with a state on either side of its swing', () => {
    const at = solve(madeCircuit([battery, one.part], one.contact));
    expect(at.chatters).toEqual(['K1']);
    expect(at.alternate!.get('K1')!['pulled']).toBe(!isPulled(at, 'K1'));
    expect(at.residual).toBeLessThanOrEqual(1e-9);
  });

  test('does not hold up the rest of the circuit, wherever it stands in the file', () => {
    const rest = [[relay('K2', 'make'), 'p', '0'] as const, [relay('K3', 'make'), 'k3', '0'] as const];
    const contacts = [...one.contact, ['K2.c', 'p'], ['K2.d', 'k3']] as const;
    for (const parts of [
      [battery, one.part, ...rest],
      [battery, ...rest, one.part],
    ]) {
      const at = solve(madeCircuit(parts, contacts));
      expect(at.chatters).toEqual(['K1']);
      expect([isPulled(at, 'K2'), isPulled(at, 'K3')]).toEqual([true, true]);
    }
  });

  test('does not keep a fuse from blowing', () => {
    const at = solve(madeCircuit([battery, one.part, [fuse('F1', 1), 'p', 's'], [ohms('R1', 0.1), 's', '0']], one.contact));
    expect(at.chatters).toEqual(['K1']);
    expect(at.states.get('F1')).toEqual({ blown: true });
  });

  test('takes with it what it feeds, and only that', () => {
    const at = solve(madeCircuit([battery, one.part, [relay('K2', 'make'), 'K1in', '0'], [relay('K3', 'make'), 'p', '0']], one.contact));
    expect(at.chatters).toEqual(['K1', 'K2']);
  });
});

describe('relays that feed each other', () => {
  /** Each relay's contact feeds the next one's coil; the last feeds the first. */
  const ring = (many: number, contact: 'make' | 'break') =>
    madeCircuit(
      [battery, ...Array.from({ length: many }, (_, k) => [relay(`K${k}`, contact), `in${k}`, '0'] as const)],
      Array.from(
        { length: many },
        (_, k) =>
          [
            [`K${k}.c`, 'p'],
            [`K${k}.d`, `in${(k + 1) % many}`],
          ] as const,
      ).flat(),
    );

  test('a ring of 10 break contacts comes to rest with every second relay pulled in', () => {
    const at = solve(ring(10, 'break'));
    expect(at.chatters).toEqual([]);
    const pulled = Array.from({ length: 10 }, (_, k) => isPulled(at, `K${k}`));
    expect(pulled.filter(Boolean)).toHaveLength(5);
    expect(pulled.every((is, k) => is !== pulled[(k + 1) % 10])).toBe(true);
  });

  test('a ring of 9 break contacts never can: all nine chatter', () => {
    expect(solve(ring(9, 'break')).chatters).toEqual(Array.from({ length: 9 }, (_, k) => `K${k}`));
  });

  test('a ring of make contacts stays as it began', () => {
    const at = solve(ring(10, 'make'));
    expect([at.chatters, isPulled(at, 'K0')]).toEqual([[], false]);
    const held = operatingPoint(at.network, quiet, new Map(Array.from({ length: 10 }, (_, k) => [`K${k}`, { pulled: true }])));
    expect([held.chatters, isPulled(held, 'K9')]).toEqual([[], true]);
  });

  test('a chain of 100 relays pulls in to its end', () => {
    const many = 100;
    const chain = madeCircuit(
      [battery, ...Array.from({ length: many }, (_, k) => [relay(`K${k}`, 'make'), k === 0 ? 'p' : `in${k}`, '0'] as const)],
      Array.from(
        { length: many },
        (_, k) =>
          [
            [`K${k}.c`, 'p'],
            [`K${k}.d`, `in${k + 1}`],
          ] as const,
      ).flat(),
    );
    expect([solve(chain).chatters, isPulled(solve(chain), 'K99')]).toEqual([[], true]);
  });

  test('[P4] whatever the wiring: it ends, and where nothing chatters every part wants to stay', () => {
    const contact = fc.constantFrom('make' as const, 'break' as const);
    fc.assert(
      fc.property(fc.array(fc.tuple(contact, fc.nat(11), fc.nat(11), fc.boolean()), { minLength: 1, maxLength: 12 }), (wiring) => {
        const point = (k: number) => (k === 0 ? 'p' : `n${k}`);
        const circuit = madeCircuit(
          [battery, ...wiring.map(([kind, coil], k) => [relay(`K${k}`, kind), point(coil), '0'] as const)],
          wiring.flatMap(
            ([, , to, live], k) =>
              [
                [`K${k}.c`, live ? 'p' : point((k * 5) % 12)],
                [`K${k}.d`, point(to)],
              ] as const,
          ),
        );
        const at = solve(circuit);
        expect(at.residual).toBeLessThanOrEqual(1e-9);
        const again = operatingPoint(at.network, quiet, at.states);
        if (at.chatters.length === 0) expect(again.states).toEqual(at.states);
        else expect(at.chatters.some((id) => at.alternate!.get(id)!['pulled'] !== isPulled(at, id))).toBe(true);
      }),
      { seed: 20261125, numRuns: 1000 },
    );
  });
});

describe('fuses', () => {
  test('of two in a row the one that opens sooner goes, and saves the other', () => {
    const at = solve(madeCircuit([battery, [fuse('F1', 5), 'p', 'a'], [fuse('F2', 0.2), 'a', 'b'], [ohms('R1', 0.1), 'b', '0']]));
    expect([at.states.get('F1'), at.states.get('F2')]).toEqual([{ blown: false }, { blown: true }]);
  });

  test('wait for the relays: one that opens the circuit first keeps them whole', () => {
    const at = solve(
      madeCircuit(
        [battery, [relay('K1', 'break'), 'p', '0'], [fuse('F1', 0.2), 'p', 'a'], [ohms('R1', 0.1), 'b', '0']],
        [
          ['K1.c', 'a'],
          ['K1.d', 'b'],
        ],
      ),
    );
    expect([at.states.get('F1'), at.chatters]).toEqual([{ blown: false }, []]);
  });
});
