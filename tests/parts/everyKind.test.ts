import { describe, expect, test } from 'vitest';
import type { Element } from '../../src/circuit/element.ts';
import type { Part } from '../../src/circuit/part.ts';
import type { Condition, EngineState, State } from '../../src/circuit/scene.ts';
import { partKinds } from '../../src/parts/index.ts';
import { examplePart } from './examples.ts';

const engines: readonly EngineState[] = ['stopped', 'cranking', 'running'];

/** Every setting, engine state, key place, temperature, and each true-or-false state turned over. */
function conditions(part: Part): readonly Condition[] {
  const first = part.kind.initial?.(part) ?? {};
  const states: State[] = [first, ...Object.entries(first).flatMap(([name, held]) => turned(first, name, held))];
  const angles = part.kind.key?.(part).positions.map((p) => p.angle) ?? [];
  const keys = [undefined, ...angles.flatMap((angle) => (['up', 'back'] as const).map((came) => ({ angle, came, in: came === 'up' })))];
  const given = part.kind.settings?.(part) ?? [];
  const settings = given.length === 0 ? [''] : given;
  return settings.flatMap((setting) =>
    engines.flatMap((engine) =>
      keys.flatMap((key) => states.flatMap((state) => [-20, 20, 80].map((ambient) => ({ setting, engine, key, state, ambient })))),
    ),
  );
}

function turned(state: State, name: string, held: State[string]): readonly State[] {
  if (typeof held === 'boolean') return [{ ...state, [name]: !held }];
  if (typeof held === 'number')
    return [
      { ...state, [name]: 0 },
      { ...state, [name]: 0.5 },
    ];
  return [];
}

const shape = (list: readonly Element[]) =>
  list.map((e) => ('plus' in e ? [e.id, e.minus, e.plus] : 'into' in e ? [e.id, e.outOf, e.into] : [e.id, e.from, e.to]));

