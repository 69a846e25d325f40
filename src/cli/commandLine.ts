import { type ParseArgsConfig, parseArgs } from 'node:util';
import { nearNames } from '../circuit/nearNames.ts';
import type { Problem, Read } from '../circuit/problem.ts';
import type { Args, Command, Option } from './command.ts';

const everywhere: Readonly<Record<string, Option>> = {
  json: { type: 'boolean', about: 'answer as JSON' },
  help: { type: 'boolean', short: 'h', about: 'this page' },
};

export function optionsOf(command: Command): Readonly<Record<string, Option>> {
  return { ...command.options, ...everywhere };
}

/** Reads what was typed after the command's name. Every fault of it is told, at its place in the typed line. */
export function readArgs(command: Command, typed: readonly string[]): Read<Args> {
  const options = optionsOf(command);
  const config: ParseArgsConfig['options'] = {};
  for (const [name, o] of Object.entries(options)) config[name] = { type: o.type, multiple: true, ...(o.short ? { short: o.short } : {}) };
  const { tokens } = parseArgs({ args: [...typed], options: config, strict: false, allowPositionals: true, tokens: true });
  const problems: Problem[] = [];
  const place = (index: number) => placeIn(command.name, typed, index);
  const values = new Map<string, (string | true)[]>();
  const positionals: string[] = [];
  for (const token of tokens) {
    if (token.kind === 'positional') positionals.push(token.value);
    if (token.kind !== 'option') continue;
    const option = Object.hasOwn(options, token.name) ? options[token.name] : undefined;
    if (!option) {
      const near = nearNames(token.name, Object.keys(options));
      problems.push(
        told('unknown-option', place(token.index), `\`${token.rawName}\` is no option of \`${command.name}\``, [
          near.length > 0
            ? `options with a near name: ${near.map((n) => `\`--${n}\``).join(', ')}`
            : `options: ${Object.keys(options)
                .map((n) => `\`--${n}\``)
                .join(', ')}`,
        ]),
      );
    } else if (option.type === 'string' && token.value === undefined) {
      problems.push(
        told('option-without-value', place(token.index), `nothing stands after \`${token.rawName}\``, [
          `write \`${token.rawName} ${option.value ?? 'TEXT'}\``,
        ]),
      );
    } else if (option.type === 'boolean' && token.value !== undefined) {
      problems.push(
        told('option-with-value', place(token.index), `\`${token.rawName}\` takes no value`, [`write \`${token.rawName}\` alone`]),
      );
    } else {
      const given = values.get(token.name) ?? [];
      if (given.length > 0 && option.type === 'string' && !option.multiple)
        problems.push(told('option-twice', place(token.index), `\`${token.rawName}\` is given twice`, ['leave one of them out']));
      values.set(token.name, [...given, token.value ?? true]);
    }
  }
  const { least, most } = command.takes;
  const isHelp = values.has('help');
  if (positionals.length < least && !isHelp)
    problems.push(
      told(
        'argument-missing',
        placeIn(command.name, typed, typed.length),
        `\`${command.name}\` wants ${least === 1 ? 'one more word' : `${least} words`} after it`,
        [`usage: detent ${command.usage}`],
      ),
    );
  if (most !== undefined && positionals.length > most) {
    const extra = tokens.filter((t) => t.kind === 'positional')[most];
    problems.push(
      told('argument-too-many', place(extra?.index ?? 0), `\`${positionals[most]}\` is one word too many`, [
        `usage: detent ${command.usage}`,
        'a phrase of several words stands in quotes',
      ]),
    );
  }
  if (problems.length > 0) return { ok: false, problems };
  const texts = (name: string) => (values.get(name) ?? []).filter((v) => v !== true);
  const args: Args = { positionals, texts, text: (name) => texts(name).at(-1), flag: (name) => values.has(name), json: values.has('json') };
  return { ok: true, value: args, problems: [] };
}

/** The whole line as it is shown above a caret. */
export function typedLine(words: readonly string[]): string {
  return ['detent', ...words.map((w) => (/[\s"]/.test(w) ? `"${w}"` : w))].join(' ');
}

function placeIn(name: string, typed: readonly string[], index: number): { column: number; length: number } {
  const before = typedLine([name, ...typed.slice(0, index)]);
  return { column: before.length + 2, length: typedLine([typed[index] ?? '']).length - 'detent '.length };
}

/** A fault of the command line, as a problem. */
export function told(code: string, at: { column: number; length: number }, what: string, mend: readonly string[]): Problem {
  return {
    code,
    severity: 'error',
    file: 'command line',
    line: 1,
    column: at.column,
    length: Math.max(1, at.length),
    what,
    why: 'nothing was computed',
    mend,
  };
}
