import type { Circuit } from '../circuit/circuit.ts';
import type { Dimension } from '../circuit/parameter.ts';
import { readQuantity } from '../circuit/quantity.ts';
import type { Tool } from '../diagnose/candidates.ts';
import { type Diagnosis, diagnose } from '../diagnose/diagnose.ts';
import type { Finding, Observable } from '../diagnose/finding.ts';
import { readFinding } from '../diagnose/findingPhrase.ts';
import { findingText } from '../diagnose/findingText.ts';
import type { Predictor } from '../diagnose/predict.ts';
import type { NextReading } from '../diagnose/survey.ts';
import { readingText } from '../report/diagnosisText.ts';
import { type DiagnosisView, diagnosisView, type ReadingRow } from '../report/diagnosisView.ts';
import { problemText, visible } from '../report/problemText.ts';
import { wrapped } from '../report/textTable.ts';
import type { Io } from './io.ts';

/** What a dialogue works on. */
export type AskOptions = { readonly tools: readonly Tool[]; readonly history: readonly string[]; readonly predictor: Predictor };

const help =
  'Answer with the number of an outcome, a value such as `12.3 V`, or any finding such as `ON: T1 dead`. `skip` asks for another reading, `back` takes the last finding away, `quit` ends.';

/**
 * Asks for one reading after another until the cause is proved, nothing more can be told apart, or the person ends it.
 *
 * @param told findings to begin with
 * @returns all findings in the end
 */
export async function ask(circuit: Circuit, told: readonly Finding[], io: Io, options: AskOptions): Promise<readonly Finding[]> {
  const findings = [...told];
  const say = (text: string) => io.print(wrapped(visible(text), io.columns).join('\n'));
  let skipped = 0;
  let state = asked(circuit, findings, options);
  say(findings.length === 0 ? `What was seen? ${help}` : help);
  if (findings.length > 0) tell(state.view, skipped, io);
  for await (const line of io.lines()) {
    const text = line.trim();
    const reading = state.diagnosis.next[skipped];
    if (text === '') continue;
    if (/^(quit|exit|q)$/i.test(text)) return findings;
    if (/^(help|\?)$/i.test(text)) {
      say(help);
      continue;
    }
    if (/^skip$/i.test(text)) {
      skipped = state.diagnosis.next.length === 0 ? 0 : (skipped + 1) % state.diagnosis.next.length;
      tell(state.view, skipped, io);
      continue;
    }
    if (/^back$/i.test(text)) {
      const last = findings.pop();
      say(last ? `Taken back: ${last.phrase}` : 'Nothing was said yet.');
    } else {
      const read = answered(text, reading, state.view.next[skipped], circuit);
      // Warnings too: what was taken otherwise than it was typed is said before it is noted.
      for (const problem of read.problems) io.print(problemText(problem, text, { colour: io.colour }));
      if (!read.ok) continue;
      findings.push(...read.value);
      for (const f of read.value) say(`Noted: ${f.phrase}`);
    }
    skipped = 0;
    state = asked(circuit, findings, options);
    if (findings.length === 0) say('What was seen?');
    else tell(state.view, skipped, io);
    // What the proof leaves over may be a second fault: the dialogue goes on while a look can tell.
    if (state.view.verdict.state === 'proved' && state.diagnosis.verdict.unexplained.length === 0) return findings;
  }
  return findings;
}

function asked(
  circuit: Circuit,
  findings: readonly Finding[],
  { tools, history, predictor }: AskOptions,
): { diagnosis: Diagnosis; view: DiagnosisView } {
  const diagnosis = diagnose(circuit, findings, { tools, history }, predictor);
  return { diagnosis, view: diagnosisView(circuit, diagnosis) };
}

function tell(view: DiagnosisView, skipped: number, io: Io): void {
  const lines = view.suspects.slice(0, 3).map((s) => `${s.percent}  ${s.faults.join(' + ') || 'no fault'}`);
  io.print(`\n${lines.join('\n')}\n`);
  io.print(wrapped(visible(`${view.stage}: ${view.verdict.text}`), io.columns).join('\n'));
  const reading = view.next[skipped];
  if (!reading || view.verdict.state === 'proved') return;
  io.print(`\n${readingText(reading, view, io.columns)}`);
  io.print(wrapped(reading.outcomes.map((o, k) => `${k + 1} = ${o.seen}`).join(', '), io.columns).join('\n'));
}

const dimensions: Partial<Record<Observable['of'], Dimension>> = { volts: 'voltage', amperes: 'current', ohms: 'resistance' };

/** A number of an outcome, a value for the reading that was asked for, a seen word for it, or a finding of its own. */
function answered(
  text: string,
  reading: NextReading | undefined,
  row: ReadingRow | undefined,
  circuit: Circuit,
): ReturnType<typeof readFinding> {
  if (reading && row) {
    const outcome = /^\d+$/.test(text)
      ? row.outcomes[Number(text) - 1]
      : row.outcomes.find((o) => o.seen.toLowerCase() === text.toLowerCase());
    if (outcome) return readFinding(outcome.finding, circuit, 'answer');
    const { scene, observable } = reading.candidate;
    const dimension = dimensions[observable.of];
    const value = dimension && readQuantity(text, dimension);
    if (value?.ok) {
      const seen = { value: value.value };
      return { ok: true, value: [{ scene, observable, seen, phrase: findingText({ scene, observable, seen }, circuit) }], problems: [] };
    }
  }
  return readFinding(text, circuit, 'answer');
}
