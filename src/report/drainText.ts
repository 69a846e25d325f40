import type { DrainAnswer } from '../drain/drainAnswer.ts';
import { ampereText } from '../drain/expected.ts';
import { type DrainView, drainView } from './drainView.ts';
import { visible } from './problemText.ts';
import { calledBy } from './readingWords.ts';
import { textTable, wrapped } from './textTable.ts';

/** Draws that are listed; small ones beyond are summed. */
const mostDraws = 14;
const mostRivals = 5;

/** The drain as plain text, cautions where they apply. */
export function drainText(answer: DrainAnswer, columns: number): string {
  const view = drainView(answer);
  const say = (text: string, indent = '') =>
    wrapped(visible(text), columns - indent.length)
      .map((line) => `${indent}${line}`)
      .join('\n');
  const blocks = [
    `${view.sentence}\n${say(view.meaning)}`,
    drawsText(answer, columns),
    ...stairsText(view, columns),
    ...view.lines.map((l) => say(`${l.name}: ${l.text}`)),
    ...(view.curve?.frost ? [say(`Caution: ${view.curve.frost}`)] : []),
    ...cardText(view, say),
    ...suspectsText(view, answer, columns),
    ...(view.logLines.length > 0 ? [['The log', ...view.logLines.map((l) => say(l, '  '))].join('\n')] : []),
    view.after === undefined ? planText(view, columns, say) : say(view.after),
    fusesText(view, columns, say),
  ];
  return blocks.filter((b) => b !== '').join('\n\n');
}

/** Who draws what the first line says: with a hypothesis that still stands, the vehicle as it would then be. */
function drawsText({ keyOff, hypothesis, circuit }: DrainAnswer, columns: number): string {
  const supposed = hypothesis !== undefined && hypothesis.verdict !== 'rejected' && hypothesis.verdict !== 'proved';
  const draws = hypothesis === undefined || hypothesis.verdict === 'rejected' ? keyOff.draws : hypothesis.predicts.draws;
  if (draws.length === 0) return 'Nothing draws with the key out.';
  const shown = draws.slice(0, mostDraws);
  const rows = shown.map((d) => [
    visible(calledBy(d.part, circuit)),
    ampereText(d.amperes),
    ampereText(d.expected),
    d.fuse ?? 'none',
    d.feed.join(' '),
  ]);
  const rest = draws.slice(mostDraws).reduce((sum, d) => sum + d.amperes, 0);
  if (rest > 0) rows.push([`${draws.length - mostDraws} more`, ampereText(rest), '', '', '']);
  return textTable(
    { head: ['Who draws', supposed ? 'if so' : 'now', 'designed', 'fuse', 'fed by'], rows, right: [1, 2], wraps: [0, 4], keeps: 1 },
    columns,
  );
}

function stairsText(view: DrainView, columns: number): readonly string[] {
  if (view.stairs.length < 2) return [];
  return [
    textTable(
      {
        head: ['After key out', 'current', 'what went to sleep or let go'],
        rows: view.stairs.map((s) => [s.since, s.current, s.asleep]),
        right: [1],
        wraps: [2],
        keeps: 2,
      },
      columns,
    ),
  ];
}

function cardText({ card }: DrainView, say: (text: string, indent?: string) => string): readonly string[] {
  if (!card) return [];
  const list = (head: string, lines: readonly string[]) => (lines.length === 0 ? [] : [head, ...lines.map((l) => say(`- ${l}`, '  '))]);
  const rivals = card.rivals.slice(0, mostRivals).map((r) => `${r.percent} ${r.faults}: ${r.text}`);
  return [
    [
      say(`Hypothesis: ${card.fault}: ${card.says}`),
      ...list('If true, then', card.ifTrue),
      ...list('One would see or feel', card.notices),
      ...list('It falls if', card.fallsIf),
      ...list(
        'Held against what was read',
        card.held.map((h) => `${h.phrase}: ${h.predicted === '' ? '' : `it says ${h.predicted}, `}${h.fits ? 'fits' : 'does not fit'}`),
      ),
      ...list('Others that fit', rivals),
      ...(card.decides
        ? [
            say(
              `The reading that decides: ${card.decides.reading}: ${card.decides.supposed} if so; a healthy vehicle has ${card.decides.healthy}.`,
            ),
          ]
        : []),
    ].join('\n'),
    say(card.verdict === 'open' ? `Open: ${card.text}` : card.text),
  ];
}

function suspectsText(view: DrainView, { verdict, read_A = 0 }: DrainAnswer, columns: number): readonly string[] {
  if (view.card || !verdict || read_A <= view.bar.allowed.amperes) return [];
  const rows = view.suspects.slice(0, 6).map((s) => [`${Math.round(100 * s.probability)} %`, visible(s.faults), visible(s.text)]);
  return [
    textTable({ head: ['', 'Suspect', 'That is'], rows, right: [0], wraps: [1, 2], keeps: 2 }, columns),
    wrapped(verdict.text, columns).join('\n'),
  ];
}

function planText(view: DrainView, columns: number, say: (text: string, indent?: string) => string): string {
  const before = view.procedure.flatMap((act, k) => [
    say(`${k + 1}. ${act.does}`),
    ...act.cautions.map((c) => say(`Caution: ${c}.`, '   ')),
  ]);
  const rows = view.plan.map((p) => [p.reading, p.expect, p.minutes]);
  const table = textTable(
    { head: ['Then read, in this order', 'healthy, not as supposed', 'min'], rows, right: [2], wraps: [0, 1], keeps: 1 },
    columns,
  );
  const cautions = [...new Set(view.plan.flatMap((p) => p.cautions))].map((c) => say(`Caution: ${c}.`));
  return ['Plan: what sleeps stays asleep', ...before, '', ...(rows.length > 0 ? [table] : []), ...cautions].join('\n');
}

function fusesText(view: DrainView, columns: number, say: (text: string) => string): string {
  if (view.fuses.length === 0) return '';
  const hasRead = view.fuses.some((f) => f.read !== '');
  const rows = view.fuses.map((f) => [
    `${f.fuse} ${f.rating}`,
    visible(f.feeds),
    f.healthy,
    f.supposed,
    f.perStep,
    ...(hasRead ? [f.read === '' ? '' : `${f.read}: ${f.readAmperes}`] : []),
  ]);
  const head = ['Fuse', 'feeds', 'healthy mV', 'supposed mV', 'per 0.1 mV', ...(hasRead ? ['read mV'] : [])];
  const table = textTable({ head, rows, right: [2, 3, 4], wraps: hasRead ? [1, 5] : [1], keeps: 1 }, columns);
  const sources = [...new Set(view.fuses.map((f) => `${f.spread}: ${f.source}`))];
  return [table, say(view.fuseNote), say(`Cold resistance of the fuses ${sources.join('; ')}.`)].join('\n');
}
