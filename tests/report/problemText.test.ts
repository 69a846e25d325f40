import { expect, test } from 'vitest';
import type { Problem } from '../../src/circuit/problem.ts';
import { problemCount, problemText } from '../../src/report/problemText.ts';

const problem: Problem = {
  code: 'unknown-terminal',
  severity: 'error',
  file: 'circuits/indicators.yaml',
  line: 2,
  column: 11,
  length: 6,
  what: 'wire W9 starts at `K5.87x`, which relay K5 does not have',
  why: 'with its feed unknown, no reading can prove or clear lamp H3',
  mend: ['terminals with a near name: `K5.87`, `K5.87a`', 'or take another relay'],
};
const source = 'wires:\n- { from: K5.87x, to: H3.1, area: 1 mm² }\n';

test('place, fact, line with a caret, why, every mend on a line of its own', () => {
  expect(problemText(problem, source)).toBe(`circuits/indicators.yaml:2:11  unknown-terminal
  wire W9 starts at \`K5.87x\`, which relay K5 does not have
  2 | - { from: K5.87x, to: H3.1, area: 1 mm² }
    |           ^^^^^^
  why   with its feed unknown, no reading can prove or clear lamp H3
  mend  terminals with a near name: \`K5.87\`, \`K5.87a\`
  mend  or take another relay`);
});

test('without the source there is no line; a warning says so by word', () => {
  const text = problemText({ ...problem, severity: 'warning' });
  expect(text.split('\n')[0]).toBe('circuits/indicators.yaml:2:11  unknown-terminal  (warning)');
  expect(text).not.toContain('|');
});

test('colour adds signs and takes no word away', () => {
  const plain = problemText(problem, source);
  const coloured = problemText(problem, source, { colour: true });
  expect(coloured).toContain('\u001b[1;31m');
  // biome-ignore lint/suspicious/noControlCharactersInRegex: the colour that is taken out again
  expect(coloured.replace(/\u001b\[[0-9;]*m/g, '')).toBe(plain);
});

test('the caret stands under its place when tabs or a long line come before', () => {
  const tabbed = problemText({ ...problem, line: 1, column: 3, length: 2 }, '\t\tF1 x');
  expect(tabbed).toContain('  1 |   F1 x\n    |   ^^\n');
  const long = `${'x'.repeat(300)}HERE${'y'.repeat(300)}`;
  const [, , line = '', caret = ''] = problemText({ ...problem, line: 1, column: 301, length: 4 }, long).split('\n');
  expect(line.slice(caret.indexOf('^'), caret.lastIndexOf('^') + 1)).toBe('HERE');
  expect(line.length).toBeLessThan(120);
});

test('what a file holds cannot drive the terminal', () => {
  const text = problemText({ ...problem, what: 'a\u001b[2Jb', file: 'x\u0007' }, 'w\n\u001b[31m\u202e red');
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these must not come through
  expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u202e]/);
});

test('counts in words', () => {
  const warning: Problem = { ...problem, severity: 'warning' };
  expect([problemCount([]), problemCount([problem]), problemCount([problem, problem, warning]), problemCount([warning])]).toEqual([
    'no problems',
    '1 problem',
    '2 problems, 1 warning',
    '1 warning',
  ]);
});
