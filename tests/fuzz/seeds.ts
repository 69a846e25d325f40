import { readdirSync, readFileSync } from 'node:fs';
import type { Circuit } from '../../src/circuit/circuit.ts';
import { handPhrases } from '../../src/circuit/handPhrase.ts';
import { keyPhrases } from '../../src/circuit/keyPhrase.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { writeWireList } from '../../src/circuit/wireList/writeWireList.ts';
import { faultsOf } from '../../src/faults/faultModes.ts';
import { partKinds } from '../../src/parts/index.ts';

const texts: readonly string[] = readdirSync('circuits')
  .filter((f) => f.endsWith('.yaml'))
  .sort()
  .map((f) => readFileSync(`circuits/${f}`, 'utf8'));
const board = readFileSync('circuits/bench-board.yaml', 'utf8');

/** A circuit of one supply and one part of each kind with what it must be told, so that every kind's own reader is met. */
const everyKind: readonly string[] = partKinds
  .filter((kind) => kind.isWire !== true)
  .map((kind) => {
    const told = Object.entries(kind.parameters).flatMap(([name, p]) =>
      'written' in p ? [`${name}: ${p.written}`] : 'default' in p ? [] : [`${name}: 12 V`],
    );
    return `title: t\nparts:\n  G1: { kind: supply, voltage: 12 V, resistance: 0.01 Ω }\n  Z1: { kind: ${[kind.kind, ...told].join(', ')} }\nwires:\n  - { from: G1.+, to: Z1.1, area: 1 mm², length: 2 m }\n  - { from: G1.-, to: ground }\n`;
  });

/** Short enough to be read some hundred times a second, with something of everything; now and then a whole vehicle. */
export const circuitTexts: readonly string[] = [
  board.slice(0, board.indexOf('wires:') + 900),
  ...everyKind,
  ...texts.map(
    (text) => `${text.slice(0, text.indexOf('wires:')).slice(0, 3000)}\nwires:\n${text.slice(text.indexOf('wires:') + 7).slice(0, 1200)}`,
  ),
  ...texts.map((text) => text.slice(0, 2500)),
];
export const wholeCircuits = texts;

function circuitIn(text: string): Circuit {
  const read = readCircuit(text, 'seed.yaml', partKinds);
  if (!read.ok) throw new Error(read.problems[0]?.what);
  return read.value;
}

/** Circuits to which phrases are read: a small one with a lock, and one with an engine, modules and relays. */
export const circuits: readonly Circuit[] = ['bench-board', 'light-van', 'tractor'].map((name) =>
  circuitIn(readFileSync(`circuits/${name}.yaml`, 'utf8')),
);

export const faultPhrases: readonly string[] = circuits
  .flatMap((c) => faultsOf(c).map((f) => f.fault))
  .concat('W9.2 on R1.1', 'S1.30-15 open at ON', 'S1 lost motion 12°');
