import type { Parameter } from '../circuit/parameter.ts';
import type { Part, PartKind } from '../circuit/part.ts';
import { quantityText } from '../circuit/quantity.ts';
import { commonKeys } from '../circuit/shape.ts';
import { units } from '../circuit/units.ts';

export type ParameterSheet = {
  readonly name: string;
  readonly about: string;
  /** How it is written: `55 Ah`, `yes or no`, `blade, mini`. */
  readonly written: string;
  readonly required: boolean;
  readonly default?: string;
  readonly source?: string;
};
/** All that is to know of a kind before using it in a file. Plain data. */
export type KindSheet = {
  readonly kind: string;
  readonly title: string;
  readonly about: string;
  readonly letter: string;
  readonly load: boolean;
  /** Of a part with nothing but defaults; empty when they hang on a parameter without one. */
  readonly terminals: readonly { readonly name: string; readonly about?: string }[];
  /** Settings for the hand, rest first. */
  readonly settings: readonly string[];
  readonly parameters: readonly ParameterSheet[];
  readonly common: readonly string[];
};

export function kindSheet(kind: PartKind): KindSheet {
  const sample = samplePart(kind);
  return {
    kind: kind.kind,
    title: kind.title,
    about: kind.about,
    letter: kind.letter,
    load: kind.load ?? false,
    terminals: orNone(() => kind.terminals(sample)),
    settings: orNone(() => kind.settings?.(sample) ?? []),
    parameters: Object.entries(kind.parameters).map(([name, p]) => parameterSheet(name, p)),
    common: commonKeys,
  };
}

function samplePart(kind: PartKind): Part {
  const params = Object.fromEntries(Object.entries(kind.parameters).map(([name, p]) => [name, 'default' in p ? p.default : undefined]));
  return { id: 'X', kind, params, given: new Set(), isLoad: kind.load ?? false };
}

/** A part that the reader would refuse may throw here: then its lists hang on what is missing. */
function orNone<T>(list: () => readonly T[]): readonly T[] {
  try {
    return list();
  } catch {
    return [];
  }
}

function parameterSheet(name: string, p: Parameter): ParameterSheet {
  const standard = 'default' in p && p.default !== undefined ? defaultText(p) : undefined;
  return {
    name,
    about: p.about,
    written: writtenAs(p),
    required: 'required' in p && p.required === true,
    ...(standard === undefined ? {} : { default: standard }),
    ...(p.source === undefined ? {} : { source: p.source }),
  };
}

function writtenAs(p: Parameter): string {
  switch (p.as) {
    case 'quantity':
      return quantityWritten(p);
    case 'count':
      return 'whole number';
    case 'word':
      return p.words.join(', ');
    case 'flag':
      return 'yes or no';
    case 'text':
      return 'text';
    case 'form':
      return p.written;
  }
}

function quantityWritten(p: Parameter & { readonly as: 'quantity' }): string {
  const { noun, example } = units[p.dimension];
  const word = noun.replace(/^an? /, '');
  const show = (n: number) => quantityText(n, p.dimension);
  if (p.min !== undefined && p.max !== undefined) return `${word}, ${show(p.min)} to ${show(p.max)}`;
  return p.default === undefined ? `${word}, such as ${example}` : word;
}

function defaultText(p: Parameter): string {
  if (p.as === 'quantity') return p.default === undefined ? '' : quantityText(p.default, p.dimension);
  if (p.as === 'flag') return p.default ? 'yes' : 'no';
  if (p.as === 'form')
    return typeof p.default === 'string' || typeof p.default === 'number' ? String(p.default) : JSON.stringify(p.default);
  return String(p.default);
}
