import type { Circuit } from '../../circuit/circuit.ts';
import type { Part } from '../../circuit/part.ts';

/** A wire as written: with the connector pins that it passes, and the whole of its length. */
export type WholeWire = {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly via: readonly string[];
  readonly part: Part;
};

/** Joins the sections W7a, W7b … that a wire has between connectors into W7 again. */
export function wholeWires(circuit: Circuit): ReadonlyMap<string, WholeWire> {
  const at = new Map(circuit.attached);
  const whole = new Map<string, WholeWire>();
  const sections = [...circuit.parts.values()].filter((p) => p.kind.isWire === true);
  for (let k = 0; k < sections.length; k++) {
    const first = sections[k]!;
    const via: string[] = [];
    let last = first;
    while (passes(last, sections[k + 1], at)) {
      via.push((at.get(`${last.id}.2`) ?? '').slice(0, -1));
      k++;
      last = sections[k]!;
    }
    const id = via.length === 0 ? first.id : first.id.slice(0, -1);
    const length = first.params['length'];
    const part =
      via.length > 0 && typeof length === 'number' ? { ...first, params: { ...first.params, length: length * (via.length + 1) } } : first;
    whole.set(id, { id, from: at.get(`${first.id}.1`) ?? '', to: at.get(`${last.id}.2`) ?? '', via, part });
  }
  return whole;
}

/** Whether the next section goes on behind the pin at which this one ends: `X2.1a` and `X2.1b`, ids in the order of the alphabet. */
function passes(section: Part, next: Part | undefined, at: ReadonlyMap<string, string>): boolean {
  if (!next) return false;
  const [end, start] = [at.get(`${section.id}.2`) ?? '', at.get(`${next.id}.1`) ?? ''];
  const [mark, nextMark] = [section.id.charCodeAt(section.id.length - 1), next.id.charCodeAt(next.id.length - 1)];
  return end.endsWith('a') && start === `${end.slice(0, -1)}b` && nextMark === mark + 1 && section.id.slice(0, -1) === next.id.slice(0, -1);
}
