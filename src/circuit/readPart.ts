import * as v from 'valibot';
import { tellIssues, type Whole } from './issueProblem.ts';
import { nearNames } from './nearNames.ts';
import type { Part, PartKind } from './part.ts';
import { type PlacedEntry, type PlacedMap, plainData, spanAt, type Tell } from './placed.ts';
import { type CommonWritten, shapesOf } from './shape.ts';
import { ticked } from './wires.ts';
import { unknownWord } from './written.ts';

/** Reads one entry of `parts`. Undefined when it has an error, which was told. */
export function readPart(entry: PlacedEntry, kinds: ReadonlyMap<string, PartKind>, tell: Tell): Part | undefined {
  const id = entry.key;
  const { node } = entry;
  const why = `what hangs on ${id} cannot be computed`;
  if (node.is === 'text' && node.told) return undefined;
  if (node.is !== 'map') {
    const found = node.is === 'list' ? 'a list' : node.text === '' ? 'nothing' : `\`${node.text}\``;
    tell(node.is === 'text' && node.text !== '' ? node.span : entry.keySpan, {
      code: 'wrong-shape',
      what: `part ${id}: ${found} stands where a map is wanted`,
      why,
      mend: [`write \`${id}: { kind: ${node.is === 'text' && kinds.has(node.text) ? node.text : '…'} }\``],
    });
    return undefined;
  }
  const kind = kindOf(entry, node, kinds, tell);
  if (!kind) return undefined;
  const whole: Whole = { root: node, about: id, why: () => why, hint: `\`detent parts ${kind.kind}\` lists the keys of this kind` };
  const result = v.safeParse(shapesOf(kind).part, plainData(node));
  if (!result.success) {
    tellIssues(result.issues, whole, (at, problem) => tell(at.end === at.start ? entry.keySpan : at, problem));
    return undefined;
  }
  return partFrom(id, kind, result.output as Written, node, entry, tell);
}

export type Written = CommonWritten & Readonly<Record<string, unknown>>;

/** The part, with defaults where the file says nothing; told and undefined when its kind finds a flaw in the whole. */
export function partFrom(
  id: string,
  kind: PartKind,
  written: Written,
  node: PlacedMap,
  entry: PlacedEntry,
  tell: Tell,
  about = id,
): Part | undefined {
  const params: Record<string, unknown> = {};
  const given = new Set<string>();
  for (const [name, parameter] of Object.entries(kind.parameters)) {
    if (written[name] !== undefined && !saysUnknown(node, name)) given.add(name);
    params[name] = written[name] ?? ('default' in parameter ? parameter.default : undefined);
  }
  const { name, place, note, minutes, load, with: needs } = written;
  const part: Part = {
    id,
    kind,
    ...(name === undefined ? {} : { name }),
    ...(place === undefined ? {} : { place }),
    ...(note === undefined ? {} : { note }),
    ...(minutes === undefined ? {} : { minutes }),
    ...(needs === undefined ? {} : { needs }),
    params,
    given,
    isLoad: load ?? kind.load ?? false,
  };
  let sound = true;
  for (const flaw of kind.check?.(part) ?? []) {
    if (flaw.severity !== 'warning') sound = false;
    const at = flaw.at && flaw.at.length > 0 ? spanAt(node, flaw.at) : entry.keySpan;
    tell(at.end === at.start ? entry.keySpan : at, {
      code: 'part-flaw',
      severity: flaw.severity ?? 'error',
      what: `${about}: ${flaw.what}`,
      why: flaw.severity === 'warning' ? 'what is read there may differ from the vehicle' : `what hangs on ${id} cannot be computed`,
      mend: flaw.mend,
    });
  }
  if (part.isLoad && !kind.judge) {
    tell(spanAt(node, ['load']), {
      code: 'load-without-limits',
      what: `${id} is to be a load, but nothing says when a ${kind.title} works, is weak or is dead`,
      why: 'its row of the position table would have no verdicts',
      mend: [`leave out \`load: yes\``, 'or describe it as a lamp, a motor or another kind that is a load'],
    });
    sound = false;
  }
  return sound ? part : undefined;
}

/** `length: unknown` stands for a guess, which counts as not given. */
function saysUnknown(node: PlacedMap, name: string): boolean {
  const held = node.entries.get(name)?.node;
  return held?.is === 'text' && held.text === unknownWord;
}

function kindOf(entry: PlacedEntry, node: PlacedMap, kinds: ReadonlyMap<string, PartKind>, tell: Tell): PartKind | undefined {
  const written = node.entries.get('kind');
  const why = `without its kind nobody knows what ${entry.key} does`;
  if (!written && node.told) return undefined;
  if (!written) {
    tell(entry.keySpan, { code: 'missing-key', what: `${entry.key}: \`kind\` is missing`, why, mend: ['`detent parts` lists every kind'] });
    return undefined;
  }
  if (written.node.is !== 'text' || written.node.text === '') {
    tell(written.keySpan, {
      code: 'wrong-shape',
      what: `kind of ${entry.key}: one word is wanted here`,
      why,
      mend: ['`detent parts` lists every kind'],
    });
    return undefined;
  }
  const name = written.node.text;
  const kind = kinds.get(name);
  if (kind) return kind;
  const near = nearNames(name, kinds.keys());
  tell(written.node.span, {
    code: 'unknown-kind',
    what: `${entry.key} is a \`${name}\`, and no kind of part has that name`,
    why,
    mend: [...(near.length > 0 ? [`kinds with a near name: ${ticked(near)}`] : []), '`detent parts` lists every kind'],
  });
  return undefined;
}
