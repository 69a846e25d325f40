import type { Circuit } from '../../../src/circuit/circuit.ts';
import type { Element, Law } from '../../../src/circuit/element.ts';
import type { Part, PartKind } from '../../../src/circuit/part.ts';
import type { Scene } from '../../../src/circuit/scene.ts';

/** A scene in which nobody touches anything. */
export const quiet: Scene = { hand: {}, engine: 'stopped', apart: [], bridged: [], swapped: [] };

const plainKind: PartKind = {
  kind: 'made',
  title: 'made for a test',
  about: '',
  letter: 'R',
  parameters: {},
  terminals: () => [{ name: '1' }, { name: '2' }],
  elements: () => [],
  poles: () => [],
  faults: () => [],
  access: () => ({ minutes: 1, where: '', source: 'estimate' }),
};

/** A part between terminals 1 and 2 that is made of these elements. */
export function madePart(id: string, elements: PartKind['elements'], more: Partial<PartKind> = {}): Part {
  return { id, kind: { ...plainKind, ...more, elements }, params: {}, given: new Set(), isLoad: false };
}

export const ohms = (id: string, ohm: number): Part => madePart(id, () => [{ id: '', from: '1', to: '2', ohm }]);
/** Terminal 1 is plus. */
export const source = (id: string, volt: number, ohm: number): Part =>
  madePart(id, () => [{ id: '', plus: '1', minus: '2', volt, ohm }], { supply: () => ['1', '2'] });
/** The current comes out of terminal 1. */
export const current = (id: string, ampere: number): Part => madePart(id, () => [{ id: '', into: '1', outOf: '2', ampere }]);
export const follows = (id: string, law: Law): Part => madePart(id, (): readonly Element[] => [{ id: '', from: '1', to: '2', law }]);

/** Parts with the points that their terminals 1 and 2 are fastened to; the point `0` is the body. */
export function madeCircuit(
  parts: readonly (readonly [Part, string, string])[],
  more: readonly (readonly [string, string])[] = [],
): Circuit {
  const point = (name: string) => (name === '0' ? 'ground' : `at.${name}`);
  return {
    title: 'made for a test',
    ambient: 20,
    cautions: [],
    parts: new Map(parts.map(([part]) => [part.id, part])),
    attached: [
      ...parts.flatMap(([{ id }, first, second]) => [[`${id}.1`, point(first)] as const, [`${id}.2`, point(second)] as const]),
      ...more.map(([terminal, name]) => [terminal, point(name)] as const),
    ],
  };
}
