import { dirname, join, relative, resolve } from 'node:path';
import type { Circuit } from '../../circuit/circuit.ts';
import type { Problem } from '../../circuit/problem.ts';
import { tools as allTools, type Tool } from '../../diagnose/candidates.ts';
import { Predictor } from '../../diagnose/predict.ts';
import { clashes } from '../../faults/clashes.ts';
import { readFault } from '../../faults/faultPhrase.ts';
import { classSheetText, readClassSheet, withLine } from '../../practice/classSheet.ts';
import { type Exercise, instructedExercise, makeExercise } from '../../practice/exercise.ts';
import {
  type ExerciseFile,
  exerciseFileText,
  isExerciseFile,
  openedExercise,
  readExerciseFile,
  writtenExercise,
} from '../../practice/exerciseFile.ts';
import { levelsOf } from '../../practice/hidden.ts';
import { levelOf, levels } from '../../practice/level.ts';
import { nextLevel, progressText, type Result, readProgress } from '../../practice/progress.ts';
import { solvedBy } from '../../practice/technician.ts';
import { classRow } from '../../report/practiceData.ts';
import { circuitFile } from '../circuitFile.ts';
import { type Args, type Command, type Exit, printJson, sayProblems } from '../command.ts';
import type { Io } from '../io.ts';
import { dialogue, type Played } from '../practiseDialogue.ts';
import { tableDialogue } from '../practiseTable.ts';

export const practise: Command = {
  name: 'practise',
  usage: 'practise FILE [--level N] [--seed N]',
  about: 'An exercise: find the hidden fault at a simulated vehicle, then see how the thinking went',
  takes: { least: 1, most: 1 },
  options: {
    level: { type: 'string', value: 'N', about: `1 to 11: ${levels.map((l) => `${l.number} ${l.title.toLowerCase()}`).join(', ')}` },
    seed: { type: 'string', value: 'N', about: 'which exercise; the same circuit, level and seed give the same one (1 unless told)' },
    progress: { type: 'string', value: 'FILE', about: 'keeps the results here, and chooses the level when none is told' },
    sheet: { type: 'string', value: 'FILE.md', about: 'writes the debrief as a printable sheet' },
    class: { type: 'string', value: 'FILE.csv', about: 'adds a line for this apprentice to a class sheet' },
    name: { type: 'string', value: 'NAME', about: 'the apprentice on the class sheet' },
    hide: {
      type: 'string',
      multiple: true,
      value: 'FAULT',
      about: 'instructor: hides this fault instead, and writes the exercise',
    },
    make: { type: 'string', value: 'N', about: 'instructor: writes so many exercises of the level as one set' },
    can: { type: 'string', multiple: true, value: 'TOOL', about: `instructor: only these are at hand: ${allTools.join(', ')}` },
    pass: { type: 'string', value: 'WORD', about: 'the pass-word of an exercise' },
    number: { type: 'string', value: 'N', about: 'which exercise of a set (1 unless told)' },
    output: { type: 'string', short: 'o', value: 'FILE.yaml', about: 'where the exercise is written' },
  },
  examples: [
    {
      line: 'practise circuits/light-van.yaml --level 3 --seed 7',
      gives: 'a van with an open contact; type what you do, `help` lists what can be done',
    },
    {
      line: 'practise circuits/light-van.yaml --hide "S1.30-15 open at ON" --pass brass -o monday.yaml',
      gives: 'an exercise file whose fault cannot be read from it, after a check that it can be solved',
    },
    { line: 'practise monday.yaml --pass brass --class class.csv --name Kim', gives: 'that exercise, and a line on the class sheet' },
  ],
  run: async (args, io) => {
    const wrong = wrongNumbers(args);
    if (wrong.length > 0) return sayProblems(wrong, args, io);
    const file = io.readFile(args.positionals[0]!);
    if (!file.ok) return sayProblems(file.problems, args, io);
    if (isExerciseFile(file.value)) return fromFile(file.value, args, io);
    const { circuit, problems, texts } = circuitFile(args.positionals[0]!, io);
    if (sayProblems(problems, args, io, texts) !== 0 || !circuit) return 1;
    if (args.texts('hide').length > 0 || args.text('make') !== undefined) return made(circuit, args, io);
    return onDemand(circuit, args, io);
  },
};

const whole = (args: Args, name: string, otherwise: number): number => Number(args.text(name) ?? otherwise);

function problem(option: string, word: string, code: string, what: string, mend: readonly string[]): Problem {
  return {
    code,
    severity: 'error',
    file: option,
    line: 1,
    column: 1,
    length: Math.max(1, word.length),
    what,
    why: 'there is no exercise to begin without it',
    mend,
  };
}

