import type { LogAnswer } from '../drain/drainAnswer.ts';
import { ampereText } from '../drain/expected.ts';
import type { Match } from '../drain/log/matches.ts';
import { sinceText } from './drainWords.ts';

/** Lines of a kind that are said; the rest are counted. */
const mostSaid = 12;
/** Under this a log is too short to say what sleeps, s. */
const short_s = 300;

/** The log in sentences: its length, every step with what could have made it, what comes and goes, where it ends. */
export function logLines(log: LogAnswer): readonly string[] {
  const { seconds, skipped, turned } = log.log;
  const rows = seconds.length;
  const long = seconds.at(-1) ?? 0;
  const many = (count: number, what: string) => (count > mostSaid ? [`… and ${count - mostSaid} more ${what}.`] : []);
  const beats = log.beating.map(
    ({ beat, by }) =>
      `${ampereText(beat.amperes)} comes and goes, ${beat.times} times, every ${sinceText(beat.every_s)} for ${sinceText(beat.lasts_s)}: ${beat.even ? 'evenly, as a thermostat or timer does' : 'unevenly, as a loose joint or a wet contact does'}${byWords(by)}.`,
  );
  // With hundreds of pulses the beats say it all.
  const steps = log.beating.some(({ beat }) => 2 * beat.times >= 0.8 * log.steps.length) ? [] : log.matched;
  return [
    `${rows} rows over ${sinceText(long)}${skipped > 0 ? `, ${skipped} left out` : ''}${turned ? '; the clamp sat the other way round, signs turned' : ''}.`,
    ...log.gaps.slice(0, 3).map((g) => `No rows from ${sinceText(g.from_s)} to ${sinceText(g.to_s)}.`),
    ...steps.slice(0, mostSaid).map(({ step, by }) => {
      const change = step.to_A - step.from_A;
      return `At ${sinceText(step.at_s)} ${ampereText(Math.abs(change))} ${change < 0 ? 'less' : 'more'}, to ${ampereText(step.to_A)}${byWords(by)}.`;
    }),
    ...many(steps.length, 'steps'),
    ...beats,
    ...(log.end
      ? [
          `It ends at ${ampereText(log.end.amperes)}${log.over.length > 0 ? `. What is over could be ${log.over.map((m) => m.what).join('; ')}` : ''}.`,
        ]
      : []),
    ...(log.finding
      ? []
      : [
          long < short_s
            ? 'Too short to tell what sleeps: log on until the last step.'
            : 'It ends before everything sleeps: its last level is not the key-off current.',
        ]),
  ];
}

function byWords(by: readonly Match[]): string {
  if (by.length === 0) return '';
  const words = [...new Set(by.map((m) => (m.what.startsWith(m.part) ? m.what : `${m.part} ${m.what.replace(/^mode: /, '')}`)))];
  return ` (${words.slice(0, 2).join('; ')})`;
}
