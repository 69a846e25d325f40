import { afterAll, expect, test, vi } from 'vitest';
import type { PractiseCalls } from '../../web/practise/practiseCalls.ts';

const told: { readonly id: number; readonly ok: boolean; readonly part?: boolean; readonly gives: unknown }[] = [];
const self = { onmessage: (_e: { readonly data: unknown }) => {}, postMessage: (a: (typeof told)[number]) => told.push(a) };
vi.stubGlobal('self', self);
afterAll(() => {
  vi.unstubAllGlobals();
});
await import('../../web/practise/practiseWorker.ts');

let id = 0;
function ask<N extends keyof PractiseCalls>(name: N, takes: PractiseCalls[N]['takes']): unknown {
  self.onmessage({ data: { id: ++id, name, takes } });
  return told.filter((t) => t.id === id && t.part !== true).at(-1)!.gives;
}

/** The same length whatever the lamp is; a switch that can fail only in its own contact. */
const board = (watts: '10' | '21', battery = '12') => `
title: Board of ${battery} V
parts:
  G1: { kind: battery, capacity: 7 Ah, cold-cranking: 80 A, resistance: 0.03 Ω }
  S1:
    kind: key-switch
    positions: { OFF: { at: 0°, key-out: yes }, ON: { at: 60° } }
    contacts: { 30-15: [45..100°] }
  E1: { kind: lamp, power: ${watts} W, name: Lamp }
wires:
  - { id: W1, from: G1.+, to: S1.30, area: 1.5 mm², length: 0.4 m }
  - { id: W2, from: S1.15, to: E1.1, area: 1.5 mm², length: 0.4 m }
  - { id: W3, from: E1.2, to: G1.-, area: 1.5 mm², length: 0.4 m }
`;

test('an edit of the same length is another vehicle, for the exercise and for the bench that is held', () => {
  const which = { from: 'seed', level: 3, seed: 1 } as const;
  const actions = [
    { do: 'turn', angle: 60 },
    { do: 'bench', part: 'E1', at: 'E1.1', to: 'E1.2' },
  ] as const;
  const read = (watts: '10' | '21') => {
    const about = { text: board(watts), name: 'board.yaml', which };
    expect(ask('begin', about)).toMatchObject({ ok: true });
    const { steps } = ask('bench', { ...about, actions }) as { steps: readonly { readonly figure: string }[] };
    return steps.at(-1)!.figure;
  };
  expect(board('10').length).toBe(board('21').length);
  const [small, large] = [read('10'), read('21')];
  // The filament of the larger lamp has the smaller resistance: R = U² / P.
  expect(Number.parseFloat(small)).toBeGreaterThan(Number.parseFloat(large));
  expect(read('10')).toBe(small);
});
