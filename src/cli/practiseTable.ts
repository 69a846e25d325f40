import type { Circuit } from '../circuit/circuit.ts';
import { tableExercise, tableScore } from '../practice/table.ts';
import { type Args, printJson } from './command.ts';
import type { Io } from './io.ts';

/** Levels 1 and 2 in a terminal: ten cells of the table, answered one by one. @returns the score, or undefined when the input ended before */
export async function tableDialogue(circuit: Circuit, level: 1 | 2, seed: number, args: Args, io: Io): Promise<number | undefined> {
  const exercise = tableExercise(circuit, level, seed);
  const { questions, given } = exercise;
  const say = (text: string) => {
    if (!args.json) io.print(text);
  };
  say(`Level ${level}. ${circuit.title}.`);
  say(
    level === 1
      ? 'The vehicle is healthy. Each question asks: would this load work there if it were switched on?'
      : `This fault is in: ${given.map((f) => `${f.phrase} (${f.mode.text})`).join('; ')}. What follows from it?`,
  );
  const answers: string[] = [];
  const ask = () => {
    const q = questions[answers.length];
    if (q) say(`${answers.length + 1}. ${q.name} (${q.load}) in ${q.position}: ${q.choices.join(', ')}?`);
  };
  ask();
  for await (const line of io.lines()) {
    const word = line.trim().toLowerCase();
    const q = questions[answers.length];
    if (word === 'quit' || !q) break;
    const choice = word === '' ? undefined : q.choices.find((c) => c.startsWith(word));
    if (!choice) say(`Answer with one of: ${q.choices.join(', ')}.`);
    else {
      answers.push(choice);
      say(choice === q.answer ? '   Right.' : `   No: ${q.answer}.`);
    }
    if (answers.length === questions.length) break;
    ask();
  }
  if (answers.length < questions.length) return undefined;
  const score = tableScore(exercise, answers);
  if (args.json)
    printJson(
      {
        level,
        seed,
        score,
        questions: questions.map(({ load, position, answer }, k) => ({ load, position, answer, answered: answers[k] })),
      },
      io,
    );
  else io.print(`\n${Math.round((score * questions.length) / 100)} of ${questions.length}: ${score} of 100.`);
  return score;
}
