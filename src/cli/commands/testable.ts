import { testability } from '../../diagnose/testable.ts';
import { testableText } from '../../report/testableText.ts';
import { circuitFile } from '../circuitFile.ts';
import { type Command, printJson, sayProblems } from '../command.ts';

/** Minutes within which a place counts as reached, unless told. */
const usual_min = 15;

export const testable: Command = {
  name: 'testable',
  usage: 'testable FILE [--within MINUTES] [--all]',
  about: 'Which faults can be told apart with which access, and which never, with the reason',
  takes: { least: 1, most: 1 },
  options: {
    within: { type: 'string', value: 'MINUTES', about: `places that take longer to reach are out of reach; ${usual_min} unless told` },
    all: { type: 'boolean', about: 'names every fault that stays together with others, not only the first ones' },
  },
  examples: [
    {
      line: 'testable circuits/bench-board.yaml',
      gives: 'how many faults looking and a meter tell apart, and the groups that stay together',
    },
    { line: 'testable circuits/light-van.yaml --within 4', gives: 'the same with the easy places only, and the test points worth adding' },
  ],
  run: (args, io) => {
    const { circuit, problems, texts } = circuitFile(args.positionals[0]!, io);
    if (sayProblems(problems, args, io, texts) !== 0 || !circuit) return 1;
    const text = args.text('within') ?? String(usual_min);
    const within = Number(text.replace(/\s*min(utes)?$/, ''));
    if (!Number.isFinite(within) || within < 0) {
      const problem = {
        code: 'unknown-minutes',
        severity: 'error' as const,
        file: '--within',
        line: 1,
        column: 1,
        length: Math.max(1, text.length),
        what: `\`${text}\` is no number of minutes`,
        why: 'it decides which places a meter can reach',
        mend: ['--within 15'],
      };
      return sayProblems([problem], args, io);
    }
    const found = testability(circuit, within);
    if (args.json) printJson({ within, ...found }, io);
    else io.print(testableText(circuit.title, within, found, io.columns, args.flag('all')));
    return 0;
  },
};
