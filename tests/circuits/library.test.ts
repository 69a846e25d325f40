import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Circuit } from '../../src/circuit/circuit.ts';
import { keySwitchOf } from '../../src/circuit/keySwitchOf.ts';
import { openingOf } from '../../src/circuit/opening.ts';
import type { Part } from '../../src/circuit/part.ts';
import type { EngineState, KeyPlace, Scene } from '../../src/circuit/scene.ts';
import { keyText, restScene } from '../../src/circuit/scenePhrase.ts';
import { keyOff as keyOffNow } from '../../src/drain/keyOff.ts';
import { steadyLimit_A } from '../../src/parts/shared/wireGuide.ts';
import { loadsAt } from '../../src/solve/loads.ts';
import { network } from '../../src/solve/network.ts';
import { type OperatingPoint, operatingPoint } from '../../src/solve/operatingPoint.ts';
import { overloads } from '../../src/solve/overloads.ts';
import { tableNeeds } from '../../src/solve/tableNeeds.ts';
import { vehicle } from './vehicle.ts';

/** System volts over 12: guide values for drops of wires and switches go with them (common practice, no source). */
const vehicles = [
  { name: 'bench-board', volts: 12 },
  { name: 'light-van', volts: 12, starter: ['G1.+', 'M1.30', 'M1.31', 'G1.-', 'START'] },
  { name: 'saloon', volts: 12, starter: ['G1.+', 'M1.30', 'M1.31', 'G1.-', 'START'] },
  { name: 'motorcycle', volts: 12, starter: ['G1.+', 'M1.1', 'M1.2', 'G1.-', 'ON, S3 on'] },
  { name: 'tractor', volts: 12, starter: ['G1.+', 'M1.30', 'M1.31', 'G1.-', 'START, S3 pressed'], full: ['F1'] }, // with everything on the main fuse is nearly full, by intention: one more work lamp blows it
  { name: 'diesel-estate', volts: 12, starter: ['G1.+', 'M1.30', 'M1.31', 'G1.-', 'START, S5 pressed'] },
  { name: 'truck', volts: 24, starter: ['G2.+', 'M1.30', 'M1.31', 'G1.-', 'START'], idle: ['Y1'] }, // the stop solenoid gets current for some seconds after key-off only
  { name: 'classic-six-volt', volts: 6, starter: ['G1.-', 'M1.1', 'M1.2', 'G1.+', 'ON, S2 on'], lost: 0.08 }, // contacts do not shrink with the volts: 6 V lives with more (common practice, no source)
  { name: 'boat', volts: 12, starter: ['G1.+', 'M1.1', 'M1.2', 'G1.-', 'START'] },
  { name: 'modern-saloon', volts: 12, starter: ['G1.+', 'M1.30', 'M1.31', 'G1.-', 'START, S2 pressed'] },
] as const;

/** Drop guide at 12 V, V: wire 0.2, switch contact 0.3, connection and ground 0.1 (service texts, secondary). */
const guide_V: Readonly<Record<string, number>> = { wire: 0.2, contact: 0.3, pin: 0.1, ground: 0.1 };
/** Lost on both sides of a load together: 5 % (a trade text, secondary), with one tenth for the rounding of lengths. */
const mostLost = 0.055;

