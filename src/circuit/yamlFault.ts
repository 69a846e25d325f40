import { Lexer, type YAMLParseError } from 'yaml';
import type { Span, Tell } from './placed.ts';

type Said = { readonly what: string; readonly mend: string };
const quotes = "put the text in quotes: '…'";
const said: Partial<Record<YAMLParseError['code'], Said>> = {
  TAB_AS_INDENT: { what: 'a tab stands where spaces indent the line', mend: 'indent with spaces' },
  BLOCK_AS_IMPLICIT_KEY: {
    what: 'two keys stand on one line, or a text holds a colon and a space',
    mend: "write each key on a line of its own, or put the text in quotes: '…'",
  },
  BLOCK_IN_FLOW: {
    what: 'lines with dashes or indentation stand inside brackets',
    mend: 'inside `[ ]` and `{ }` entries are parted by commas',
  },
  MULTILINE_IMPLICIT_KEY: { what: 'no colon follows this name', mend: 'a key is one line, followed by a colon and a space' },
  UNEXPECTED_TOKEN: {
    what: 'what stands here fits neither a list nor a map',
    mend: 'look for a bracket, a comma or a quote too many just before',
  },
  BAD_SCALAR_START: { what: 'a text cannot begin with this sign', mend: quotes },
  BAD_DQ_ESCAPE: {
    what: 'in double quotes a backslash begins a special sign, and this one does not exist',
    mend: "use single quotes: '…'",
  },
  MULTIPLE_DOCS: { what: 'a second document begins here (`---`)', mend: 'one file holds one circuit: split the file' },
  MULTIPLE_ANCHORS: { what: 'two anchors stand on one place', mend: 'leave anchors out' },
  MULTIPLE_TAGS: { what: 'two tags stand on one place', mend: 'leave tags out' },
  BAD_ALIAS: { what: 'an alias stands here', mend: 'write the text out in full' },
  BAD_PROP_ORDER: { what: 'an anchor or a tag stands here', mend: 'leave anchors and tags out' },
  KEY_OVER_1024_CHARS: { what: 'this key is longer than 1024 characters', mend: 'look for a colon that is missing before' },
  BAD_DIRECTIVE: { what: 'a line that begins with `%` is a directive of YAML', mend: 'leave the line out' },
};
const otherwise: Said = { what: 'the file stops being YAML here', mend: 'look for an indentation, a quote or a bracket just before' };

/** A fault of the YAML in words, at the place where a person would mend it. */
export function yamlFault(fault: YAMLParseError, text: string): Parameters<Tell>[1] & { readonly at: Span } {
  const at = { start: fault.pos[0], end: Math.max(fault.pos[1], fault.pos[0] + 1) };
  const { message } = fault;
  const told = (what: string, mend: string, where: Span = at) => ({
    at: where,
    code: 'not-yaml',
    what,
    why: 'the file cannot be read beyond this place',
    mend: [mend],
  });
  if (fault.code === 'MISSING_CHAR' && message.includes('quote')) {
    const open = openQuote(text);
    return told('this quote is opened and never closed', 'quotes come in pairs', open ?? at);
  }
  const bracket = /[Ff]low (map|sequence)/.exec(message)?.[1];
  if (bracket !== undefined && (fault.code === 'BAD_INDENT' || fault.code === 'MISSING_CHAR')) {
    const [open, close] = bracket === 'map' ? ['{', '}'] : ['[', ']'];
    return told(`the bracket \`${open}\` before this place is not closed`, `close it with \`${close}\``);
  }
  if (fault.code === 'BAD_INDENT') {
    const lead = /^[ \t]*/.exec(text.slice(at.start))?.[0].length ?? 0;
    const from = at.start + lead;
    return told(
      'this line does not begin in the column of the lines that it belongs to',
      'lines of one list or map begin in the same column',
      { start: from, end: from + 1 },
    );
  }
  const { what, mend } = said[fault.code] ?? otherwise;
  return told(what, mend);
}

/** The last quote that no other one closes. */
function openQuote(text: string): Span | undefined {
  let offset = 0;
  let found: Span | undefined;
  for (const token of new Lexer().lex(text)) {
    if (token === '\u0002' || token === '\u0018' || token === '\u001f') continue;
    const mark = token[0];
    if ((mark === '"' || mark === "'") && (token.length === 1 || !token.endsWith(mark))) found = { start: offset, end: offset + 1 };
    offset += token.length;
  }
  return found;
}
