import type { Circuit } from '../circuit/circuit.ts';
import type { Predictor } from '../diagnose/predict.ts';
import { faultsOf } from '../faults/faultModes.ts';
import { readFault } from '../faults/faultPhrase.ts';
import type { Action } from '../practice/action.ts';
import { actionText, readAction } from '../practice/actionPhrase.ts';
import { type Around, type Bench, findingsOf, newBench } from '../practice/bench.ts';
import { type Debrief, debriefOf } from '../practice/debrief.ts';
import type { Exercise } from '../practice/exercise.ts';
import { hintOf } from '../practice/hint.ts';
import { insightOf } from '../practice/insight.ts';
import { update } from '../practice/update.ts';
import { practiceData } from '../report/practiceData.ts';
import { practiceSheet } from '../report/practiceSheet.ts';
import { debriefText, exerciseText, helpText, minutesText, stepLine } from '../report/practiceText.ts';
import { wrapped } from '../report/textTable.ts';
import { type Args, printJson } from './command.ts';
import type { Io } from './io.ts';

export type Played = { readonly debrief: Debrief; readonly sheet: string };

/** The exercise in a terminal: one line, one action. Ends with `name`, `give up` or the end of the input; `quit` ends without a debrief. */
export async function dialogue(exercise: Exercise, predictor: Predictor, args: Args, io: Io): Promise<Played | undefined> {
  const { circuit, level, seed, complaint, tools, difficulty, best } = exercise;
  const around: Around = { hidden: exercise, predictor };
  const say = (text: string) => {
    if (!args.json) io.print(text);
  };
  let bench = newBench(circuit);
  say(exerciseText(circuit, level, seed, complaint.text, tools, difficulty, io.columns));
  for await (const line of io.lines()) {
    const word = line.trim().toLowerCase();
    if (word === 'quit') return undefined;
    const told = listed(word, bench, circuit, io.columns);
    if (told !== undefined) {
      say(told);
      continue;
    }
    if (word === '') continue;
    const read = readAction(line, circuit);
    const why = read.ok ? wrongName(read.value, circuit) : read.why;
    if (!read.ok || why !== undefined) {
      say(wrapped(why ?? '', io.columns).join('\n'));
      continue;
    }
    if (read.value.do === 'hint')
      say(
        wrapped(
          `Hint: ${hintOf(predictor, insightOf(predictor, findingsOf(exercise, bench)), tools, read.value.strength)}`,
          io.columns,
        ).join('\n'),
      );
    bench = update(around, bench, read.value);
    const step = bench.steps.at(-1)!;
    if (read.value.do !== 'hint') say(wrapped(`${stepLine(step)}  [${minutesText(step.minutes)}]`, io.columns).join('\n'));
    if (bench.named) break;
  }
  if (!bench.named) bench = update(around, bench, { do: 'name', faults: [] });
  const debrief = debriefOf(around, bench, best);
  if (args.json) printJson(practiceData(exercise, bench, debrief), io);
  else io.print(`\n${debriefText(debrief, circuit, io.columns)}`);
  return { debrief, sheet: practiceSheet(debrief, circuit, complaint.text, args.text('name') ?? '') };
}

/** A name that is no fault of the circuit ends nothing: it is told, with the ways of that part. */
function wrongName(action: Action, circuit: Circuit): string | undefined {
  if (action.do !== 'name') return undefined;
  for (const phrase of action.faults) {
    const read = readFault(phrase, circuit, 'name');
    if (!read.ok) return `${read.problems[0]?.what ?? phrase}. ${(read.problems[0]?.mend ?? []).slice(0, 4).join('; ')}`;
  }
  return undefined;
}

/** Answers that are no action: help and lists. */
function listed(word: string, bench: Bench, circuit: Circuit, width: number): string | undefined {
  const [first, id = ''] = word.split(/\s+/);
  const part = [...circuit.parts.values()].find((p) => p.id.toLowerCase() === id);
  switch (first) {
    case 'help':
      return helpText(width);
    case 'log':
      return bench.steps.length === 0
        ? 'Nothing done yet.'
        : bench.steps.map((s) => `${actionText(s.action, circuit)}\n  ${stepLine(s)}`).join('\n');
    case 'parts':
      return [...circuit.parts.values()]
        .filter((p) => !p.kind.isWire)
        .map((p) => `${p.id.padEnd(5)} ${p.name ?? p.kind.title}, ${p.place ?? p.kind.access(p).where}`)
        .join('\n');
    case 'terminals':
      return part
        ? part.kind
            .terminals(part)
            .map((t) => `${part.id}.${t.name}`)
            .join('  ')
        : 'Name a part: `terminals S1`.';
    case 'faults':
      return part
        ? faultsOf(circuit, part.id)
            .map((f) => `${f.fault}: ${f.text}`)
            .join('\n')
        : 'Name a part: `faults S1`.';
    default:
      return undefined;
  }
}