/** What is said of a number that cannot be, and of a word that is none, by the option. */
const refused = {
  level: [(n: string) => `there is no level ${n}`, 'level'],
  seed: [(n: string) => `${n} is no seed`, 'seed'],
  make: [(n: string) => `${n} exercises cannot be made`, 'number of exercises'],
  number: [(n: string) => `there is no exercise number ${n} in a set`, 'number of an exercise'],
} as const;

function wrongNumbers(args: Args): readonly Problem[] {
  const found = (['level', 'seed', 'make', 'number'] as const).flatMap((name) => {
    const word = args.text(name);
    const most = name === 'level' ? 11 : name === 'make' ? 50 : name === 'number' ? 500 : 2_000_000_000;
    const fits = word === undefined || (/^-?\d{1,10}$/.test(word) && Number(word) <= most && Number(word) >= (name === 'seed' ? -most : 1));
    const [cannotBe, what] = refused[name];
    return fits
      ? []
      : [
          problem(`--${name}`, word, 'number-out-of-range', /^-?\d+$/.test(word) ? cannotBe(word) : `\`${word}\` is no ${what}`, [
            `--${name} is a whole number from ${name === 'seed' ? -most : 1} to ${most}`,
          ]),
        ];
  });
  const tools = args.texts('can').filter((t) => !allTools.some((known) => known === t));
  return [...found, ...tools.map((t) => problem('--can', t, 'unknown-tool', `\`${t}\` is no tool`, [`tools are ${allTools.join(', ')}`]))];
}

async function onDemand(circuit: Circuit, args: Args, io: Io): Promise<Exit> {
  const before = progressGiven(args, io);
  if (!before) return 1;
  const chosen = args.text('level') === undefined && args.text('progress') !== undefined ? nextLevel(before, levelsOf(circuit)) : undefined;
  const level = levelOf(chosen?.level ?? whole(args, 'level', 3))!;
  const seed = whole(args, 'seed', args.text('progress') === undefined ? 1 : before.length + 1);
  if (chosen && !args.json) io.print(`Level ${chosen.level}: ${chosen.because}.\n`);
  if (level.asks !== 'search') {
    const score = await tableDialogue(circuit, level.number === 1 ? 1 : 2, seed, args, io);
    return score === undefined
      ? 0
      : keptResult(args, io, before, { level: level.number, circuit: circuit.title, seed, score }, levelsOf(circuit));
  }
  const predictor = new Predictor(circuit);
  const exercise = makeExercise(circuit, level.number, seed, predictor);
  if (!exercise.ok)
    return sayProblems(
      [problem('--level', String(level.number), 'no-exercise', exercise.why, ['another level, or another circuit'])],
      args,
      io,
    );
  return finished(await dialogue(exercise.value, predictor, args, io), exercise.value, args, io, before);
}

function made(circuit: Circuit, args: Args, io: Io): Exit {
  const output = args.text('output');
  if (output === undefined)
    return sayProblems(
      [problem('--output', '', 'no-output', 'an exercise that is made has to be written somewhere', ['-o exercise.yaml'])],
      args,
      io,
    );
  // The file finds its circuit from where it lies, whatever folder it is opened from.
  const path = relative(dirname(resolve(output)), resolve(args.positionals[0]!));
  const pass = args.text('pass') ?? '';
  const predictor = new Predictor(circuit);
  const seed = whole(args, 'seed', 1);
  const read = args.texts('hide').map((phrase) => readFault(phrase, circuit, '--hide'));
  const faults = read.flatMap((r) => (r.ok ? [r.value] : []));
  if (
    sayProblems(
      [...read.flatMap((r) => r.problems), ...clashes(faults, '--hide')],
      args,
      io,
      new Map(args.texts('hide').map((p) => ['--hide', p])),
    ) !== 0
  )
    return 1;
  const level = levelOf(whole(args, 'level', faults.length > 1 ? 11 : 3))!;
  const tools =
    args.texts('can').length > 0 ? (args.texts('can') as readonly Tool[]) : level.tools.length > 0 ? level.tools : levelOf(3)!.tools;
  const list: Exercise[] = [];
  if (faults.length > 0) {
    const exercise = instructedExercise(circuit, level, seed, faults, tools, predictor);
    if (!exercise.ok)
      return sayProblems(
        [problem('--hide', args.texts('hide')[0]!, 'not-solvable', exercise.why, ['another fault, or more tools with --can'])],
        args,
        io,
      );
    list.push(exercise.value);
  }
  for (let k = 0; k < whole(args, 'make', 0); k++) {
    const exercise = makeExercise(circuit, level.number, seed + k, predictor);
    if (!exercise.ok)
      return sayProblems([problem('--make', '', 'no-exercise', exercise.why, ['another level, or another circuit'])], args, io);
    list.push(exercise.value);
  }
  const set: ExerciseFile = { title: circuit.title, exercises: list.map((e) => writtenExercise(e, path, pass)) };
  if (sayProblems(io.writeFile(output, exerciseFileText(set)).problems, args, io) !== 0) return 1;
  if (args.json)
    printJson(
      {
        written: output,
        exercises: list.map((e) => ({ level: e.level.number, seed: e.seed, complaint: e.complaint.text, ...e.difficulty })),
      },
      io,
    );
  else
    for (const e of list)
      io.print(
        `Level ${e.level.number}: "${e.complaint.text}" Solved by the simulated technician with ${e.difficulty.readings} looks and readings in ${Math.ceil(e.difficulty.minutes)} min; ${e.difficulty.rivals} rivals after the complaint.`,
      );
  if (!args.json)
    io.print(
      `Written: ${output}. The fault is sealed${pass === '' ? '' : '; the pass-word opens it for an apprentice'}. It is a seal, not a safe.`,
    );
  return 0;
}

