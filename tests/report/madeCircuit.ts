import type { Circuit } from '../../src/circuit/circuit.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { partKinds } from '../../src/parts/index.ts';

/**
 * A made-up vehicle of about so many parts, the same for the same seed: battery, key switch, fuses under its contacts
 * and under 30, loads with and without switches and relays on them, some returning through a switch, four ground points.
 */
export function madeCircuit(seed: number, size: number): { readonly text: string; readonly circuit: Circuit } {
  const next = randomFrom(seed);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)]!;
  const contacts = ['15', '75', '50', '58', '15X'].slice(0, 2 + Math.floor(next() * 4));
  const parts = [
    'G1: { kind: battery, capacity: 60 Ah }',
    `S1: { kind: key-switch, positions: { OFF: { at: 0°, key-out: yes }, ON: { at: 40° }, START: { at: 80°, springs-to: ON } }, contacts: { ${contacts.map((c, k) => `30-${c}: [ ${20 + k}°..90° ]`).join(', ')} } }`,
    ...['XE1', 'XE2', 'XE3', 'XE4'].map((id) => `${id}: { kind: ground-point }`),
  ];
  const wires = ['{ from: G1.-, to: XE1, area: 25 mm², length: 0.4 m }', '{ from: G1.+, to: S1.30, area: 6 mm², length: 1 m }'];
  const colour = () => pick(['RD', 'BK/YE', 'BN', 'GN/WH']);
  const wire = (from: string, to: string) =>
    void wires.push(`{ from: ${from}, to: ${to}, area: 1 mm², length: ${(0.2 + next() * 3).toFixed(1)} m, colour: ${colour()} }`);
  const feeds = ['G1.+', ...contacts.map((c) => `S1.${c}`)];
  const count: Record<string, number> = {};
  const name = (letter: string) => {
    count[letter] = (count[letter] ?? 1) + 1;
    return `${letter}${count[letter]}`;
  };
  const grounds = ['XE1', 'XE2', 'XE3', 'XE4', 'ground'];
  const load = (from: string) => {
    const id = name('E');
    parts.push(`${id}: { kind: lamp, power: ${pick(['2 W', '21 W', '55 W'])} }`);
    wire(from, `${id}.1`);
    if (next() < 0.15) {
      const low = name('S');
      parts.push(`${low}: { kind: switch }`);
      wire(`${id}.2`, `${low}.1`);
      wire(`${low}.2`, pick(grounds));
    } else wire(`${id}.2`, pick(grounds));
  };
  while (parts.length + wires.length / 2 < size * 1.5 && parts.length < size) {
    const fuse = name('F');
    parts.push(`${fuse}: { kind: fuse, rating: 10 A }`);
    wire(pick(feeds), `${fuse}.1`);
    let from = `${fuse}.2`;
    const kind = next();
    if (kind < 0.25) {
      const id = name('K');
      parts.push(`${id}: { kind: relay }`);
      wire(from, `${id}.30`);
      wire(pick(feeds), `${id}.86`);
      wire(`${id}.85`, pick(grounds));
      from = `${id}.87`;
    } else if (kind < 0.5) {
      const id = name('S');
      parts.push(`${id}: { kind: switch }`);
      wire(from, `${id}.1`);
      from = `${id}.2`;
    }
    const loads = 1 + Math.floor(next() * 3);
    for (let k = 0; k < loads; k++) load(from);
  }
  const text = `title: Made-up vehicle ${seed}\nparts:\n${parts.map((p) => `  ${p}\n`).join('')}wires:\n${wires.map((w) => `  - ${w}\n`).join('')}`;
  return { text, circuit: circuitOf(text) };
}

export function circuitOf(text: string): Circuit {
  const read = readCircuit(text, 'made.yaml', partKinds);
  if (!read.ok) throw new Error(read.problems.map((p) => p.what).join('\n'));
  return read.value;
}

/** Numbers from 0 to 1, the same for a seed. Source: mulberry32, public domain (from memory). */
function randomFrom(seed: number): () => number {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
