import { expect, test } from 'vitest';
import { parseDocument } from 'yaml';
import { yamlFault } from '../../src/circuit/yamlFault.ts';

/** The first fault that the YAML library finds, with its own code, as a person is told of it. */
function toldOf(text: string) {
  const document = parseDocument(text, { schema: 'failsafe', version: '1.2', uniqueKeys: false, prettyErrors: false, logLevel: 'error' });
  const fault = document.errors[0];
  if (!fault) throw new Error(`${text} is sound YAML`);
  const { at, ...told } = yamlFault(fault, text);
  return { at, ...told };
}

const quotes = "put the text in quotes: '…'";
test.each([
  ['a:\n\t- b', 'TAB_AS_INDENT', 'a tab stands where spaces indent the line', 'indent with spaces'],
  [
    'a: b: c',
    'BLOCK_AS_IMPLICIT_KEY',
    'two keys stand on one line, or a text holds a colon and a space',
    `write each key on a line of its own, or ${quotes}`,
  ],
  [
    'a: [\n  - b\n]',
    'BLOCK_IN_FLOW',
    'lines with dashes or indentation stand inside brackets',
    'inside `[ ]` and `{ }` entries are parted by commas',
  ],
  ['a\nb: c', 'MULTILINE_IMPLICIT_KEY', 'no colon follows this name', 'a key is one line, followed by a colon and a space'],
  [
    'a: *x y',
    'UNEXPECTED_TOKEN',
    'what stands here fits neither a list nor a map',
    'look for a bracket, a comma or a quote too many just before',
  ],
  ['a: @x', 'BAD_SCALAR_START', 'a text cannot begin with this sign', quotes],
  [
    'a: "\\q"',
    'BAD_DQ_ESCAPE',
    'in double quotes a backslash begins a special sign, and this one does not exist',
    "use single quotes: '…'",
  ],
  ['a: 1\n---\nb: 2', 'MULTIPLE_DOCS', 'a second document begins here (`---`)', 'one file holds one circuit: split the file'],
  ['a: &x &y 1', 'MULTIPLE_ANCHORS', 'two anchors stand on one place', 'leave anchors out'],
  ['a: !!str !!int 1', 'MULTIPLE_TAGS', 'two tags stand on one place', 'leave tags out'],
  ['a: *', 'BAD_ALIAS', 'an alias stands here', 'write the text out in full'],
  [`${'a'.repeat(1030)}: b`, 'KEY_OVER_1024_CHARS', 'this key is longer than 1024 characters', 'look for a colon that is missing before'],
  ['%YAML 3\n---\na', 'BAD_DIRECTIVE', 'a line that begins with `%` is a directive of YAML', 'leave the line out'],
  ["a: 'x", 'MISSING_CHAR', 'this quote is opened and never closed', 'quotes come in pairs'],
  ['a: "x\nb: c', 'MISSING_CHAR', 'this quote is opened and never closed', 'quotes come in pairs'],
  ['a: {b: c', 'BAD_INDENT', 'the bracket `{` before this place is not closed', 'close it with `}`'],
  ['a: [b', 'BAD_INDENT', 'the bracket `[` before this place is not closed', 'close it with `]`'],
  ['{a: b\n', 'MISSING_CHAR', 'the bracket `{` before this place is not closed', 'close it with `}`'],
  [
    'a:\n  b: 1\n c: 2',
    'BAD_INDENT',
    'this line does not begin in the column of the lines that it belongs to',
    'lines of one list or map begin in the same column',
  ],
  ['a: &x *y', 'ALIAS_PROPS', 'the file stops being YAML here', 'look for an indentation, a quote or a bracket just before'],
  ['&x - a', 'MISSING_CHAR', 'the file stops being YAML here', 'look for an indentation, a quote or a bracket just before'],
])('%j (%s): %s | %s', (text, code, what, mend) => {
  const told = toldOf(text);
  expect(told).toMatchObject({ code: 'not-yaml', what, why: 'the file cannot be read beyond this place', mend: [mend] });
  expect(parseDocument(text, { prettyErrors: false, logLevel: 'error', schema: 'failsafe' }).errors[0]!.code).toBe(code);
  // There is always something to point at.
  expect(told.at.end).toBeGreaterThan(told.at.start);
});

test('an open quote is told where it opens, a line out of its column where its text begins', () => {
  expect(toldOf("a: 'x' \nb: 'open\nc: d").at).toEqual({ start: 11, end: 12 });
  expect(toldOf('a: "one"\nb: "two').at).toEqual({ start: 12, end: 13 });
  expect(toldOf('a:\n  b: 1\n c: 2').at).toEqual({ start: 11, end: 12 });
  expect(toldOf('a: @x').at).toEqual({ start: 3, end: 4 });
});
