/**
 * A circuit file with the form of a vehicle's wiring and any number of loads; invented, and the same every time. Every
 * load hangs on a fuse, a connector, a switch or a relay, two wires and a ground point that it shares with its
 * neighbours; every eighth has a second feed through a diode, so that there are loops. About 8 nodes a load.
 */
export function vehicleLike(loads) {
  const parts = [
    '  G1: { kind: battery, capacity: 55 Ah, cold-cranking: 480 A }',
    '  S1: { kind: key-switch, positions: { LOCK: { at: 0°, key-out: yes }, ON: { at: 60° } }, contacts: { 30-15: [48°..95°] } }',
    '  J1: { kind: splice }',
    '  J2: { kind: splice }',
  ];
  const wires = [
    '  - { from: G1.+, to: J1, area: 6 mm², length: 0.8 m }',
    '  - { from: G1.-, to: ground, area: 25 mm², length: 0.4 m }',
    '  - { from: J1, to: S1.30, area: 4 mm², length: 1.2 m }',
    '  - { from: S1.15, to: J2, area: 4 mm², length: 0.5 m }',
  ];
  for (let k = 0; k < loads; k++) {
    const ground = `XE${1 + Math.floor(k / 6)}`;
    if (k % 6 === 0) parts.push(`  ${ground}: { kind: ground-point }`);
    parts.push(`  F${k}: { kind: fuse, rating: 10 A }`, `  X${k}: { kind: connector, pins: 2 }`);
    parts.push(
      `  E${k}: { kind: ${['lamp, power: 5 W', 'heater, power: 60 W', 'lamp, power: 21 W', 'horn', 'resistor, resistance: 47 Ω'][k % 5]} }`,
    );
    wires.push(
      `  - { from: ${k % 3 === 0 ? 'J1' : 'J2'}, to: F${k}.1, area: 1.5 mm², length: 0.4 m }`,
      `  - { from: F${k}.2, to: X${k}.1a, area: 1 mm², length: 1.1 m }`,
      `  - { from: E${k}.2, to: X${k}.2a, area: 1 mm², length: 0.7 m }`,
      `  - { from: X${k}.2b, to: ${ground}, area: 1 mm², length: 0.3 m }`,
    );
    if (k % 7 === 3) {
      parts.push(`  K${k}: { kind: relay }`);
      wires.push(
        `  - { from: J2, to: K${k}.86, area: 0.75 mm², length: 0.6 m }`,
        `  - { from: K${k}.85, to: ${ground}, area: 0.75 mm², length: 0.6 m }`,
        `  - { from: X${k}.1b, to: K${k}.30, area: 1 mm², length: 0.5 m }`,
        `  - { from: K${k}.87, to: E${k}.1, area: 1 mm², length: 0.9 m }`,
      );
    } else {
      parts.push(`  Q${k}: { kind: switch }`);
      wires.push(
        `  - { from: X${k}.1b, to: Q${k}.1, area: 1 mm², length: 0.5 m }`,
        `  - { from: Q${k}.2, to: E${k}.1, area: 1 mm², length: 0.9 m }`,
      );
    }
    if (k % 8 === 5) {
      parts.push(`  V${k}: { kind: diode }`);
      wires.push(
        `  - { from: X${k}.1b, to: V${k}.a, area: 1 mm², length: 0.2 m }`,
        `  - { from: V${k}.k, to: E${k - 1}.1, area: 1 mm², length: 0.2 m }`,
      );
    }
  }
  return ['title: Vehicle-like wiring, invented', 'parts:', ...parts, 'wires:', ...wires].join('\n');
}
