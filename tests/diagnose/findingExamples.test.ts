import { expect, test } from 'vitest';
import { examplesOf } from '../../src/diagnose/findingExamples.ts';
import { readFinding } from '../../src/diagnose/findingPhrase.ts';
import { bench, inWords, keyless, library, libraryNames } from '../circuit/phraseCircuit.ts';

test.each(libraryNames)('%s: what a message shows as an example is read', (name) => {
  const circuit = library(name);
  const { load, volts, between, amperes, exchanged, touched } = examplesOf(circuit);
  for (const phrase of [`ON: ${load}`, `ON: ${volts}`, `ON: ${between}`, `key out: ${amperes}`, `${exchanged}: no change`, touched])
    if (phrase.startsWith('ON') || phrase.startsWith('key')) {
      const read = readFinding(phrase, circuit);
      expect(read.ok, read.problems.map(inWords).join()).toBe(true);
    } else expect(circuit.parts.has(phrase.split(/[ :]/)[1]!), phrase).toBe(true);
});

test('the key switch is what is read, exchanged and read on the bench; the supply is where amperes are', () => {
  expect(examplesOf(bench)).toEqual({
    load: 'H4 works',
    volts: '0.4 V at S1.75',
    between: '11.8 V from S1.30 to S1.75',
    amperes: '320 mA at G1.-',
    bench: 'S1.30 to S1.75 at ACC',
    exchanged: 'replaced S1',
    touched: 'wiggled X2',
  });
});

test('without a key switch it is the first part with two terminals that is no supply', () => {
  expect(examplesOf(keyless)).toEqual({
    load: 'H1 works',
    volts: '0.4 V at S1.2',
    between: '11.8 V from S1.1 to S1.2',
    amperes: '320 mA at G1.-',
    bench: 'S1.1 to S1.2',
    exchanged: 'replaced S1',
    touched: 'wiggled H1',
  });
});
