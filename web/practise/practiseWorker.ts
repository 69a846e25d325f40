import type { Circuit } from '../../src/circuit/circuit.ts';
import { readCircuit } from '../../src/circuit/readCircuit.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import { clashes } from '../../src/faults/clashes.ts';
import { readFault } from '../../src/faults/faultPhrase.ts';
import { partKinds } from '../../src/parts/index.ts';
import type { Action } from '../../src/practice/action.ts';
import { actionText, readAction } from '../../src/practice/actionPhrase.ts';
import { type Around, type Bench, findingsOf, newBench } from '../../src/practice/bench.ts';
import { debriefOf } from '../../src/practice/debrief.ts';
import { type Exercise, instructedExercise, type Making, makeExercise } from '../../src/practice/exercise.ts';
import { exerciseFileText, joinedSets, openedExercise, readExerciseFile, writtenExercise } from '../../src/practice/exerciseFile.ts';
import { levelsOf } from '../../src/practice/hidden.ts';
import { hintOf } from '../../src/practice/hint.ts';
import { insightOf } from '../../src/practice/insight.ts';
import { levelOf } from '../../src/practice/level.ts';
import { digestOfExercise } from '../../src/practice/session.ts';
import { tableExercise, tableScore } from '../../src/practice/table.ts';
import { solvedBy } from '../../src/practice/technician.ts';
import { update } from '../../src/practice/update.ts';
import { practiceChart } from '../../src/report/practiceChart.ts';
import { classRow } from '../../src/report/practiceData.ts';
import { practiceSheet } from '../../src/report/practiceSheet.ts';
import {
  boughtText,
  clockText,
  hiddenLine,
  minutesText,
  technicianSteps,
  verdictLine,
  wayLines,
  worthText,
} from '../../src/report/practiceText.ts';
import { sceneLine } from '../../src/report/sceneLine.ts';
import type { About, BenchSeen, DebriefSeen, PractiseCalls, Which } from './practiseCalls.ts';

let last: { key: string; circuit: Circuit; predictor: Predictor } | undefined;
function circuitOf({ text, name }: { readonly text: string; readonly name: string }): { circuit: Circuit; predictor: Predictor } {
  const key = `${name}\n${text}`;
  if (last?.key === key) return last;
  const read = readCircuit(text, name, partKinds);
  if (!read.ok) throw new Error(`${name} has problems; nothing can be practised on it`);
  last = { key, circuit: read.value, predictor: new Predictor(read.value) };
  return last;
}

/** Kept by the text of their circuit, an edit is another vehicle; the one used last is let go last. */
const exercises = new Map<string, Exercise | string>();
/** Exercises kept: those of a lesson (estimate); each holds its circuit. */
const mostKept = 20;
function exerciseOf(about: About, heard: Heard = () => {}): Exercise | string {
  const { circuit, predictor } = circuitOf(about);
  const { which } = about;
  const bare: Which = which.from === 'seed' ? { from: 'seed', level: which.level, seed: which.seed } : which;
  const key = JSON.stringify([about.name, about.text, bare]);
  const known = exercises.get(key);
  if (known !== undefined) {
    exercises.delete(key);
    exercises.set(key, known);
    return known;
  }
  const made = which.from === 'seed' ? fromSeed(circuit, predictor, which, heard) : fromFile(circuit, predictor, which, heard);
  if (exercises.size >= mostKept) exercises.delete(exercises.keys().next().value!);
  exercises.set(key, made);
  return made;
}

/** Told in words how far an answer has come. */
type Heard = (working: string) => void;

const trying = (readings: number): string => `the technician is trying it, reading ${readings + 1}`;
const making = ({ refused, readings }: Making): string =>
  readings > 0 ? trying(readings) : refused === 0 ? 'looking for a fault' : `looking for a fault; ${refused} did not fit`;

function fromSeed(circuit: Circuit, predictor: Predictor, which: Which & { from: 'seed' }, heard: Heard): Exercise | string {
  const made = makeExercise(circuit, which.level, which.seed, predictor, (m) => heard(making(m)));
  return made.ok ? made.value : made.why;
}

