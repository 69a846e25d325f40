import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readFinding } from '../../src/diagnose/findingPhrase.ts';
import { bench, inWords, keyless, library, sound } from '../circuit/phraseCircuit.ts';

const told = (text: string) => sound(readFinding(text, bench)).map((f) => f.phrase);

test.each([
  ['START: M3 works, T1 works', ['START, S3 at 1: M3 works', 'START: T1 works']],
  ['ON after START: T1 dead', ['ON after START: T1 dead']],
  ['between ON and START: T1 works', ['between ON and START: T1 works']],
  ['key out: M3 works', ['key out: M3 works']],
  ['ON: wiper comes and goes', ['ON, S3 at 1: M3 comes and goes']],
  ['ON: Work lamp weak', ['ON, S4 on: H4 weak']],
  ['ON: S1 hot', ['ON: S1 hot']],
  ['ON: H4 not tried', ['ON: H4 not tried']],
  ['on : t1 DEAD', ['ON: T1 dead']],
  ['ON, H4 switch on: H4 dead', ['ON, S4 on: H4 dead']],
  ['ON, pulled F3, left door open: E8 works', ['ON, S14 open, pulled F3: E8 works']],
  ['ON after START: engine dies', ['ON after START: engine dies']],
  ['START: engine cranks slowly', ['START: engine cranks slowly']],
  ['ON: 0.4 V at S1.15', ['ON: 0.4 V at S1.15']],
  ['ON: 400 mV at S1.15', ['ON: 0.4 V at S1.15']],
  ['ON: 11.8 V from S1.30 to S1.15', ['ON: 11.8 V from S1.30 to S1.15']],
  ['ON: 11.8 V between S1.30 and S1.15', ['ON: 11.8 V from S1.30 to S1.15']],
  ['ON: 12 V at S1.15 with test lamp', ['ON: 12 V at S1.15 with test lamp']],
  ['ON: 12 V at S1.15 with a meter', ['ON: 12 V at S1.15']],
  ['ON: -0.2 V at XE2', ['ON: -0.2 V at XE2.1']],
  ['key out: 320 mA at G1.-', ['key out: 320 mA at G1.-']],
  ['key out: 0.32 A at G1.- by clamp', ['key out: 320 mA at G1.- with clamp']],
  ['START: 180 A at G1.-', ['START: 180 A at G1.-']],
  ['off the vehicle: S1.30 to S1.15 at ON open', ['off the vehicle: S1.30 to S1.15 at ON open']],
  ['off the vehicle: S1.30 to S1.15 at ON 0.2 Ω', ['off the vehicle: S1.30 to S1.15 at ON 0.2 Ω']],
  ['off the vehicle: S1.30 to S1.15 at between ON and START closed', ['off the vehicle: S1.30 to S1.15 at between ON and START 0 Ω']],
  ['off the vehicle: S1.30 to S1.15 at 66° 3 Ω', ['off the vehicle: S1.30 to S1.15 at 66° 3 Ω']],
  ['off the vehicle: S3.30 to S3.b at 2 open', ['off the vehicle: S3.30 to S3.b at 2 open']],
  ['off the vehicle: R1.1 to R1.2 1.6 Ω', ['off the vehicle: R1.1 to R1.2 1.6 Ω']],
  ['replaced S1: no change', ['replaced S1: no change']],
  ['swapped S1: cured', ['swapped S1: cured']],
  ['swapped key switch: cured', ['swapped S1: cured']],
  ['wiggled X2: changes', ['wiggled X2: changes']],
  ['ON, wiggled X2: T1 comes and goes', ['ON, wiggled X2: changes']],
  ['heated K1: no change', ['heated K1: no change']],
  ['swapped S1: T1 dead, M3 works', ['LOCK, swapped S1: T1 dead', 'LOCK, swapped S1: M3 works']],
  ['ON, replaced S1: cured, T1 works', ['ON, replaced S1: cured', 'ON, swapped S1: T1 works']],
])('%s', (text, phrases) => {
  expect(told(text)).toEqual(phrases);
  for (const phrase of phrases) expect(told(phrase)).toEqual([phrase]);
});

