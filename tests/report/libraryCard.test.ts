import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { layoutOf } from '../../src/report/layout/layoutOf.ts';
import { libraryCard } from '../../src/report/libraryCard.ts';
import { vehicle } from '../circuits/vehicle.ts';

const names = readdirSync('circuits').flatMap((f) => (f.endsWith('.yaml') ? [f.slice(0, -'.yaml'.length)] : []));
const texts = (folder: string, name: string) =>
  readdirSync(`circuits/${folder}`)
    .filter((f) => f.startsWith(`${name}-`) && /^-\d\.\w+$/.test(f.slice(name.length)))
    .map((f) => readFileSync(`circuits/${folder}/${f}`, 'utf8'));

describe.each(names)('%s', (name) => {
  const jobs = texts('jobs', name);
  const card = libraryCard(readFileSync(`circuits/${name}.yaml`, 'utf8'), texts('stories', name), jobs);

  test('tells what it is, what it teaches and what flows with the key out; brings three stories and three jobs', () => {
    for (const text of [card.title, card.about, card.teaches, card.keyOff]) expect(text).not.toBe('');
    expect(card.parts).toBeGreaterThan(20);
    expect(card.wires).toBeGreaterThan(card.parts);
    expect(card.stories.length).toBe(3);
    expect(card.jobs.length).toBe(3);
    for (const { about, story } of card.stories) {
      expect(about).not.toMatch(/Invented|#/);
      expect(story).not.toMatch(/#|\n|, ,/);
    }
  });

  test('a job is handed out without its cause and without its repair', () => {
    for (const [k, job] of card.jobs.entries()) {
      expect(job.findings.length).toBeGreaterThan(0);
      const cause = /^# Cause: (.+?)\. Invented/.exec(jobs[k]!)![1]!;
      expect(JSON.stringify(job)).not.toContain(cause);
      expect(Object.keys(job)).toEqual(['vehicle', 'complaint', 'history', 'findings']);
    }
  });

  test('its picture holds every piece, wire and bar of the drawing, inside its edges', () => {
    const layout = layoutOf(vehicle(name).circuit);
    const { picture } = card;
    const begun = (d: string) => d.match(/M/g)?.length ?? 0;
    expect(begun(picture.pieces) + begun(picture.loads)).toBe(layout.poles.length);
    expect(begun(picture.loads)).toBe(layout.poles.filter((p) => p.isLoad).length);
    expect(begun(picture.wires)).toBe(layout.wires.length);
    expect(begun(picture.bars)).toBe(layout.bars.reduce((sum, b) => sum + b.pieces.length, 0));
    expect(begun(picture.key)).toBe(1);
    for (const [, x, y] of `${picture.wires}${picture.pieces}${picture.loads}`.matchAll(/M(-?\d+) (-?\d+)/g)) {
      expect(Number(x)).toBeGreaterThanOrEqual(0);
      expect(Number(x)).toBeLessThanOrEqual(picture.width);
      expect(Number(y)).toBeGreaterThanOrEqual(0);
      expect(Number(y)).toBeLessThanOrEqual(picture.height);
    }
    // Small enough that ten of them together weigh less than one photograph.
    expect(JSON.stringify(picture).length).toBeLessThan(16_000);
  });
});
