import type { DrainAnswer } from '../drain/drainAnswer.ts';
import { ampereText } from '../drain/expected.ts';
import type { Tread } from '../drain/staircase.ts';
import { type DrainBar, drainBar } from './drainBar.ts';
import { type DrainCard, drainCard } from './drainCard.ts';
import { type DrainCurve, drainCurve } from './drainCurve.ts';
import { type FuseRow, fuseNote, fuseRows } from './drainFuses.ts';
import { drainLogChart, type LogChart } from './drainLogChart.ts';
import { logLines } from './drainLogLines.ts';
import { drainMeaning, drainSentence, hoursText, leading, sinceText } from './drainWords.ts';

export type DrainPlanRow = {
  readonly reading: string;
  readonly expect: string;
  readonly minutes: string;
  readonly cautions: readonly string[];
};

/** The Drain screen as plain data. */
export type DrainView = {
  readonly sentence: string;
  readonly meaning: string;
  readonly bar: DrainBar;
  /** `Allowed here`, `Read`, `Rule of the shop`: name and words. */
  readonly lines: readonly { readonly name: string; readonly text: string }[];
  readonly curve: DrainCurve | undefined;
  readonly card: DrainCard | undefined;
  /** Who is suspected when no hypothesis is held: likeliest first. */
  readonly suspects: readonly { readonly probability: number; readonly faults: string; readonly text: string }[];
  readonly stairs: readonly { readonly since: string; readonly current: string; readonly asleep: string }[];
  readonly procedure: DrainAnswer['procedure'];
  readonly plan: readonly DrainPlanRow[];
  /** What is left to do once it is proved. */
  readonly after: string | undefined;
  readonly fuses: readonly FuseRow[];
  /** What the fuse table says when it is read as a whole. */
  readonly fuseNote: string;
  readonly log: LogChart | undefined;
  readonly logLines: readonly string[];
};

export function drainView(answer: DrainAnswer): DrainView {
  const { amperes, battery, is } = leading(answer);
  const bar = drainBar(answer);
  const fuses = fuseRows(answer);
  return {
    sentence: drainSentence(answer),
    meaning: drainMeaning(answer),
    bar,
    lines: [
      { name: 'Allowed here', text: `${ampereText(bar.allowed.amperes)}.` },
      ...(is === 'read' ? [{ name: 'Read', text: answer.findings.map((f) => f.phrase).join('; ') }] : []),
      ...(battery
        ? [
            {
              name: 'Shop rules',
              text: `40 to 60 % of ${Math.round(battery.capacity_Ah)} Ah used: ${hoursText(battery.byRule[0])} to ${hoursText(battery.byRule[1])} with ${ampereText(amperes)}.`,
            },
          ]
        : []),
    ],
    curve: battery ? drainCurve(battery, answer.healthyBattery ?? battery) : undefined,
    card: drainCard(answer),
    suspects: answer.suspects
      .slice(0, 8)
      .map((s) => ({ probability: s.probability, faults: s.faults.map((f) => f.phrase).join(' + ') || 'no fault', text: s.text })),
    stairs: (answer.stairs?.treads ?? []).map(stairRow),
    procedure: answer.procedure,
    after: answer.hypothesis?.verdict === 'proved' ? afterRepair(bar.allowed.amperes) : undefined,
    plan: answer.plan.map(({ reading, healthy, supposed, minutes, cautions }) => ({
      reading,
      expect: supposed === undefined || supposed === healthy ? healthy : `${healthy}, not ${supposed}`,
      minutes: minutes < 1 ? 'under 1' : `${Math.round(minutes)}`,
      cautions,
    })),
    fuses,
    fuseNote: fuseNote(fuses),
    log: answer.log && drainLogChart(answer.log),
    logLines: answer.log ? logLines(answer.log) : [],
  };
}

/** A tread in words: what fell asleep, each part once with where it went. */
export function stairRow({ from_s, amperes, events }: Tread): DrainView['stairs'][number] {
  const last = new Map<string, string>();
  for (const { part, what } of events) {
    const mode = /mode: ([\w-]+)/.exec(what)?.[1];
    const lets = /no longer pulled/.test(what) ? 'lets go' : undefined;
    const word = mode === 'asleep' ? 'asleep' : mode === 'after-run' ? 'after-run' : mode === 'off' ? 'off' : lets;
    if (word !== undefined) last.set(part, word);
  }
  const asleep = [...last].map(([part, word]) => `${part} ${word}`).join(', ');
  return { since: sinceText(from_s), current: ampereText(amperes), asleep };
}

const afterRepair = (allowed_A: number): string =>
  `After the repair: the key-off current again, once everything sleeps, under ${ampereText(allowed_A)}; then every key position once. Ask why it failed.`;