test('a finding is the question that the solver answers, and what was seen', () => {
  const [volts] = sound(readFinding('ON, S4 on: 0.4 V at S1.15', bench));
  expect(volts).toEqual({
    scene: { key: { angle: 60, came: 'up', in: true }, hand: { S4: 'on' }, engine: 'stopped', apart: [], bridged: [], swapped: [] },
    observable: { of: 'volts', at: 'S1.15', to: 'ground', instrument: 'meter' },
    seen: { value: 0.4 },
    phrase: 'ON, S4 on: 0.4 V at S1.15',
  });
  const [drain, clamp] = sound(readFinding('key out: 320 mA at G1.-, 25 A at G1.-', bench));
  expect(drain?.observable).toEqual({ of: 'amperes', at: 'G1.-', instrument: 'ammeter' });
  expect(clamp?.observable).toEqual({ of: 'amperes', at: 'G1.-', instrument: 'clamp' });
  // On the bench the switch itself is turned: 75° is the middle of its stretch from 70° to 80°.
  const [off] = sound(readFinding('off the vehicle: S1.30 to S1.15 at between ON and START open', bench));
  expect(off?.observable).toEqual({ of: 'ohms', part: 'S1', at: 'S1.30', to: 'S1.15', angle: 75 });
  expect(off?.seen).toEqual({ value: Number.POSITIVE_INFINITY });
  const [swap] = sound(readFinding('swapped S1: cured', bench));
  expect([swap?.observable, swap?.seen, swap?.scene.swapped]).toEqual([
    { of: 'exchange', part: 'S1', how: 'swapped' },
    { outcome: 'cured' },
    [],
  ]);
});

// Column, what, and the mends, as a technician reads them.
test.each([
  ['T1 works', ['1: `T1 works` does not say in which scene it was seen | START: T1 works']],
  ['ON:', ['4: what was seen is missing | H4 works; 0.4 V at S1.75']],
  ['ON: T1 flickers', ['5: `T1 flickers` does not say what was seen | T1 works; T1 weak; T1 dead; T1 comes and goes']],
  ['ON: T9 dead', ['5: the circuit has no part `T9` | T1']],
  ['ON: S1 dead', ['5: S1 (Key switch) does not work or fail by itself | 0.4 V at S1.30; S1 hot']],
  [
    'RUN: T1 ded, M3 works',
    [
      '1: `RUN` is neither a key place nor a hand action | LOCK; ACC; ON; START',
      '6: `T1 ded` does not say what was seen | T1 works; T1 weak; T1 dead; T1 comes and goes',
    ],
  ],
  [
    'ON: engine stalls',
    [
      '5: `engine stalls` is not how an engine is seen | engine cranks; engine cranks slowly; engine fires; engine runs; engine dies; engine still',
    ],
  ],
  ['ON: 0.4 at S1.15', ['5: `0.4` has no unit | a voltage is written with its unit, like this: `12.6 V`']],
  ['ON: 0,4 V at S1.15', ['5: `0,4 V` has a comma, and a voltage is written with a decimal point | write `0.4 V`']],
  ['ON: 0.4 V at S1.99', ['14: S1 has no terminal `99` | S1.30; S1.75; S1.15; S1.50']],
  ['ON: 4 V', ['5: `4 V` does not say where it was read | 0.4 V at S1.75; 11.8 V from S1.30 to S1.75; 320 mA at G1.-']],
  ['ON: 5 Ω at S1.15', ['5: `5 Ω` was read with an ohmmeter | off the vehicle: S1.30 to S1.75 at ACC 5 Ω']],
  ['ON: -5 Ω from S1.30 to S1.15', ['5: `-5 Ω` was read with an ohmmeter | off the vehicle: S1.30 to S1.15 at ON 5 Ω']],
  ['ON: 12000 V at S1.15', ['5: 12000 V cannot be where the highest supply has 12.6 V | 12 V']],
  ['ON: -126 V from S1.30 to S1.15', ['5: -126 V cannot be where the highest supply has 12.6 V | -12.6 V']],
  ['ON: 4 A from S1.30 to S1.15', ['5: a current is read at one terminal, not between two | 4 A at S1.30']],
  ['ON: 4 V from S1.30 to S1.30', ['5: both leads were on S1.30 | 4 V at S1.30']],
  ['ON: 4 V at S1.30 with clamp', ['5: a clamp does not read volts | with meter; with test lamp']],
  [
    'ON: 4 V at S1.30 with finger',
    ['23: `finger` is no instrument that Detent knows | with meter; with test lamp; with clamp; with ammeter'],
  ],
  ['ON: cured', ['5: `cured` does not say what was exchanged or touched | replaced S1: cured; wiggled X2: cured']],
  ['wiggled X2: T1 dead', ['13: after `wiggled X2` it is said whether that changed anything | wiggled X2: changes; wiggled X2: no change']],
  ['wiggled X2, heated K1: changes', ['13: two parts were exchanged or touched in one finding | wiggled X2: changes; heated K1: changes']],
  [
    'off the vehicle: S1.30 to S1.15 0.2 Ω',
    ['18: `S1.30 to S1.15 0.2 Ω` does not say how S1 was turned | at LOCK; at ACC; at ON; at START'],
  ],
  [
    'off the vehicle: S1.30 to S1.15 at ON 5 V',
    ['39: `5 V` is a voltage, not a resistance | open; a resistance is written like this: `85 Ω`'],
  ],
  ['off the vehicle: S1.30 to F3.1 at ON open', ['18: S1.30 and F3.1 are not two terminals of one part | ']],
  ['off the vehicle: S3.30 to S3.b at 5 open', ['35: S3 has no setting `5` | at 0; at 1; at 2']],
  [
    'off the vehicle, ON: S1.30 to S1.15 at ON open',
    ['1: `off the vehicle` stands alone before the colon | off the vehicle: S1.30 to S1.75 at ACC open'],
  ],
])('`%s` is told to be wrong', (text, lines) => {
  const read = readFinding(text, bench);
  expect(read.ok).toBe(false);
  const found = read.problems.map(inWords);
  expect(found.map((line, k) => line.slice(0, lines[k]?.length))).toEqual(lines);
});

