import type { Circuit } from '../circuit/circuit.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import { sceneText } from '../circuit/scenePhrase.ts';
import type { Diagnosis } from '../diagnose/diagnose.ts';
import type { Finding } from '../diagnose/finding.ts';
import type { Predictor } from '../diagnose/predict.ts';
import { isProofKind } from '../diagnose/verdict.ts';
import { allowance } from '../drain/allowance.ts';
import { ampereText, expectText } from '../drain/expected.ts';
import { keyOff } from '../drain/keyOff.ts';
import type { Fault } from '../faults/fault.ts';
import { positionTable } from '../solve/positionTable.ts';
import type { Layout } from './layout/layout.ts';
import { positionRows, type RowView } from './positionRows.ts';
import { calledBy, readingName } from './readingWords.ts';
import { type SheetMark, sheetDrawing } from './sheetDrawing.ts';
import { readTells, seenValue } from './sheetReading.ts';
import { whyFailed } from './whyFailed.ts';

export type SheetReading = {
  /** Stands where it was taken on the drawing too; readings at one place have one number. */
  readonly number: number;
  readonly where: string;
  readonly good: string;
  readonly read: string;
  readonly tells: string;
};

/** The job on one sheet of paper, as plain data. */
export type JobSheet = {
  readonly title: string;
  readonly vehicle: string;
  readonly complaint: string;
  /** What was seen before a meter was taken, scene by scene, and what the owner told. */
  readonly asked: readonly string[];
  readonly cause: { readonly title: string; readonly fault: string; readonly text: string };
  readonly layout: Layout;
  readonly drawn: string;
  readonly marks: readonly SheetMark[];
  readonly readings: readonly SheetReading[];
  readonly table: {
    readonly title: string;
    readonly positions: readonly string[];
    readonly rows: readonly RowView[];
    readonly said: string;
  };
  readonly done: string;
  readonly why: string;
  readonly customer: string;
  readonly disclaimer: string;
};

/** What was written down, besides the findings. */
export type SheetNotes = {
  readonly vehicle: string;
  readonly complaint: string;
  readonly history: readonly string[];
  readonly repair: readonly string[];
};
export type SheetAfter = {
  readonly tableRun: boolean;
  /** What was seen after the repair. */
  readonly after: readonly Finding[];
  readonly exchanged: readonly string[];
};

const mostReadings = 8;

/** Everything on the sheet from one diagnosis; nothing in it is looked up again. Cost: two position tables and a few layouts. */
export function jobSheet(
  circuit: Circuit,
  diagnosis: Diagnosis,
  notes: SheetNotes,
  { tableRun, after, exchanged }: SheetAfter,
  predictor: Predictor,
): JobSheet {
  const { verdict, suspects, findings } = diagnosis;
  const isKnown = verdict.state === 'proved' || verdict.state === 'pinned';
  const faults = isKnown ? (suspects[0]?.faults ?? []) : [];
  const told = findings.filter((f) => isProofKind(f) && !after.includes(f)).slice(-mostReadings);
  const places = [...new Set(told.map(placeOf))];
  const drawing = sheetDrawing(circuit, faults, places, findings);
  const table = positionTable(circuit, [{ share: 1, changes: [] }], { between: true });
  const shown = new Set(drawing.loads);
  const rows = positionRows(table, 'healthy').filter((r) => shown.has(r.id) || r.id === 'engine');
  return {
    title: circuit.title,
    vehicle: notes.vehicle,
    complaint: notes.complaint,
    asked: [
      ...notes.history,
      ...sceneLines(
        findings.filter((f) => !isProofKind(f) && !after.includes(f)),
        circuit,
      ),
    ],
    cause: causeOf(diagnosis, faults, isKnown, circuit),
    layout: drawing.layout,
    drawn: drawing.drawn,
    marks: drawing.marks,
    readings: told.map((f): SheetReading => {
      const expected = predictor.expected([], f)[0]?.is;
      return {
        number: places.indexOf(placeOf(f)) + 1,
        where: whereOf(f, circuit),
        good: expected ? expectText(expected) : '',
        read: seenValue(f, circuit),
        tells: readTells(f, expected, verdict.proof.includes(findings.indexOf(f))),
      };
    }),
    table: {
      title: tableRun ? 'Table run again after the repair' : 'Table to run again after the repair',
      positions: table.positions.map((p) => (p.detent ? p.name : `${Math.round(p.angle)}°`)),
      rows,
      said: afterText(circuit, tableRun, after),
    },
    done: doneText(notes.repair),
    why: faults.length === 0 ? '' : whyFailed(circuit, faults),
    customer: customerText(circuit, faults, exchanged, tableRun),
    disclaimer: "An aid, not an order: the maker's instructions, local rules and a qualified person have the last word.",
  };
}

