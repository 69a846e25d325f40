import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import type { Circuit } from '../../src/circuit/circuit.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { partKinds } from '../../src/parts/index.ts';
import { benchText } from './benchText.ts';

/** The library's circuits and the bench, as plain written data. */
const texts = [benchText, ...readdirSync('circuits').flatMap((f) => (f.endsWith('.yaml') ? [readFileSync(`circuits/${f}`, 'utf8')] : []))];
type Written = { parts: Record<string, object>; wires: Record<string, unknown>[]; engine?: Record<string, unknown> };
const written = texts.map((text) => parse(text, { schema: 'failsafe' }) as Written);

function read(text: string): Circuit {
  const got = readCircuit(text, 'x', partKinds);
  if (!got.ok) throw new Error(got.problems.map((p) => `${p.line} ${p.what}`).join('\n'));
  return got.value;
}

/** What a circuit means, free of the order of its file: parts with what they hold, and wires by their ends. */
function meaning(circuit: Circuit): readonly string[] {
  const at = new Map(circuit.attached);
  const facts = [...circuit.parts.values()].map((p) => {
    const name = p.kind.isWire ? `${at.get(`${p.id}.1`)} to ${at.get(`${p.id}.2`)}` : p.id;
    return JSON.stringify([name, p.kind.kind, p.name, p.place, p.isLoad, p.needs, sorted(p.params), [...p.given].sort()]);
  });
  const { crank, spark, fuel, drives } = circuit.engine ?? { crank: '', spark: [], fuel: [], drives: [] };
  return [
    ...facts.sort(),
    JSON.stringify([circuit.title, circuit.ambient, crank, [...spark].sort(), [...fuel].sort(), [...drives].sort()]),
  ];
}
function sorted(data: unknown): unknown {
  if (Array.isArray(data)) return data.map(sorted);
  if (typeof data !== 'object' || data === null) return data;
  return Object.fromEntries(
    Object.entries(data)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([k, v]) => [k, sorted(v)]),
  );
}

/** A map or list with its entries in another order. The order of positions, contacts and states is a part's own, so only the outer levels move. */
function shuffled<T>(list: readonly T[], keys: readonly number[]): T[] {
  return list
    .map((item, k) => ({ item, key: keys[k % keys.length]! + k * 1e-9 }))
    .sort((a, b) => a.key - b.key)
    .map(({ item }) => item);
}
const order = (o: object, keys: readonly number[]) => Object.fromEntries(shuffled(Object.entries(o), keys));

const keys = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 7, maxLength: 60 });
const which = fc.nat({ max: texts.length - 1 });

/** Meanings of the files as they stand, each read once. */
const known: (readonly string[])[] = [];
const meaningOf = (k: number) => (known[k] ??= meaning(read(texts[k]!)));

describe('a circuit does not hang on how its file is written', () => {
  test('every file means the same as JSON', () => {
    for (const [k, text] of texts.entries()) expect(meaning(read(JSON.stringify(written[k]))), text.slice(0, 60)).toEqual(meaningOf(k));
  }, 60_000);

  test('reordering parts, wires and keys changes nothing', () => {
    fc.assert(
      fc.property(which, keys, (k, by) => {
        const file = written[k]!;
        const parts = order(Object.fromEntries(Object.entries(file.parts).map(([id, part]) => [id, order(part, by)])), by);
        const again = order({ ...file, parts, wires: shuffled(file.wires, by).map((w) => order(w, by)) }, by);
        expect(meaning(read(JSON.stringify(again)))).toEqual(meaningOf(k));
      }),
      { seed: 11, numRuns: 40 },
    );
  }, 60_000);

  test('renaming parts changes nothing but the names', () => {
    fc.assert(
      fc.property(which, fc.constantFrom('Q', 'old-', 'Ä', '9'), (k, mark) => {
        const ids = Object.keys(written[k]!.parts);
        // An id stands whole: at the beginning of a terminal, as a key, or as a word of a hand phrase.
        const renamed = (text: string) =>
          text.replace(/(?<=^|[\s,[])([\p{L}\p{N}_'-]+)(?=$|[\s,.\]])/gu, (id) => (ids.includes(id) ? mark + id : id));
        const file = written[k]!;
        const again = {
          ...file,
          parts: Object.fromEntries(
            Object.entries(file.parts).map(([id, part]) => [
              mark + id,
              'with' in part ? { ...part, with: [part.with].flat().map((w) => renamed(String(w))) } : part,
            ]),
          ),
          wires: file.wires.map((w) => ({
            ...w,
            from: renamed(String(w['from'])),
            to: renamed(String(w['to'])),
            ...('via' in w ? { via: [w['via']].flat().map((v) => renamed(String(v))) } : {}),
          })),
          ...(file.engine
            ? {
                engine: Object.fromEntries(
                  Object.entries(file.engine).map(([key, v]) => [
                    key,
                    Array.isArray(v) ? v.map((id) => mark + String(id)) : mark + String(v),
                  ]),
                ),
              }
            : {}),
        };
        const back = (fact: string) => ids.reduce((text, id) => text.replaceAll(`${mark}${id}`, id), fact);
        expect(
          meaning(read(JSON.stringify(again)))
            .map(back)
            .sort(),
        ).toEqual([...meaningOf(k)].sort());
      }),
      { seed: 12, numRuns: 30 },
    );
  }, 60_000);
});