test('problems count in the file and line that the finding came from', () => {
  const [first] = readFinding('ON: T9 dead', bench, 'job.yaml', 12).problems;
  expect([first?.file, first?.line, first?.column]).toEqual(['job.yaml', 12, 5]);
});

test('a circuit without a key switch', () => {
  expect(sound(readFinding('S1 on: H1 dead', keyless)).map((f) => f.phrase)).toEqual(['S1 on: H1 dead']);
  expect(sound(readFinding('at rest: 12 V at S1.1', keyless)).map((f) => f.phrase)).toEqual(['at rest: 12 V at S1.1']);
});

const van = library('light-van');

test('every finding written from any reading of the van reads back as itself', () => {
  const terminals = [...van.parts.values()].flatMap((p) => p.kind.terminals(p).map((t) => `${p.id}.${t.name}`));
  const loads = [...van.parts.values()].filter((p) => p.kind.judge !== undefined).map((p) => p.id);
  const place = fc.constantFrom(...terminals);
  // Up to what the highest supply of the van lets stand.
  const figure = fc.integer({ min: 1, max: 56_799 }).map((n) => n / 1000);
  const seen = fc.oneof(
    fc.tuple(fc.constantFrom(...loads), fc.constantFrom('works', 'weak', 'dead', 'comes and goes', 'not tried')).map((w) => w.join(' ')),
    fc.tuple(figure, place).map(([v, t]) => `${v} V at ${t}`),
    fc.tuple(figure, place).map(([a, t]) => `${a} A at ${t}`),
    fc.tuple(figure, fc.uniqueArray(place, { minLength: 2, maxLength: 2 })).map(([v, [a, b]]) => `${v} V from ${a} to ${b}`),
  );
  const scene = fc.constantFrom(
    'LOCK',
    'ON',
    'START',
    'ON after START',
    'between ON and START',
    'key out',
    'ON, S5 on, engine running',
    '66° after START, pulled F3',
  );
  fc.assert(
    fc.property(scene, seen, (s, w) => {
      const [first] = sound(readFinding(`${s}: ${w}`, van));
      expect(sound(readFinding(first!.phrase, van))).toEqual([first]);
    }),
    { seed: 20_261_125, numRuns: 500 },
  );
});

test('no text makes the reader throw, and a refusal always says why', () => {
  const words = [
    'ON',
    ':',
    ',',
    'T1',
    'dead',
    '0.4 V',
    'at',
    'S1.15',
    'from',
    'to',
    'off the vehicle',
    'swapped',
    'wiggled',
    'S1',
    'cured',
    'open',
    'with clamp',
    'engine',
    'still',
    '__proto__',
  ];
  const texts = fc.oneof(
    fc.string(),
    fc.array(fc.constantFrom(...words), { maxLength: 10 }).map((w) => w.join(' ')),
  );
  fc.assert(
    fc.property(texts, (text) => {
      const read = readFinding(text, bench);
      expect(
        read.ok || read.problems.every((p) => p.what !== '' && p.why !== '' && p.column >= 1 && p.length >= 1 && p.mend.length <= 6),
      ).toBe(true);
      expect(read.ok || read.problems.length > 0).toBe(true);
    }),
    { seed: 20_261_125, numRuns: 1500 },
  );
});

const warned = (text: string, circuit = bench) => {
  const read = readFinding(text, circuit);
  return read.ok ? [...read.value.map((f) => f.phrase), ...read.problems.map((p) => `${p.code} ${p.severity} ${inWords(p)}`)] : ['unread'];
};