describe.each(vehicles)('$name', ({ name, volts, ...allowed }) => {
  const allow: { full?: readonly string[]; idle?: readonly string[]; lost?: number; starter?: readonly string[] } = allowed;
  const { circuit, problems, table, at } = vehicle(name);
  const scale = volts / 12;

  test('reads without problems or warnings, and opens with what it teaches and its key-off current', () => {
    expect(problems).toEqual([]);
    const head = readFileSync(`circuits/${name}.yaml`, 'utf8').split('\ntitle:')[0]!;
    for (const words of ['# Teaches:', '# Key-off current:', '# Invented ']) expect(head).toContain(words);
    expect(circuit.about).toMatch(/^Invented /);
  });

  test('the key-off current that the file opens with is the one that it has, to its last printed digit', () => {
    const { keyOff } = openingOf(readFileSync(`circuits/${name}.yaml`, 'utf8'));
    const [, figure = '0', decimals = '', unit = 'mA'] =
      /(\d+(?:\.(\d+))?) (mA|A)\b/.exec(keyOff.split(';')[0]!.startsWith('none') ? '' : keyOff) ?? [];
    const scale_A = unit === 'A' ? 1 : 1e-3;
    expect(Math.abs(keyOffNow(circuit).amperes - Number(figure) * scale_A)).toBeLessThanOrEqual(0.51 * scale_A * 10 ** -decimals.length);
  });

  test('solves everywhere: Kirchhoff within 1e-9, nothing chatters', () => {
    for (const { point, phrase } of everywhere(circuit)) {
      expect(point.residual, phrase).toBeLessThanOrEqual(1e-9);
      expect(point.chatters, phrase).toEqual([]);
    }
  });

  test('no guide value is passed in any cell of the healthy table', () => {
    expect(table().warnings).toEqual([]);
  });

  test('no guide value is passed with everything switched on', () => {
    for (const { point, phrase } of everywhere(circuit, allOn(circuit)))
      expect(
        overloads(point)
          .filter((o) => !allow.full?.includes(o.part))
          .map((o) => `${o.element} ${o.value.toFixed(1)} A of ${o.limit.toFixed(1)} A`),
        phrase,
      ).toEqual([]);
  });

  test('fuses carry at most 80 % of their rating with everything on (common practice, no source)', () => {
    for (const { point, phrase } of everywhere(circuit, allOn(circuit)))
      for (const fuse of of(circuit, 'fuse')) {
        const share = Math.abs(point.amperes[point.network.branchOf.get(fuse.id)!]!) / Number(fuse.params['rating']);
        expect(share, `${fuse.id} ${phrase}`).toBeLessThanOrEqual(allow.full?.includes(fuse.id) ? 1 : 0.8);
      }
  });

  test('every wire behind a fuse may carry at 30 °C what the fuse is marked with (common practice, no source)', () => {
    const thin = of(circuit, 'fuse').flatMap((fuse) =>
      wiresBehind(circuit, fuse)
        .filter((w) => w.params['length'] !== undefined && steadyLimit_A(Number(w.params['area']), 30) < Number(fuse.params['rating']))
        .map((w) => `${w.id} ${String(w.params['area'])} mm² behind ${fuse.id} ${String(fuse.params['rating'])} A`),
    );
    expect(thin).toEqual([]);
  });

  test('no fusible link is larger than the cables on it may carry at 30 °C (common practice, no source)', () => {
    const thin = of(circuit, 'fusible-link').flatMap((link) =>
      circuit.attached
        .filter(([, terminal]) => terminal.startsWith(`${link.id}.`))
        .map(([end]) => circuit.parts.get(end.split('.')[0]!)!)
        .filter((w) => steadyLimit_A(Number(w.params['area']), 30) < Number(link.params['rating']))
        .map((w) => `${w.id} ${String(w.params['area'])} mm² on ${link.id} ${String(link.params['rating'])} A`),
    );
    expect(thin).toEqual([]);
  });

  test('healthy drops stay under the guide values, piece by piece, for each load by itself', () => {
    const high = new Set<string>();
    for (const { point, cranks } of alone(circuit)) {
      if (cranks) continue;
      for (const [k, branch] of point.network.branches.entries()) {
        const sort = sortOf(circuit.parts.get(branch.part));
        if (sort === undefined) continue;
        const lost = Math.abs(point.amperes[k]! / point.siemens[k]!);
        const limit = guide_V[sort]! * (sort === 'wire' || sort === 'contact' ? scale : Math.min(1, scale));
        if (point.siemens[k]! > 0 && lost > limit) high.add(`${branch.id} ${sort} loses ${lost.toFixed(2)} V`);
      }
    }
    expect([...high]).toEqual([]);
  });

  test('each load gets all but 5 % of the battery, feed and return together', () => {
    const poor = new Set<string>();
    for (const { point, cranks, load } of alone(circuit)) {
      if (cranks || load === undefined || !straight(circuit.parts.get(load)!)) continue;
      const seen = loadsAt(point).find((l) => l.id === load)!;
      if (seen.verdict !== 'works') continue;
      const supply = supplyVolts(point);
      if (1 - seen.volts / supply > (allow.lost ?? mostLost)) poor.add(`${load} ${seen.volts.toFixed(2)} V of ${supply.toFixed(2)} V`);
    }
    expect([...poor]).toEqual([]);
  });

  test('starter circuit while cranking: feed 0.5 V, return 0.3 V at most (service texts, secondary; 24 V twice, 6 V the same)', () => {
    if (!allow.starter) return expect(name).toBe('bench-board');
    const [plus = '', feed = '', back = '', minus = '', scene = ''] = allow.starter;
    const cranking = at(scene);
    expect(cranking.is('M1')).not.toBe('dead');
    expect(Math.abs(cranking.volts(plus, feed)), 'feed').toBeLessThan(0.5 * Math.max(1, scale));
    expect(Math.abs(cranking.volts(back, minus)), 'return').toBeLessThan(0.3 * Math.max(1, scale));
  });

  test('every load works in some key position', () => {
    const idle = [...circuit.parts.values()].filter((p) => p.isLoad && !allow.idle?.includes(p.id) && !table().row(p.id).includes('works'));
    expect(idle.map((p) => p.id)).toEqual([]);
  });
});

function of(circuit: Circuit, kind: string): readonly Part[] {
  return [...circuit.parts.values()].filter((p) => p.kind.kind === kind);
}

function keys(circuit: Circuit): readonly KeyPlace[] {
  const model = keySwitchOf(circuit)?.model;
  if (!model) return [];
  const up = model.positions.map((p): KeyPlace => ({ angle: p.angle, came: 'up', in: true }));
  return [...up, ...up.map((k) => model.released(k)), { ...up[0]!, in: false }];
}