/** Where a reading is marked on the drawing: its red lead, or the part that was exchanged or moved. */
const placeOf = ({ observable: o }: Finding): string => ('at' in o ? o.at : 'part' in o ? o.part : '');

function whereOf({ scene, observable }: Finding, circuit: Circuit): string {
  const name = readingName(observable, circuit);
  if (observable.of === 'ohms' || observable.of === 'exchange' || observable.of === 'touch') return name;
  return `${name}, ${keySwitchOf(circuit) ? 'key at ' : ''}${sceneText(scene, circuit)}`;
}

/** `ON: M2 works; T1, H1 dead`, one line for each scene. */
function sceneLines(findings: readonly Finding[], circuit: Circuit): readonly string[] {
  const scenes = new Map<string, Map<string, string[]>>();
  for (const { scene, observable, seen } of findings) {
    const words = sceneText(scene, circuit);
    const word = 'word' in seen ? seen.word : 'engine' in seen ? seen.engine : '';
    const who = observable.of === 'load' ? (circuit.parts.get(observable.load)?.name ?? observable.load) : 'engine';
    const own = scenes.get(words) ?? new Map<string, string[]>();
    scenes.set(words, own.set(word, [...(own.get(word) ?? []), who]));
  }
  return [...scenes].map(([scene, byWord]) => `${scene}: ${[...byWord].map(([word, who]) => `${who.join(', ')} ${word}`).join('; ')}.`);
}

function causeOf({ verdict }: Diagnosis, faults: readonly Fault[], isKnown: boolean, circuit: Circuit): JobSheet['cause'] {
  if (!isKnown || faults.length === 0) return { title: 'Cause, not proved yet', fault: '', text: verdict.text };
  return {
    title: verdict.state === 'proved' ? 'Cause, proved' : 'Cause, located',
    fault: faults.map((f) => f.phrase).join(' and '),
    text: faults.map((f) => `${calledBy(f.part, circuit)}: ${f.mode.text}.`).join(' '),
  };
}

function afterText(circuit: Circuit, tableRun: boolean, after: readonly Finding[]): string {
  const { amperes } = keyOff(circuit);
  const allowed = ampereText(allowance(amperes));
  const read = after.find((f) => f.observable.of === 'amperes' && f.scene.engine === 'stopped' && 'value' in f.seen);
  const current =
    read && 'value' in read.seen
      ? `Key-off current after the repair: ${ampereText(Math.abs(read.seen.value))} (allowed ${allowed}).`
      : `Key-off current: as designed ${ampereText(amperes)}, allowed ${allowed}; read ______ mA.`;
  return `${tableRun ? 'Every cell was seen, none differs from the healthy vehicle.' : 'As it ought to be; not seen yet.'} ${current}`;
}

const doneText = (repair: readonly string[]): string =>
  repair
    .filter((r) => !/whole table/i.test(r) && !/^key out/i.test(r))
    .map((r) => `${r[0]!.toUpperCase()}${r.slice(1)}.`)
    .join(' ');

function customerText(circuit: Circuit, faults: readonly Fault[], exchanged: readonly string[], tableRun: boolean): string {
  if (faults.length === 0) return '';
  const parts = [...new Set(faults.map((f) => f.part))];
  const isWhole = faults.every((f) => exchanged.includes(f.part));
  const said = faults.map((f) => `The fault was at ${inWords(f.part, circuit)}: ${f.mode.text}.`).join(' ');
  const mended = isWhole ? ` ${parts.length > 1 ? 'They have' : 'It has'} been replaced.` : '';
  const tried = tableRun ? ' Afterwards every function was tried again in every key position and works as it should.' : '';
  return `${said}${mended}${tried}`;
}

function inWords(id: string, circuit: Circuit): string {
  const part = circuit.parts.get(id);
  if (!part?.name) return id;
  const name = `the ${part.name[0]!.toLowerCase()}${part.name.slice(1)}`;
  return part.place === undefined ? name : `${name} (${part.place})`;
}
