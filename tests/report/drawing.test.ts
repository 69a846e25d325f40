import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readKeyPlace, restScene } from '../../src/circuit/scenePhrase.ts';
import { changesOf } from '../../src/faults/fault.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { darkInks, type Inks, lightInks } from '../../src/report/drawingInks.ts';
import { drawingSvg } from '../../src/report/drawingSvg.ts';
import { layoutOf } from '../../src/report/layout/layoutOf.ts';
import { momentOf } from '../../src/report/moment.ts';
import { pathWords } from '../../src/report/pathWords.ts';
import { escaped } from '../../src/report/svgText.ts';
import { loadsOf } from '../../src/solve/loads.ts';
import { network } from '../../src/solve/network.ts';
import { operatingPoint } from '../../src/solve/operatingPoint.ts';
import { circuitOf } from './madeCircuit.ts';
import { unsoundXml } from './unsoundXml.ts';

const library = readdirSync('circuits').filter((f) => f.endsWith('.yaml'));

describe.each(library)('%s', (file) => {
  const circuit = circuitOf(readFileSync(`circuits/${file}`, 'utf8'));
  const layout = layoutOf(circuit);
  const net = network(circuit);
  const scene = restScene(circuit);
  const shown = {
    title: circuit.title,
    line: 'As it stands.',
    words: pathWords(operatingPoint(net, scene)),
    moment: momentOf(net, net, scene),
    names: new Map([...circuit.parts.values()].map((p) => [p.id, p.name ?? p.kind.title])),
  };

  test.each(['light', 'dark', 'auto'] as const)('is a sound SVG file in the theme %s that needs nothing from elsewhere', (theme) => {
    const svg = drawingSvg(layout, { ...shown, theme });
    expect(unsoundXml(svg)).toEqual([]);
    expect(svg).not.toMatch(/href|@import|<script|<image|<foreignObject|NaN|undefined|Infinity/);
    expect(svg.match(/https?:[^"]*/g)).toEqual(['http://www.w3.org/2000/svg']);
  });

  test('its description walks every load, and every piece and label is drawn', () => {
    const svg = drawingSvg(layout, shown);
    const description = /<desc id="desc">([\s\S]*?)<\/desc>/.exec(svg)![1]!;
    for (const load of loadsOf(circuit.parts.values())) expect(description).toMatch(new RegExp(`^${load.id}[,:]`, 'm'));
    expect(shown.words).toHaveLength(loadsOf(circuit.parts.values()).length);
    for (const l of layout.labels) expect(svg).toContain(`>${escaped(l.text)}</text>`);
    expect(svg).toContain(`<title id="title">${escaped(circuit.title)}</title>`);
  });

  test('ids are written on the drawing for all but very few pieces', () => {
    const parts = new Set(layout.poles.map((p) => p.part));
    const named = new Set(layout.labels.filter((l) => l.role === 'id').map((l) => l.of));
    expect([...parts].filter((id) => !named.has(id)).length).toBeLessThanOrEqual(parts.size * 0.02);
  });
});

const van = circuitOf(readFileSync('circuits/light-van.yaml', 'utf8'));

/** The van with the key at ON and a fault in it. */
function vanWith(phrase: string) {
  const [key, fault] = [readKeyPlace('ON', van, '--key'), readFault(phrase, van, '--fault')];
  if (!key.ok || !fault.ok) throw new Error(phrase);
  const scene = { ...restScene(van), key: key.value };
  const { mode, part } = fault.value;
  return {
    at: operatingPoint(network(van, changesOf([fault.value])), scene),
    moment: momentOf(network(van, changesOf([fault.value])), network(van), scene),
    faults: [{ subject: mode.subject, words: mode.words, part, text: mode.text, phrase: fault.value.phrase }],
  };
}

test('an open 15 contact is told by hatch, tag and words, not by colour alone', () => {
  const { at, moment, faults } = vanWith('S1.30-15 open');
  const svg = drawingSvg(layoutOf(van), {
    title: van.title,
    line: 'Key at ON.',
    words: pathWords(at),
    moment,
    faults,
    showing: 'difference',
  });
  expect(svg).toContain('class="casing"');
  expect(svg).toContain('S1 contact 30–15');
  expect(pathWords(at).find((w) => w.startsWith('T1,'))).toMatch(/dead; no current flows/);
  expect(unsoundXml(svg)).toEqual([]);
});

test('without a moment, or in plain ink, no potential is shown', () => {
  const { moment } = vanWith('S1.30-15 open');
  const given = { title: van.title, line: '', words: [] };
  for (const svg of [drawingSvg(layoutOf(van), given), drawingSvg(layoutOf(van), { ...given, moment, neutral: true })]) {
    expect(svg).not.toMatch(/class="(core|casing|chevron|floating)"/);
    expect(svg).toContain('class="plain"');
  }
});

test('what a file says never becomes markup', () => {
  const circuit = circuitOf(
    'title: "<script>alert(1)</script> & \\"co\\""\nparts:\n  G1: { kind: supply, voltage: 12 V }\n  E1: { kind: lamp, power: 5 W, name: "a<b>&c" }\nwires:\n  - { from: G1.+, to: E1.1, colour: "<i>" }\n  - { from: E1.2, to: G1.- }\n',
  );
  const svg = drawingSvg(layoutOf(circuit), { title: circuit.title, line: 'x < y', words: ['a & b'], names: new Map([['E1', 'a<b>&c']]) });
  expect(unsoundXml(svg)).toEqual([]);
  expect(svg).not.toMatch(/<script|<i>|a<b/);
  expect(escaped('a\u0000b\u0007c\ud800d')).toBe('abcd');
});

/** WCAG 2.2, relative luminance and contrast ratio. */
function contrast(a: string, b: string): number {
  const luminance = (hex: string) => {
    const [r, g, b] = [1, 3, 5].map((k) => {
      const c = Number.parseInt(hex.slice(k, k + 2), 16) / 255;
      return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
  };
  const [l, d] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
  return (l + 0.05) / (d + 0.05);
}

// WCAG 2.2: 4.5 for text (1.4.3), 3 for graphics (1.4.11).
const used: readonly (readonly [keyof Inks, keyof Inks, number])[] = [
  ['ink', 'sheet', 4.5],
  ['ink', 'band', 4.5],
  ['ink2', 'sheet', 4.5],
  ['ink2', 'band', 4.5],
  ['tag', 'sheet', 4.5],
  ['tag', 'tagtint', 3],
  ['wireedge', 'sheet', 3],
  ['wireedge', 'band', 3],
  ['hand', 'sheet', 3],
];
test.each(used)('%s on %s has contrast enough in both themes', (over, under, least) => {
  for (const inks of [lightInks, darkInks]) expect(contrast(inks[over], inks[under])).toBeGreaterThanOrEqual(least);
});