test('a load that was wanted is taken with what it needs switched on, and that is said', () => {
  expect(warned('START: M1 dead, engine still', library('tractor'))).toEqual([
    'START, S3 pressed: M1 dead',
    'START, S3 pressed: engine still',
    'hand-assumed warning 8: M1 works only with S3 pressed; taken as `START, S3 pressed: M1 dead` | START, S3 released: M1 dead',
    'hand-assumed warning 17: the engine cranks only with S3 pressed; taken as `START, S3 pressed: engine still` | START, S3 released: engine still',
  ]);
});

test('an engine that came is taken with what its starter needs too', () => {
  expect(warned('START: engine cranks, engine fires', library('tractor'))).toEqual([
    'START, S3 pressed: engine cranks',
    'START, S3 pressed: engine fires',
    'hand-assumed warning 8: the engine cranks only with S3 pressed; taken as `START, S3 pressed: engine cranks` | START, S3 released: engine cranks',
    'hand-assumed warning 23: the engine cranks only with S3 pressed; taken as `START, S3 pressed: engine fires` | START, S3 released: engine fires',
  ]);
});

test.each([
  // Said with its switch, or with its switch at rest: nothing is left out.
  ['ON, S4 on: H4 dead', 'ON, S4 on: H4 dead'],
  ['ON, S4 off: H4 dead', 'ON, S4 off: H4 dead'],
  // Somebody else's switch was named: it may be what brings the load.
  ['ON, S3 at 1: H4 works', 'ON, S3 at 1: H4 works'],
  ['ON, S4 off: H4 works', 'ON, S4 off: H4 works'],
  ['ON: T1 works', 'ON: T1 works'],
  ['key out: H4 works', 'key out: H4 works'],
  ['ON: H4 hot', 'ON: H4 hot'],
  // Dead there with its switch on too: the key does not feed it.
  ['LOCK: M3 dead', 'LOCK: M3 dead'],
  // Taken out, joined or exchanged: the person has thought of the scene.
  ['ON, unplugged E8: H4 dead', 'ON, unplugged E8: H4 dead'],
  ['ON, bridged S1.30 S1.15: H4 dead', 'ON, bridged S1.30 S1.15: H4 dead'],
  ['swapped S1, ON: H4 dead', 'ON, swapped S1: H4 dead'],
  // With the key out it is asked what draws though nothing is switched on.
  ['key out: H4 dead', 'key out: H4 dead'],
  // What shows a little may be fed backwards by the switch that was named.
  ['ON, S3 at 1: H4 weak', 'ON, S3 at 1: H4 weak'],
])('%s is taken as it stands', (text, phrase) => {
  expect(warned(text)).toEqual([phrase]);
});

test.each([
  ['ON: H4 works', 'ON, S4 on: H4 works', 'H4 works only with S4 on', 'ON, S4 off: H4 works'],
  // The key does not feed it there, whatever is switched on: with the switch on it works by a stuck contact and by a short alike.
  ['LOCK: M3 works', 'LOCK, S3 at 1: M3 works', 'M3 works only with S3 at 1', 'LOCK, S3 at 0: M3 works'],
])('%s is taken as asked for, as the position table asks', (text, phrase, why, literal) => {
  expect(warned(text)).toEqual([phrase, `hand-assumed warning ${text.indexOf(':') + 3}: ${why}; taken as \`${phrase}\` | ${literal}`]);
});

test('why it is taken so is said: of a dead load that it says nothing else, of a live one that it would be amiss else', () => {
  const why = (text: string) => readFinding(text, bench).problems.map((p) => p.why);
  expect(why('ON: H4 dead')).toEqual([
    'as it was said a sound vehicle shows the same, and nothing would be amiss; if nothing was switched on, say that',
  ]);
  expect(why('ON: H4 works')).toEqual(['as it was said it would work though nothing was switched on; if it did, say that']);
});

test('a switch named only to say that it was left at rest is not set', () => {
  const [literal] = sound(readFinding('ON, S4 off: H4 dead', bench));
  expect(literal?.scene.hand).toEqual({});
});

test('an instrument that does not read what was read is told with those that do', () => {
  const mends = (text: string) => readFinding(text, bench).problems.map((p) => `${p.what} | ${p.mend.join(', ')}`);
  expect(mends('ON: 0.3 A at M3.1 with test lamp')).toEqual(['a test lamp does not read amperes | with clamp, with ammeter']);
  expect(mends('ON: 12 V at M3.1 with clamp')).toEqual(['a clamp does not read volts | with meter, with test lamp']);
});

test('volts are read with room above the highest supply: charging, supplies in series, a coil', () => {
  expect(warned('ON: 50 V at S1.15')).toEqual(['ON: 50 V at S1.15']);
});
