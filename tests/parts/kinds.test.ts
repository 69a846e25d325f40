import { describe, expect, test } from 'vitest';
import type { Element } from '../../src/circuit/element.ts';
import type { Part, PartKind } from '../../src/circuit/part.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import type { Condition } from '../../src/circuit/scene.ts';
import { partKinds } from '../../src/parts/index.ts';
import { symbols } from '../../src/report/symbols/index.ts';

/** A part of each kind with what the kind requires; everything else by default. Figures invented. */
const required: Readonly<Record<string, string>> = {
  supply: 'voltage: 12 V',
  'current-supply': 'current: 1 A',
  resistor: 'resistance: 10 Ω',
  lamp: 'power: 5 W',
  fuse: 'rating: 10 A',
  'fusible-link': 'rating: 40 A',
  'circuit-breaker': 'rating: 10 A',
  'unknown-load': 'current: 0.1 A',
  module: 'pins: { "30": { awake: 0.4 A, asleep: 9 mA }, D1: pull-up, KI: sense }, outputs: { P: { when: KI } }',
  'key-switch': 'positions: { OFF: { at: 0°, key-out: yes }, ON: { at: 60° } }, contacts: { 30-15: [48°..95°] }',
  'multi-switch': 'states: { "0": [], "1": [30-58] }',
  'timed-relay': 'for: 5 s',
  connector: 'pins: 2',
};

function partOf(kind: PartKind): Part {
  const text = `title: t\nparts:\n  A1: { kind: ${kind.kind}${required[kind.kind] === undefined ? '' : `, ${required[kind.kind]}`} }\nwires: []\n`;
  const read = readCircuit(text, 't.yaml', partKinds);
  const part = read.ok ? read.value.parts.get('A1') : undefined;
  if (!part) throw new Error(`${kind.kind}: ${read.problems.map((p) => p.what).join('; ')}`);
  return part;
}

const shape = (list: readonly Element[]) =>
  list.map((e) => ('plus' in e ? [e.id, e.minus, e.plus] : 'into' in e ? [e.id, e.outOf, e.into] : [e.id, e.from, e.to, 'law' in e]));

const conditions = (part: Part): readonly Condition[] => {
  const states = [part.kind.initial?.(part) ?? {}, { inrush: 1 }, { pulled: true, glowing: true, fed: true, parked: false, mode: 'awake' }];
  const settings = part.kind.settings?.(part) ?? [''];
  return (['stopped', 'cranking', 'running'] as const).flatMap((engine) =>
    (settings.length === 0 ? [''] : settings).flatMap((setting) =>
      states.map((state) => ({
        key: { angle: 60, came: 'up' as const, in: true },
        setting,
        engine,
        ambient: 20,
        state: { ...(part.kind.initial?.(part) ?? {}), ...state },
      })),
    ),
  );
};

describe.each(partKinds.filter((k) => k.isWire !== true).map((kind) => ({ kind })))('$kind.kind', ({ kind }) => {
  test('gives the same elements in every condition, between its own nodes', () => {
    const part = partOf(kind);
    const own = new Set([...kind.terminals(part).map((t) => t.name), 'ground', 'block']);
    const all = conditions(part).map((at) => kind.elements(part, at));
    for (const list of all) {
      expect(shape(list)).toEqual(shape(all[0]!));
      for (const e of list) {
        const ends = 'plus' in e ? [e.plus, e.minus] : 'into' in e ? [e.into, e.outOf] : [e.from, e.to];
        for (const end of ends) expect(own.has(end) || end.startsWith('~'), end).toBe(true);
        if ('ohm' in e) expect(e.ohm).toBeGreaterThanOrEqual(0);
      }
    }
    const ids = all[0]!.map((e) => e.id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  test('its poles and load ends lie on its own terminals and elements', () => {
    const part = partOf(kind);
    const own = new Set([...kind.terminals(part).map((t) => t.name), 'ground', 'block']);
    const elements = new Set(kind.elements(part, conditions(part)[0]!).map((e) => e.id));
    for (const pole of kind.poles(part)) {
      expect(own.has(pole.from) || pole.from.startsWith('~'), pole.from).toBe(true);
      expect(own.has(pole.to) || pole.to.startsWith('~'), pole.to).toBe(true);
      expect(elements.has(pole.element ?? pole.id), `element of pole ${pole.id}`).toBe(true);
      expect(Object.keys(symbols)).toContain(pole.symbol);
    }
    for (const end of kind.loadEnds?.(part) ?? []) expect(own.has(end)).toBe(true);
    expect(kind.load === true ? kind.judge : kind.poles).toBeDefined();
  });

  test('says where each default comes from', () => {
    for (const [name, parameter] of Object.entries(kind.parameters)) {
      expect(parameter.about, name).not.toBe('');
      const told = 'default' in parameter && parameter.default !== undefined && parameter.as !== 'flag' ? parameter.source : 'no default';
      expect(told, `source of ${name}`).toBeTruthy();
    }
  });

  test('its faults have phrases of their own, a weight, a source, and touch what is there', () => {
    const part = partOf(kind);
    const modes = kind.faults(part, { positions: ['OFF', 'ON'], feed: 'G1.+' });
    const phrases = modes.map((m) => `${m.subject} ${m.words}${m.detail ? ` ${m.detail.dimension}` : ''}`);
    expect(new Set(phrases).size).toBe(phrases.length);
    const elements = new Set(kind.elements(part, conditions(part)[0]!).map((e) => e.id));
    for (const mode of modes) {
      expect(mode.weight, mode.words).toBeGreaterThan(0);
      expect(mode.source).not.toBe('');
      expect(mode.text.endsWith('.')).toBe(false);
      for (const change of mode.changes(mode.detail?.default ?? 0))
        if (change.do === 'series' || change.do === 'fix') expect(elements.has(change.element), `${mode.subject} ${mode.words}`).toBe(true);
    }
  });

  test('says how it is reached', () => {
    const { minutes, where, source } = kind.access(partOf(kind));
    expect(minutes).toBeGreaterThan(0);
    expect(where).not.toBe('');
    expect(source).not.toBe('');
  });
});
