import { describe, expect, test } from 'vitest';
import { allCommands, commandNames } from '../../src/cli/commands/index.ts';
import { runLine } from '../../src/cli/runLine.ts';
import { fakeIo } from './fakeIo.ts';

const commands = await allCommands();

async function ran(...words: string[]) {
  const said = fakeIo();
  const exit = await runLine(words, said.io);
  return { exit, out: said.out(), err: said.err() };
}
const widest = (text: string) => Math.max(...text.split('\n').map((line) => [...line].length));

test('a command is called as it is listed', () => {
  expect(commands.map((c) => c.name)).toEqual(commandNames);
});

describe('help', () => {
  test('detent alone shows every command and counts as a wrong line; --help and help are done', async () => {
    const alone = await ran();
    expect(alone.exit).toBe(2);
    for (const c of commands) expect(alone.out).toContain(c.name);
    expect(await ran('--help')).toEqual({ ...alone, exit: 0 });
    expect(await ran('help')).toEqual({ ...alone, exit: 0 });
    expect(widest(alone.out)).toBeLessThanOrEqual(80);
  });
  test.each(commands.map((c) => c.name))(
    '%s --help: usage, options, two worked lines that begin with the command, 80 columns',
    async (name) => {
      const { exit, out } = await ran(name, '--help');
      const command = commands.find((c) => c.name === name)!;
      expect(exit).toBe(0);
      expect(out.replaceAll('\n', ' ')).toContain(`detent ${command.usage}`);
      expect(out).toContain('--json');
      for (const option of Object.keys(command.options ?? {})) expect(out).toContain(`--${option}`);
      expect(command.examples.length).toBeGreaterThanOrEqual(2);
      for (const e of command.examples) {
        expect(out).toContain(`  detent ${e.line}`);
        expect(e.line.split(' ')[0]).toBe(name);
      }
      const folded = out.split('\n').filter((line) => !line.startsWith('  detent '));
      expect(widest(folded.join('\n'))).toBeLessThanOrEqual(80);
      expect((await ran('help', name)).out).toBe(out);
      expect((await ran(name, '-h')).out).toBe(out);
    },
  );
  test('--version', async () => {
    expect(await ran('--version')).toMatchObject({ exit: 0, out: expect.stringMatching(/^detent \d+\.\d+\.\d+$/) });
  });
});

describe('a wrong command line: exit 2, told at its place', () => {
  test('unknown command with a near one', async () => {
    const { exit, err } = await ran('chek', 'x.yaml');
    expect(exit).toBe(2);
    expect(err).toBe(
      [
        'command line:1:8  unknown-command',
        '  `chek` is no command',
        '  1 | detent chek x.yaml',
        '    |        ^^^^',
        '  why   nothing was computed',
        '  mend  commands with a near name: `check`',
      ].join('\n'),
    );
  });
  test('unknown command far from all lists them', async () => {
    expect((await ran('frobnicate')).err).toContain('mend  commands: `parts`, `check`');
  });
  test('unknown option, at its place, with near ones', async () => {
    const { exit, err } = await ran('check', 'a b.yaml', '--jsno');
    expect(exit).toBe(2);
    expect(err).toContain('`--jsno` is no option of `check`');
    expect(err).toContain('options with a near name: `--json`');
    const [line = '', caret = ''] = err.split('\n').slice(2, 4);
    expect(line.slice(caret.indexOf('^'), caret.lastIndexOf('^') + 1)).toBe('--jsno');
  });
  test('value missing, value too much, option twice, words missing, words too many', async () => {
    expect((await ran('open', '--port')).err).toContain('nothing stands after `--port`');
    expect((await ran('check', 'x', '--json=yes')).err).toContain('`--json` takes no value');
    expect((await ran('open', '--port', '1', '--port', '2')).err).toContain('`--port` is given twice');
    expect((await ran('check')).err).toContain('usage: detent check FILE…');
    const many = await ran('parts', 'lamp', 'fuse');
    expect(many.err).toContain('`fuse` is one word too many');
    for (const words of [['open', '--port'], ['check'], ['parts', 'lamp', 'fuse']]) expect((await ran(...words)).exit).toBe(2);
  });
  test('--json tells it as data', async () => {
    const { exit, out, err } = await ran('check', '--wat', '--json');
    expect(exit).toBe(2);
    expect(err).toBe('');
    const { problems } = JSON.parse(out) as { problems: { code: string; severity: string; mend: string[] }[] };
    expect(problems.map((p) => p.code)).toEqual(['unknown-option', 'argument-missing']);
    expect(problems[0]).toMatchObject({ severity: 'error', file: 'command line', line: 1, column: 14 });
  });
  test('names that every object carries are no commands, options or kinds', async () => {
    for (const words of [['constructor'], ['__proto__'], ['check', 'x', '--constructor'], ['check', 'x', '--__proto__']])
      expect((await ran(...words)).exit).toBe(2);
    expect((await ran('parts', 'constructor')).exit).toBe(1);
  });
});
