import { expect, test } from 'vitest';
import type { Circuit } from '../../src/circuit/circuit.ts';
import { handPhrases, readHand } from '../../src/circuit/handPhrase.ts';
import { keySwitchOf } from '../../src/circuit/keySwitchOf.ts';
import { restScene } from '../../src/circuit/scenePhrase.ts';
import { settingsOf } from '../../src/circuit/switchesOf.ts';
import { loadsAt } from '../../src/solve/loads.ts';
import { network } from '../../src/solve/network.ts';
import { operatingPoint } from '../../src/solve/operatingPoint.ts';
import { bench, library, libraryNames, sound } from './phraseCircuit.ts';

/** Verdicts of one load at every detent with these settings. */
function verdicts(circuit: Circuit, id: string, hand: Readonly<Record<string, string>>): readonly string[] {
  const net = network(circuit);
  return keySwitchOf(circuit)!.model.positions.map(({ angle }) => {
    const scene = { ...restScene(circuit), key: { angle, came: 'up' as const, in: true }, hand };
    return loadsAt(operatingPoint(net, scene)).find((l) => l.id === id)!.verdict;
  });
}

test.each(['light-van', 'saloon', 'tractor', 'truck', 'classic-six-volt'])(
  '%s: a load works where its own switch is on, and nowhere without',
  (name) => {
    const circuit = library(name);
    let switched = 0;
    for (const part of circuit.parts.values()) {
      const on = part.isLoad ? settingsOf(circuit, part, 'on') : undefined;
      if (!on || !('all' in on)) continue;
      switched++;
      const hand = Object.fromEntries(on.all.map((s) => [s.part, s.setting]));
      expect(verdicts(circuit, part.id, hand), part.id).toContain('works');
      expect(verdicts(circuit, part.id, {}), part.id).not.toContain('works');
    }
    expect(switched).toBeGreaterThan(3);
  },
);

test.each([
  ['H4', 'on', { all: [{ part: 'S4', setting: 'on' }] }], // through the coil of K1
  ['H4', 'off', { all: [{ part: 'S4', setting: 'off' }] }],
  ['M3', 'on', { all: [{ part: 'S3', setting: '1' }] }],
  ['M3', '2', { all: [{ part: 'S3', setting: '2' }] }],
  [
    'E8',
    'on',
    {
      oneOf: [
        { part: 'S14', setting: 'open' },
        { part: 'S15', setting: 'open' },
      ],
    },
  ],
  ['E2', 'on', undefined], // neutral at rest: nothing to set
  ['E2', 'off', { all: [{ part: 'S9', setting: 'in gear' }] }],
  ['T1', 'on', undefined],
])('bench: %s switch %s', (id, word, meant) => {
  expect(settingsOf(bench, bench.parts.get(id)!, word)).toEqual(meant);
});

test.each(libraryNames)('%s: every hand phrase offered can be read', (name) => {
  const circuit = library(name);
  const phrases = handPhrases(circuit);
  expect(phrases.length).toBeGreaterThan(10);
  for (const phrase of phrases) sound(readHand(phrase, circuit, '--with'));
});
