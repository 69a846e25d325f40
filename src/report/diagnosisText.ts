import type { DiagnosisView, ReadingRow } from './diagnosisView.ts';
import { visible } from './problemText.ts';
import { textTable, wrapped } from './textTable.ts';

/** Suspects and members of a group that are printed; the rest is counted. */
const mostShown = 8;
const mostNamed = 5;
/** Belief from which a group is worth a line. */
const groupFrom = 0.05;

/** The search as plain text. */
export function diagnosisText(view: DiagnosisView, columns: number): string {
  const lines = (text: string) => wrapped(visible(text), columns).join('\n');
  const blocks = [
    ...(view.findings.length > 0 ? [findingsText(view, columns)] : []),
    suspectsText(view, columns),
    ...groupsText(view).map(lines),
    ...nextText(view, columns),
    ...waysText(view, columns),
    lines(`${view.stage}: ${view.verdict.text}`),
  ];
  return blocks.join('\n\n');
}

function findingsText(view: DiagnosisView, columns: number): string {
  return ['Said so far']
    .concat(
      view.findings.map((f) => indented(`${visible(f.phrase)}${f.clashes ? '   does not fit' : f.proves ? '   proof' : ''}`, columns)),
    )
    .join('\n');
}

function suspectsText(view: DiagnosisView, columns: number): string {
  const shown = view.suspects.slice(0, mostShown);
  const table = textTable(
    {
      head: ['', 'Suspect', 'That is', 'Against it'],
      rows: shown.map((s) => [s.percent, s.faults.join(' + ') || 'no fault', visible(s.text), visible(s.against.join('; '))]),
      right: [0],
      wraps: [1, 2, 3],
      keeps: 2,
    },
    columns,
  );
  const rest = view.suspects.slice(mostShown).reduce((sum, s) => sum + s.probability, 0);
  const more = view.suspects.length - shown.length;
  return more > 0 ? `${table}\n${more} more, together ${Math.max(1, Math.round(100 * rest))} %` : table;
}

function groupsText(view: DiagnosisView): readonly string[] {
  return view.groups.flatMap((g) => {
    if (g.suspects.reduce((sum, k) => sum + view.suspects[k]!.probability, 0) < groupFrom) return [];
    const names = g.suspects.map((k) => view.suspects[k]!.faults.join(' + ') || 'no fault');
    const more = names.length > mostNamed ? ` and ${names.length - mostNamed} more` : '';
    return [`${names.slice(0, mostNamed).join(', ')}${more}: ${g.text[0]!.toLowerCase()}${g.text.slice(1)}`];
  });
}

function nextText(view: DiagnosisView, columns: number): readonly string[] {
  const [first, ...others] = view.next;
  if (!first) return [];
  const lines = [readingText(first, view, columns)];
  if (others.length > 0)
    lines.push(['Or', ...others.slice(0, 3).map((r) => indented(`${r.scene}: ${r.reading}, ${minutesText(r)}`, columns))].join('\n'));
  return lines;
}

/** What measuring and exchanging are expected to cost, once it is about a handful of parts. */
function waysText(view: DiagnosisView, columns: number): readonly string[] {
  const [best] = view.ways;
  if (!best || view.findings.length === 0 || view.suspects[0]!.probability < 0.1) return [];
  const rows = view.ways.map((w) => [w.name, `${w.money.toFixed(0)}`, `${Math.round(100 * w.wasted)} %`, w.because]);
  return [textTable({ head: ['Way of working', 'cost', 'good part bought', ''], rows, right: [1, 2], wraps: [0, 2, 3] }, columns)];
}

/** One reading as a short paragraph, with what can come of it. */
export function readingText(r: ReadingRow, view: Pick<DiagnosisView, 'suspects'>, columns: number): string {
  const head = wrapped(visible(`Next: ${r.steps.join(' ')} Takes ${minutesText(r)}.`), columns);
  const outcomes = r.outcomes.map((o) => {
    const names = o.leaves.slice(0, 3).map((k) => view.suspects[k]!.faults.join(' + ') || 'no fault');
    const more = o.leaves.length > 3 ? ` and ${o.leaves.length - 3} more` : '';
    return [o.seen, o.percent, names.length > 0 ? ` ${names.join(', ')}${more}` : 'nothing is left'];
  });
  const table = textTable({ head: ['It is', 'chance', 'then'], rows: outcomes, right: [1], wraps: [2], keeps: 2 }, columns);
  const cautions = r.cautions.map((c) => wrapped(`Caution: ${c}.`, columns).join('\n'));
  return [...head, table, ...cautions].join('\n');
}

const indented = (text: string, columns: number): string =>
  wrapped(text, columns - 2)
    .map((line) => `  ${line}`)
    .join('\n');

const minutesText = (r: ReadingRow): string => {
  const minutes = r.minutes < 1 ? 'under a minute' : `${Math.round(r.minutes)} min`;
  return r.price > 0 ? `${minutes}, ${r.price} in parts` : minutes;
};