function fromFile(circuit: Circuit, predictor: Predictor, which: Which & { from: 'file' }, heard: Heard): Exercise | string {
  const set = readExerciseFile(which.file);
  if (!set.ok) return set.why;
  const written = set.value.exercises[which.number - 1];
  if (!written) return `the set holds ${set.value.exercises.length} exercises`;
  const opened = openedExercise(written, circuit, which.pass);
  if (!opened.ok) return opened.why;
  const best = solvedBy({ circuit, seed: written.seed, ...opened.value }, predictor, [], { heard: (readings) => heard(trying(readings)) });
  return { circuit, level: levelOf(written.level)!, seed: written.seed, candidate: -1, ...opened.value, best };
}

/** The last bench of the exercise at hand, of this very circuit: one more action is one more update, not the whole session again. */
let held: { exercise: Exercise; actions: readonly Action[]; bench: Bench } | undefined;
function benchOf(about: About, actions: readonly Action[]): { around: Around; bench: Bench; exercise: Exercise } {
  const exercise = exerciseOf(about);
  if (typeof exercise === 'string') throw new Error(exercise);
  const around: Around = { hidden: exercise, predictor: circuitOf(about).predictor };
  const goesOn =
    held?.exercise === exercise &&
    held.actions.length <= actions.length &&
    JSON.stringify(actions.slice(0, held.actions.length)) === JSON.stringify(held.actions);
  let bench = goesOn ? held!.bench : newBench(exercise.circuit);
  for (const action of actions.slice(goesOn ? held!.actions.length : 0)) bench = update(around, bench, action);
  held = { exercise, actions, bench };
  return { around, bench, exercise };
}

function benchSeen(bench: Bench, circuit: Circuit): BenchSeen {
  return {
    scene: bench.scene,
    line: sceneLine(circuit, bench.scene),
    minutes: bench.minutes,
    money: bench.money,
    jack: bench.jack,
    ended: bench.named !== undefined,
    steps: bench.steps.map((s) => ({
      at: clockText(s.at + s.minutes),
      did: actionText(s.action, circuit),
      said: s.said,
      figure: s.figure ?? '',
      cost: s.money > 0 ? `${minutesText(s.minutes)}, ${s.money} money` : minutesText(s.minutes),
      money: s.money,
      trap: s.trap !== undefined,
    })),
  };
}

function debriefSeen(about: About, actions: readonly Action[], heard: Heard): DebriefSeen {
  const { around, bench, exercise } = benchOf(about, actions);
  const { circuit, complaint } = exercise;
  const d = debriefOf(around, bench, exercise.best, true, (done, all) => heard(`weighing step ${done + 1} of ${all}`));
  const steps = d.steps.map((s) => ({ at: s.step.at + s.step.minutes, minutes: s.step.minutes, left: s.left, redundant: s.redundant }));
  return {
    verdict: verdictLine(d),
    hidden: hiddenLine(d),
    hiddenFaults: d.hidden.map((f) => f.phrase),
    chart: practiceChart(d.course, d.technician.course, steps),
    rivals: d.rivals,
    steps: d.steps.map((s, k) => ({
      number: k + 1,
      at: clockText(s.step.at + s.step.minutes),
      did: actionText(s.step.action, circuit),
      read: s.step.figure ?? '',
      worth: worthText(s, circuit),
      left: s.left,
      redundant: s.redundant,
    })),
    way: wayLines(d).join(' '),
    technician: technicianSteps(d, circuit),
    notes: [...d.unsafe.map((s) => `Unsafe: ${s.said}`), ...d.bought.map(boughtText)],
    misconceptions: d.misconceptions,
    marks: d.marks.list.map(({ about: what, points, of }) => ({ about: what, points, of })),
    hints: d.marks.hints,
    total: d.marks.total,
    stopped: d.marks.stopped,
    sheet: practiceSheet(d, circuit, complaint.text),
    row: classRow('', exercise, d),
  };
}

const setOf = (text: string) => {
  const read = text === '' ? undefined : readExerciseFile(text);
  return read?.ok ? read.value : undefined;
};

