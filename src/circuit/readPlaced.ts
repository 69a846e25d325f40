import * as v from 'valibot';
import type { Circuit } from './circuit.ts';
import { readHand } from './handPhrase.ts';
import { isIdForm } from './ids.ts';
import { nodeAt, tellIssues } from './issueProblem.ts';
import { nearNamesWithin } from './nearNames.ts';
import type { Part, PartKind } from './part.ts';
import { type Placed, plainData, type Span, spanAt, type Tell } from './placed.ts';
import type { PlacedFile } from './placedFile.ts';
import type { Problem, Read } from './problem.ts';
import { readEngine } from './readEngine.ts';
import { readParts, whyOfHead } from './readParts.ts';
import { readWires } from './readWires.ts';
import { engineShape, fileShape } from './shape.ts';
import type { TreeMemory } from './treeMemory.ts';
import { checkWiring } from './wiringCheck.ts';

/** Most problems told of one file. */
const problemsLimit = 1000;
const top = fileShape(v.unknown(), v.unknown());

/**
 * Reads a circuit from placed data, which a caller may hold without the text's parser; see `readCircuit`.
 *
 * @param memory what an editor keeps of the readings before; the kinds must be the same each time
 */
export function readPlaced(placed: PlacedFile, kinds: readonly PartKind[], memory?: TreeMemory): Read<Circuit> {
  const { root, problems, tell, lineOf } = placed;
  const circuit = root === undefined ? nothing(problems.length === 0, tell) : circuitFrom(root, kinds, tell, lineOf, memory);
  const isSound = () => problems.every((p) => p.severity === 'warning');
  if (circuit && root && isSound()) tellNeeds(circuit, root, tell);
  problems.sort((a, b) => a.line - b.line || a.column - b.column);
  return circuit && isSound() ? { ok: true, value: circuit, problems } : { ok: false, problems: cut(problems) };
}

/** So many that nobody reads them all follow from something at large; the first ones say what. */
function cut(problems: readonly Problem[]): readonly Problem[] {
  const next = problems[problemsLimit];
  if (!next) return problems;
  const rest: Problem = {
    ...next,
    code: 'more-problems',
    severity: 'error',
    what: `${problems.length - problemsLimit} more problems follow from here`,
    why: 'the list ends here so that it can be read',
    mend: ['mend the first ones and check again'],
  };
  return [...problems.slice(0, problemsLimit), rest];
}

function nothing(isEmpty: boolean, tell: Tell): undefined {
  if (isEmpty)
    tell(
      { start: 0, end: 1 },
      {
        code: 'empty-file',
        what: 'the file holds nothing',
        why: 'there is no circuit to read',
        mend: ['begin with `title: …` and `parts:`'],
      },
    );
}

function circuitFrom(
  root: Placed,
  kinds: readonly PartKind[],
  tell: Tell,
  lineOf: (offset: number) => number,
  memory: TreeMemory | undefined,
): Circuit | undefined {
  if (root.is !== 'map') {
    tell(root.span, {
      code: 'not-a-circuit',
      what: `the file holds ${root.is === 'list' ? 'a list' : 'a text'}, not a circuit`,
      why: 'there is no circuit to read',
      mend: ['begin with `title: …` and `parts:`'],
    });
    return undefined;
  }
  if (root.entries.has('circuit') && !root.entries.has('parts')) {
    tell(root.entries.get('circuit')!.keySpan, {
      code: 'job-file',
      what: 'this is a job file: it names a circuit and is none',
      why: 'a circuit is wanted here',
      mend: ['give the file that its `circuit:` names'],
    });
    return undefined;
  }
  const parsed = v.safeParse(top, plainData(root));
  if (!parsed.success) tellIssues(parsed.issues, { root, about: '', why: whyOfHead }, tell);
  const head = parsed.success ? parsed.output : undefined;

  const spans = new Map<string, Span>();
  const { parts, faulty, unread } = readParts(root, kinds, spans, tell, memory);
  const near = nearNamesWithin(2_000_000);
  // Parts that could have no id, `S2.a` or `S 2`: who is near to one most likely means it, and its own message says enough.
  const misnamed = [...faulty].filter((id) => !isIdForm(id));
  const isFaulty = (id: string) => unread || faulty.has(id) || (misnamed.length > 0 && near(id, misnamed).length > 0);
  const ids = [...parts.keys()];
  const nearParts = (id: string) => near(id, ids);
  const board = { parts, isFaulty, nearParts, terminalsOf: terminalLists() };
  const wires = readWires(nodeAt(root, ['wires']), wireKindOf(kinds), board, { spans, lineOf, memory }, tell);
  // Apart from the head, so that a missing title does not hide an engine that names no part.
  const engineNode = root.entries.get('engine')?.node;
  const written = engineNode ? v.safeParse(engineShape, plainData(engineNode)) : undefined;
  const engine = written?.success ? readEngine(written.output, root, board, tell) : undefined;
  const circuit: Circuit = {
    title: head?.title ?? '',
    ...(head?.about === undefined ? {} : { about: head.about }),
    ambient: head?.ambient ?? 20,
    cautions: head?.cautions ?? [],
    parts: new Map([...parts, ...wires.parts]),
    attached: wires.attached,
    ...(engine ? { engine } : {}),
  };
  tellKeySwitches(parts, spans, tell);
  checkWiring(
    circuit,
    {
      unread: unread || wires.unread,
      openAt: wires.openAt,
      named: wires.named,
      spanOf: (id) => spans.get(id) ?? { start: 0, end: 1 },
      top: root.entries.get('parts')?.keySpan ?? { start: 0, end: 1 },
    },
    tell,
  );
  return circuit;
}

function wireKindOf(kinds: readonly PartKind[]): PartKind {
  const kind = kinds.find((k) => k.isWire === true);
  if (!kind) throw new Error('the list of kinds has no wire');
  return kind;
}

/** Terminal names by part, found once each. */
function terminalLists(): (part: Part) => readonly string[] {
  const lists = new Map<Part, readonly string[]>();
  return (part) => {
    const known = lists.get(part);
    if (known) return known;
    const fresh = part.kind.terminals(part).map((t) => t.name);
    lists.set(part, fresh);
    return fresh;
  };
}

/** The hand phrases of `with` are read once the circuit stands, since they name its parts and their settings. */
function tellNeeds(circuit: Circuit, root: Placed, tell: Tell): void {
  for (const part of circuit.parts.values()) {
    for (const [k, phrase] of (part.needs ?? []).entries()) {
      const read = readHand(phrase, circuit, '');
      const path = ['parts', part.id, 'with'];
      const at = nodeAt(root, path)?.is === 'list' ? spanAt(root, [...path, k]) : spanAt(root, path);
      if (!read.ok) for (const { code, what, why, mend } of read.problems) tell(at, { code, what, why, mend });
    }
  }
}

function tellKeySwitches(parts: ReadonlyMap<string, Part>, spans: ReadonlyMap<string, Span>, tell: Tell): void {
  const [first, second] = [...parts.values()].filter((p) => p.kind.key);
  if (first && second)
    tell(spans.get(second.id) ?? { start: 0, end: 1 }, {
      code: 'two-key-switches',
      what: `${second.id} is a second key switch, beside ${first.id}`,
      why: 'key positions could mean either of them',
      mend: [`write ${second.id} as a \`multi-switch\`, or put its contacts into ${first.id}`],
    });
}
