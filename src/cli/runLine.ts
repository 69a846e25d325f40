import { nearNames } from '../circuit/nearNames.ts';
import type { Problem } from '../circuit/problem.ts';
import { problemText } from '../report/problemText.ts';
import { type Exit, printJson } from './command.ts';
import { readArgs, told, typedLine } from './commandLine.ts';
import { allCommands, commandNamed, commandNames } from './commands/index.ts';
import { helpAll, helpOf } from './help.ts';
import type { Io } from './io.ts';
import { version } from './version.ts';

/** Runs one command line; `words` are those after `detent`. */
export async function runLine(words: readonly string[], io: Io): Promise<Exit> {
  const [name, ...rest] = words;
  if (name === undefined || name === '--help' || name === '-h' || (name === 'help' && rest.length === 0)) {
    io.print(helpAll(await allCommands(), io.columns));
    return name === undefined ? 2 : 0;
  }
  if (name === '--version') {
    io.print(`detent ${version()}`);
    return 0;
  }
  const wanted = name === 'help' ? rest[0]! : name;
  const command = await commandNamed(wanted);
  if (!command) {
    const near = nearNames(wanted, commandNames);
    const all = commandNames.map((n) => `\`${n}\``).join(', ');
    const column = typedLine(words.slice(0, words.indexOf(wanted))).length + 2;
    const mend = near.length > 0 ? `commands with a near name: ${near.map((n) => `\`${n}\``).join(', ')}` : `commands: ${all}`;
    return wrongLine([told('unknown-command', { column, length: wanted.length }, `\`${wanted}\` is no command`, [mend])], words, io);
  }
  const args = readArgs(command, name === 'help' ? ['--help'] : rest);
  if (!args.ok) return wrongLine(args.problems, words, io);
  if (args.value.flag('help')) {
    io.print(helpOf(command, io.columns));
    return 0;
  }
  return command.run(args.value, io);
}

function wrongLine(problems: readonly Problem[], words: readonly string[], io: Io): Exit {
  if (words.includes('--json')) printJson({ problems }, io);
  else for (const problem of problems) io.printError(problemText(problem, typedLine(words), { colour: io.colourError }));
  return 2;
}