async function fromFile(text: string, args: Args, io: Io): Promise<Exit> {
  const name = args.positionals[0]!;
  const set = readExerciseFile(text);
  if (!set.ok) return sayProblems([problem(name, '', 'not-an-exercise', set.why, ['take the file as the instructor wrote it'])], args, io);
  const written = set.value.exercises[whole(args, 'number', 1) - 1];
  if (!written)
    return sayProblems(
      [problem('--number', args.text('number') ?? '', 'no-exercise', `the set holds ${set.value.exercises.length}`, ['--number 1'])],
      args,
      io,
    );
  const { circuit, problems, texts } = circuitFile(join(dirname(name), written.circuit), io);
  if (sayProblems(problems, args, io, texts) !== 0 || !circuit) return 1;
  const before = progressGiven(args, io);
  if (!before) return 1;
  const opened = openedExercise(written, circuit, args.text('pass') ?? '');
  if (!opened.ok)
    return sayProblems(
      [problem('--pass', args.text('pass') ?? '', 'sealed', opened.why, ['ask the instructor for the pass-word'])],
      args,
      io,
    );
  const predictor = new Predictor(circuit);
  const { seed } = written;
  const best = solvedBy({ circuit, seed, ...opened.value }, predictor);
  const exercise: Exercise = { circuit, level: levelOf(written.level)!, seed, candidate: -1, ...opened.value, best };
  return finished(await dialogue(exercise, predictor, args, io), exercise, args, io, before);
}

function finished(played: Played | undefined, exercise: Exercise, args: Args, io: Io, before: readonly Result[]): Exit {
  if (!played) return 0;
  const { debrief, sheet } = played;
  const sheetFile = args.text('sheet');
  const classFile = args.text('class');
  const result = { level: exercise.level.number, circuit: exercise.circuit.title, seed: exercise.seed, score: debrief.marks.total };
  // An hour's work: what cannot be written in one place is still written in the others.
  const exits = [
    sheetFile === undefined ? 0 : sayProblems(io.writeFile(sheetFile, sheet).problems, args, io),
    classFile === undefined ? 0 : inClass(classFile, debrief, exercise, args, io),
    keptResult(args, io, before, result, levelsOf(exercise.circuit)),
  ];
  return exits.every((exit) => exit === 0) ? 0 : 1;
}

/** Adds a line to the class sheet. One that is there and cannot be read is never written over. */
function inClass(name: string, debrief: Played['debrief'], exercise: Exercise, args: Args, io: Io): Exit {
  const old = io.readFile(name);
  if (!old.ok && old.problems.some((p) => p.code !== 'file-missing')) return sayProblems(old.problems, args, io);
  const rows = old.ok ? readClassSheet(old.value) : { ok: true as const, rows: [] };
  if (!rows.ok) return sayProblems([problem(name, '', 'not-a-class-sheet', rows.why, ['name another file'])], args, io);
  const row = classRow(args.text('name') ?? 'without a name', exercise, debrief);
  return sayProblems(io.writeFile(name, classSheetText(withLine(rows.rows, row))).problems, args, io);
}

/** Results so far; undefined when the file holds something else. A file that is not there yet is begun. */
function progressGiven(args: Args, io: Io): readonly Result[] | undefined {
  const name = args.text('progress');
  if (name === undefined) return [];
  const file = io.readFile(name);
  if (!file.ok && file.problems.every((p) => p.code === 'file-missing')) return [];
  if (!file.ok) {
    sayProblems(file.problems, args, io);
    return undefined;
  }
  const results = readProgress(file.value);
  if (results) return results;
  sayProblems([problem(name, '', 'not-progress', `${name} holds no results of exercises`, ['name another file'])], args, io);
  return undefined;
}

function keptResult(args: Args, io: Io, before: readonly Result[], result: Result, has: readonly number[]): Exit {
  const name = args.text('progress');
  if (name === undefined) return 0;
  const results = [...before, result];
  if (sayProblems(io.writeFile(name, progressText(results)).problems, args, io) !== 0) return 1;
  const next = nextLevel(results, has);
  if (!args.json) io.print(`\nKept in ${name}. Next: level ${next.level}; ${next.because}.`);
  return 0;
}