type Instant = { readonly point: OperatingPoint; readonly phrase: string };

/** Every key place, engine stopped, cranking, running, with each set of hand settings. */
function* everywhere(circuit: Circuit, hands: readonly Scene['hand'][] = [{}]): Generator<Instant> {
  const net = network(circuit);
  for (const hand of hands)
    for (const key of keys(circuit))
      for (const engine of ['stopped', 'running'] satisfies EngineState[]) {
        const scene: Scene = { ...restScene(circuit), key, hand, engine };
        yield { point: operatingPoint(net, scene), phrase: `${keyText(key, circuit)} ${engine} ${JSON.stringify(hand)}` };
      }
}

/** All switches operated: each at its last setting, and each at its second. */
function allOn(circuit: Circuit): readonly Scene['hand'][] {
  const switches = [...circuit.parts.values()].flatMap((p) => {
    const settings = p.kind.settings?.(p) ?? [];
    return settings.length > 1 ? [{ id: p.id, settings }] : [];
  });
  const hand = (pick: (settings: readonly string[]) => string) => Object.fromEntries(switches.map((s) => [s.id, pick(s.settings)]));
  return [hand((s) => s.at(-1)!), hand((s) => s[1]!)];
}

/** Each load switched on by itself at every detent. */
function* alone(circuit: Circuit): Generator<{ point: OperatingPoint; cranks: boolean; load: string | undefined }> {
  const net = network(circuit);
  const crank = circuit.engine?.crank;
  for (const [load, hand] of tableNeeds(circuit))
    for (const key of keys(circuit)) {
      const point = operatingPoint(net, { ...restScene(circuit), key, hand });
      yield { point, load, cranks: loadsAt(point).some((l) => l.id === crank && l.verdict !== 'dead') };
    }
}

function sortOf(part: Part | undefined): string | undefined {
  const kind = part?.kind.kind ?? '';
  if (kind === 'wire') return 'wire';
  if (kind === 'connector') return 'pin';
  if (kind === 'ground-point') return 'ground';
  return kind.endsWith('switch') || kind === 'relay-contact' || kind === 'isolator' ? 'contact' : undefined;
}

/** A load that hangs on the battery alone, with nothing in series by intention. */
function straight(part: Part): boolean {
  return (
    ['lamp', 'motor', 'pump', 'wiper-motor', 'heater', 'horn', 'solenoid', 'clock', 'glow-plug'].includes(part.kind.kind) &&
    part.given.has('with') === false &&
    !/[Cc]harge|coil/.test(part.name ?? '')
  );
}

function supplyVolts(point: OperatingPoint): number {
  let sum = 0;
  for (const { part } of point.network.members) {
    if (part.kind.kind !== 'battery') continue;
    const at = (t: string) => point.nodeVolts[point.network.nodeOf.get(`${part.id}.${t}`)!]!;
    sum += at('+') - at('-');
  }
  return sum;
}

/** Wires between a fuse and the loads, coils and further fuses behind it. */
function wiresBehind(circuit: Circuit, fuse: Part): readonly Part[] {
  const passes = (p: Part) =>
    sortOf(p) === 'wire' ||
    sortOf(p) === 'pin' ||
    sortOf(p) === 'contact' ||
    ['splice', 'relay', 'timed-relay', 'diode', 'flasher'].includes(p.kind.kind);
  const meets = new Map<string, string[]>();
  for (const [end, terminal] of circuit.attached) {
    meets.set(terminal, [...(meets.get(terminal) ?? []), end]);
    meets.set(end, [...(meets.get(end) ?? []), terminal]);
  }
  const found = new Map<string, Part>();
  const seen = new Set<string>();
  const front = [`${fuse.id}.2`];
  while (front.length > 0) {
    const terminal = front.pop()!;
    if (seen.has(terminal)) continue;
    seen.add(terminal);
    if (terminal === 'ground' || terminal === 'block' || circuit.parts.get(terminal.split('.')[0]!)?.kind.kind === 'ground-point') continue;
    for (const next of meets.get(terminal) ?? []) front.push(next);
    const part = circuit.parts.get(terminal.slice(0, terminal.lastIndexOf('.')));
    if (!part || part === fuse || part.isLoad || !passes(part)) continue;
    if (part.kind.kind === 'wire') found.set(part.id, part);
    const setting = part.kind.settings?.(part)[0] ?? '';
    for (const e of part.kind.elements(part, {
      key: undefined,
      setting,
      engine: 'stopped',
      ambient: 20,
      state: part.kind.initial?.(part) ?? {},
    })) {
      if (!('from' in e) || e.id === 'coil' || e.id === 'control') continue;
      const [a, b] = [`${part.id}.${e.from}`, `${part.id}.${e.to}`];
      if (a === terminal) front.push(b);
      if (b === terminal) front.push(a);
    }
  }
  return [...found.values()];
}
