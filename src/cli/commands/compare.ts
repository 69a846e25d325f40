import { differences } from '../../report/circuitEdit/difference.ts';
import { visible } from '../../report/problemText.ts';
import { circuitFile } from '../circuitFile.ts';
import { type Command, printJson, sayProblems } from '../command.ts';

export const compare: Command = {
  name: 'compare',
  usage: 'compare THERE HERE',
  about: 'What two circuits have otherwise, in words',
  takes: { least: 2, most: 2 },
  examples: [
    {
      line: 'compare circuits/saloon.yaml mine.yaml',
      gives: '`wire W7 is 0.75 mm² there, 1.5 mm² here` and the like, or `nothing differs`',
    },
    { line: 'compare before.yaml after.yaml --json', gives: 'the same as data' },
  ],
  run: (args, io) => {
    const [there, here] = [0, 1].map((k) => circuitFile(args.positionals[k]!, io)) as [
      ReturnType<typeof circuitFile>,
      ReturnType<typeof circuitFile>,
    ];
    if (!there.circuit || !here.circuit)
      return sayProblems([...there.problems, ...here.problems], args, io, new Map([...there.texts, ...here.texts]));
    const found = differences(there.circuit, here.circuit);
    if (args.json) printJson({ there: args.positionals[0], here: args.positionals[1], differences: found }, io);
    else {
      io.print(`there: ${visible(args.positionals[0]!)}, here: ${visible(args.positionals[1]!)}`);
      for (const { text } of found) io.print(`  ${visible(text)}`);
      io.print(found.length === 0 ? 'nothing differs' : `${found.length} ${found.length === 1 ? 'difference' : 'differences'}`);
    }
    return 0;
  },
};