type Answers = { [N in keyof PractiseCalls]: (takes: PractiseCalls[N]['takes'], heard: Heard) => PractiseCalls[N]['gives'] };
const answers: Answers = {
  begin: (about, heard) => {
    const e = exerciseOf(about, heard);
    if (typeof e === 'string') return { ok: false, why: e };
    const { level, seed, candidate, complaint, tools, difficulty } = e;
    return {
      ok: true,
      value: {
        level: level.number,
        title: level.title,
        seed,
        candidate,
        digest: digestOfExercise(e),
        complaint: complaint.text,
        tools,
        difficulty,
      },
    };
  },
  levels: (file) => levelsOf(circuitOf(file).circuit),
  table: ({ level, seed, ...file }) => {
    const { questions, given } = tableExercise(circuitOf(file).circuit, level, seed);
    return {
      level,
      title: levelOf(level)!.title,
      seed,
      given: given.map((f) => `${f.phrase}: ${f.mode.text}`).join('; '),
      questions: questions.map(({ load, name, position, choices }) => ({ load, name, position, choices })),
    };
  },
  answer: ({ level, seed, answers: given, ...file }) => {
    const exercise = tableExercise(circuitOf(file).circuit, level, seed);
    return { score: tableScore(exercise, given), right: exercise.questions.slice(0, given.length).map((q) => q.answer) };
  },
  bench: ({ actions, ...about }) => benchSeen(benchOf(about, actions).bench, circuitOf(about).circuit),
  read: ({ line, ...file }) => readAction(line, circuitOf(file).circuit),
  hint: ({ actions, strength, ...about }) => {
    const { around, bench, exercise } = benchOf(about, actions);
    return hintOf(around.predictor, insightOf(around.predictor, findingsOf(exercise, bench)), exercise.tools, strength);
  },
  debrief: ({ actions, ...about }, heard) => ({ ok: true, value: debriefSeen(about, actions, heard) }),
  hide: ({ faults, tools, level, seed, pass, set, ...file }, heard) => {
    const { circuit, predictor } = circuitOf(file);
    const read = faults.map((phrase) => readFault(phrase, circuit, 'fault'));
    const put = read.flatMap((r) => (r.ok ? [r.value] : []));
    const problem = [...read.flatMap((r) => r.problems), ...clashes(put)].find((p) => p.severity === 'error');
    if (problem || put.length === 0) return { ok: false, why: problem?.what ?? 'no fault is named' };
    const made = instructedExercise(circuit, levelOf(level)!, seed, put, tools, predictor, (m) => heard(trying(m.readings)));
    if (!made.ok) return { ok: false, why: made.why };
    const { complaint, difficulty } = made.value;
    const joined = joinedSets(setOf(set), [writtenExercise(made.value, file.name, pass)], circuit.title);
    return {
      ok: true,
      set: exerciseFileText(joined),
      said: `It can be solved. The customer will say: "${complaint.text}" The technician needed ${difficulty.readings} looks and readings, ${Math.ceil(difficulty.minutes)} min; ${difficulty.rivals} suspects after the complaint.`,
    };
  },
  make: ({ many, level, seed, pass, set, ...file }, heard) => {
    const { circuit, predictor } = circuitOf(file);
    const list: Exercise[] = [];
    for (let k = 0; k < many; k++) {
      const made = makeExercise(circuit, level, seed + k, predictor, (m) => heard(`exercise ${k + 1} of ${many}: ${making(m)}`));
      if (!made.ok) return { ok: false, why: made.why };
      list.push(made.value);
    }
    const joined = joinedSets(
      setOf(set),
      list.map((e) => writtenExercise(e, file.name, pass)),
      circuit.title,
    );
    return { ok: true, set: exerciseFileText(joined), said: `${many} made, each solved by the technician.` };
  },
  set: ({ text }) => {
    const read = readExerciseFile(text);
    if (!read.ok) return read;
    const exercises = read.value.exercises.map((e, k) => ({
      number: k + 1,
      circuit: e.circuit.split(/[\\/]/).at(-1)!,
      level: e.level,
      complaint: e.complaint,
      minutes: e.minutes,
      wantsPass: e.opens === 'pass',
    }));
    return { ok: true, value: { title: read.value.title, exercises } };
  },
  without: ({ text, number }) => {
    const held = setOf(text);
    const exercises = held?.exercises.filter((_e, k) => k !== number - 1) ?? [];
    return exercises.length === 0 ? '' : exerciseFileText({ title: held!.title, exercises });
  },
};

type Asking = { readonly id: number; readonly name: keyof PractiseCalls; readonly takes: never };
// The DOM library types `self` as a window; this is the only line that must know better.
const port = self as unknown as { onmessage: (e: MessageEvent<Asking>) => void; postMessage: (a: unknown) => void };
port.onmessage = ({ data: { id, name, takes } }) => {
  try {
    port.postMessage({
      id,
      ok: true,
      gives: answers[name](takes, (working) => port.postMessage({ id, ok: true, part: true, gives: { working } })),
    });
  } catch (e) {
    port.postMessage({ id, ok: false, message: e instanceof Error ? e.message : String(e) });
  }
};