describe.each(partKinds.map((kind) => [kind.kind, kind] as const))('%s', (_name, kind) => {
  const part = examplePart(kind);
  const list = part.kind.elements(part, conditions(part)[0]!);
  const terminals = kind.terminals(part).map((t) => t.name);

  test('has terminals with names of their own, and elements only between them, inner nodes, body and block', () => {
    expect(new Set(terminals).size).toBe(terminals.length);
    expect(terminals.length).toBeGreaterThan(0);
    const allowed = (end: string) => terminals.includes(end) || end.startsWith('~') || end === 'ground' || end === 'block';
    for (const [id, ...ends] of shape(list)) for (const end of ends) expect(allowed(end!), `${id} ends at ${end}`).toBe(true);
    expect(new Set(list.map((e) => e.id)).size).toBe(list.length);
  });

  test('gives the same elements with the same ends in every condition', () => {
    for (const at of conditions(part)) expect(shape(kind.elements(part, at)), JSON.stringify(at)).toEqual(shape(list));
  });

  test('has only resistances above zero, or zero in every condition, and finite sources', () => {
    for (const at of conditions(part))
      for (const [k, e] of kind.elements(part, at).entries()) {
        if ('law' in e) continue;
        if ('into' in e) {
          expect(Number.isFinite(e.ampere)).toBe(true);
          continue;
        }
        expect(e.ohm, e.id).toBeGreaterThanOrEqual(0);
        const first = list[k]!;
        if ('ohm' in first) expect(e.ohm === 0, e.id).toBe(first.ohm === 0);
        if ('plus' in e) expect(Number.isFinite(e.volt)).toBe(true);
      }
  });

  test('has laws that rise everywhere, with the slope that they say', () => {
    for (const at of conditions(part).filter((c) => c.ambient === 20))
      for (const e of kind.elements(part, at)) {
        if (!('law' in e)) continue;
        for (let volts = -40; volts <= 40; volts += 0.37) {
          const [here, next] = [e.law(volts), e.law(volts + 1e-6)];
          expect(here.siemens, `${e.id} at ${volts} V`).toBeGreaterThan(0);
          // 1e-12 of the current: the digits that a difference of large numbers leaves.
          expect(next.ampere - here.ampere).toBeGreaterThanOrEqual(-1e-12 * Math.abs(here.ampere));
          // 1e-3 of the slope and the digits that a difference of large currents leaves.
          const slope = (next.ampere - here.ampere) / 1e-6;
          expect(Math.abs(slope - here.siemens)).toBeLessThan(1e-3 * here.siemens + 1e-3);
        }
      }
  });

  test('[P13] has defaults inside their ranges, each with a source', () => {
    for (const [name, p] of Object.entries(kind.parameters)) {
      expect(p.about, name).not.toBe('');
      if (!('default' in p) || p.default === undefined) continue;
      expect(p.source, `${name} has a source`).toBeTruthy();
      if (p.as === 'quantity' || p.as === 'count') {
        expect(p.default).toBeGreaterThanOrEqual(p.min ?? Number.NEGATIVE_INFINITY);
        expect(p.default).toBeLessThanOrEqual(p.max ?? Number.POSITIVE_INFINITY);
      }
      if (p.as === 'word') expect(p.words).toContain(p.default);
    }
  });

  test('lists faults that touch only what is there, each with a weight, a source and a phrase of its own', () => {
    const modes = kind.faults(part, { positions: ['ON', 'START'], feed: 'G1.+' });
    const ids = list.map((e) => e.id);
    const globals = [...terminals.map((t) => `Z9.${t}`), 'ground', 'block', 'G1.+'];
    for (const m of modes) {
      const phrase = `${m.subject} ${m.words}`;
      expect(m.subject === 'Z9' || m.subject.startsWith('Z9.'), phrase).toBe(true);
      expect(m.words !== '' || m.detail !== undefined, phrase).toBe(true);
      expect(m.weight, phrase).toBeGreaterThan(0);
      expect(m.source, phrase).not.toBe('');
      expect(m.text.endsWith('.'), phrase).toBe(false);
      for (const graded of m.detail ? [m.detail.default, ...m.detail.grades] : []) {
        expect(graded, phrase).toBeGreaterThanOrEqual(m.detail!.min);
        expect(graded, phrase).toBeLessThanOrEqual(m.detail!.max);
      }
      const changes = m.changes(m.detail?.default ?? 0);
      expect(changes.length, phrase).toBeGreaterThan(0);
      for (const c of changes) {
        if (c.do === 'series' || c.do === 'fix') expect(ids, phrase).toContain(c.element);
        if (c.do === 'series' || c.do === 'fix' || c.do === 'bridge') expect(c.ohm, phrase).toBeGreaterThan(0);
        if (c.do === 'bridge' || c.do === 'draw') for (const end of [c.from, c.to]) expect(globals, phrase).toContain(end);
      }
    }
    expect(new Set(modes.map((m) => `${m.subject} ${m.words} ${m.detail?.dimension ?? ''}`)).size).toBe(modes.length);
  });

  test('keeps its elements when a fault changes its parameters', () => {
    for (const m of kind.faults(part, { positions: ['ON'], feed: 'G1.+' }))
      for (const c of m.changes(m.detail?.default ?? 0)) {
        if (c.do !== 'params') continue;
        const changed = { ...part, params: { ...part.params, ...c.patch } };
        const ids = kind.elements(changed, conditions(part)[0]!).map((e) => e.id);
        expect(ids, `${m.subject} ${m.words}`).toEqual(list.map((e) => e.id));
      }
  });

  test('rates, draws and reaches only what is there', () => {
    const ids = list.map((e) => e.id);
    const ends = [...terminals, 'ground', 'block'];
    for (const r of kind.ratings?.(part, 20) ?? []) {
      expect(ids).toContain(r.element);
      expect(r.limit_A).toBeGreaterThan(0);
      expect(r.short_A ?? r.limit_A).toBeGreaterThanOrEqual(r.limit_A);
      expect(r.source).not.toBe('');
    }
    for (const pole of kind.poles(part)) {
      expect(ids).toContain(pole.element ?? pole.id);
      for (const end of [pole.from, pole.to]) expect(ends.includes(end) || end.startsWith('~'), end).toBe(true);
    }
    for (const end of [...(kind.loadEnds?.(part) ?? []), ...(kind.supply?.(part) ?? [])]) expect(ends).toContain(end);
    expect(kind.access(part).minutes).toBeGreaterThan(0);
    expect(kind.access(part).source).not.toBe('');
    const settings = kind.settings?.(part) ?? [];
    expect(new Set(settings).size).toBe(settings.length);
    for (const alias of Object.values(kind.aliases ?? {})) expect(settings).toContain(alias);
    if (kind.load) expect(kind.judge && kind.loadEnds, 'a load says how it does and where its current goes').toBeTruthy();
  });
});

test('the kinds have names of their own', () => {
  expect(new Set(partKinds.map((k) => k.kind)).size).toBe(partKinds.length);
});

test('at least 25 modes of fault differ over all kinds', () => {
  const words = partKinds.flatMap((kind) =>
    kind
      .faults(examplePart(kind), { positions: [], feed: 'G1.+' })
      .map((m) => `${m.words.replace(/ at .*/, ' at a position')} ${m.detail?.dimension ?? ''}`),
  );
  expect(new Set(words).size).toBeGreaterThanOrEqual(25);
});