const keys = circuits.flatMap(keyPhrases);
const hands = circuits.flatMap(handPhrases);
export const scenePhrases: readonly string[] = [
  ...keys,
  ...keys.flatMap((k, n) => [
    `${k}, ${hands[(n * 37) % hands.length]}`,
    `${k} after START, ${hands[(n * 11) % hands.length]}, engine running`,
  ]),
  'between ON and START, door open, unplugged X2, bridged S1.30 S1.15, swapped S1',
  'key out',
];
export const findingPhrases: readonly string[] = [
  ...[
    'START: M1 works, T1 works',
    'ON after START: T1 dead',
    'key out: P3 works',
    'ON: 0.4 V at S1.15',
    'ON: 11.8 V from S1.30 to S1.15 with test lamp',
  ],
  ...[
    'key out: 320 mA at G1.-',
    'off the vehicle: S1.30 to S1.15 at ON open',
    'replaced S1: no change',
    'swapped S1: cured',
    'ON after START: engine dies',
  ],
  ...['wiggled X2: changes', 'key out: 320 mA at G1.- with clamp', 'ON, H4 switch on: H4 comes and goes'],
  ...keys.slice(0, 30).map((k, n) => `${k}: ${['M1 works', 'H1 dead', 'H2 weak', '4.2 V at S1.15'][n % 4]}`),
];
export const stories: readonly string[] = [
  ...[
    'LOCK, ON 2 s, START 1.5 s, release',
    'ON 1 s, START 0.1 s, START 1 s, release 3 s',
    'key out 21 days',
    'ON 20 s, S2 at 2, wait 10 s, ease to 75° 3 s # slowly',
  ],
  ...[
    'unplug X1\nON 2 s\nplug X1, pull F1, put back F1, bridge S1.30 S1.15, unbridge S1.30 S1.15, swap S1, jolt',
    'key in, ON 300 ms, 75° 1 min, LOCK 1 h, key out 2 weeks',
  ],
];
export const jobs: readonly string[] = [
  'circuit: light-van.yaml\nvehicle: white van, workshop no. 12\ncomplaint: starts, dies when the key is released\nhistory: [ radio fitted last month, heavy key ring ]\nfindings: [ "START: M1 works, T1 works", "ON after START: T1 dead", "between ON and START: T1 works" ]\nrepair: [ "replaced S1: cured" ]\n',
  'circuit: light-van.yaml\nfindings:\n  - ON: T1 dead\n  - START: T1 works\nrepair:\n  - cleaned XE2\n  - ON: T1 works\n',
  `circuit:\n${circuitTexts[0]!.replace(/^/gm, '  ')}\nfindings: [ "ON: H1 dead" ]\n`,
];
export const wireLists: readonly string[] = [
  ...([';', ',', '\t'] as const).map((separator) =>
    (writeWireList(board, { separator, decimal: separator === ';' ? ',' : '.' }) ?? '').slice(0, 2500),
  ),
  'Leitungsnr;Von;Nach;Farbe;Querschnitt;Länge;Bemerkung\r\n1;-S1:15;F3 1;rt/sw;1,5;0,9;"a ""b"""\r\n2;Masse;H1.2;br;0,75;1,2;\r\n',
  'No,From,To,Colour,Gauge\n1,G1+,S1-30,RD,10 AWG\n2,S1-15,"F1, left",BK/YE,14\n',
];
const row = (k: number, comma: boolean) => `${k * 2}${comma ? ';' : ','}${comma ? `${300 + k},5` : `${300 + k}.5`}`;
export const logs: readonly string[] = [
  `time [s];current [mA]\n${Array.from({ length: 60 }, (_, k) => row(k, true)).join('\n')}\n`,
  `time,current (A)\n${Array.from({ length: 40 }, (_, k) => row(k, false)).join('\n')}\n`,
  'clock\tcurrent [A]\n23:59:58\t0.32\n23:59:59\t0.32\n00:00:01\t0.02\n',
  '# clamp 3\ntime;current (mA)\n2026-01-31T07:30:00;320\n2026-01-31T07:30:01;318\n',
];
export const links: readonly string[] = [
  '#circuit=light-van&scene=ON&fault=S1.30-15+open+at+ON',
  'circuit=boat&scene=key%20out&fault=XE2%200.5%20%CE%A9&fault=F3%20blown&view=drain',
  '#circuit=%E0%A4%A&scene=%&fault=%00&&&==&circuit=',
];
export const conditions: readonly string[] = [
  '15 and (50 or engine turning)',
  'not (awake or after-run) and engine running',
  'within 2 s of 15',
  '15 live and not 31 grounded or always',
];
export const quantities: readonly string[] = [
  '55 Ah',
  '1.5 mm²',
  '16 AWG',
  '0.8 m',
  '21 W',
  '85 Ω',
  '85 ohm',
  '12.6 V',
  '320 mA',
  '22°',
  '1 min',
  '40 %',
  '20 °C',
  '-40 °C',
];
