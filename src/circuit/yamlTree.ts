import { Composer, type Document, Lexer, Parser, YAMLParseError } from 'yaml';
import { type PlacedFile, placedFile } from './placedFile.ts';
import { placedTree } from './placedTree.ts';
import { yamlFault } from './yamlFault.ts';

/** Largest file read, bytes of UTF-8. */
export const fileLimit_bytes = 1024 * 1024;
/** Deepest nesting read; a circuit needs 6. Deeper ones would exhaust the stack of the parser. */
const depthLimit = 64;
/** Widest indentation read, which bounds block nesting. */
const indentLimit = 256;

/**
 * Parses YAML (or JSON, which is YAML) without looking at what it means. Every problem is told with its place; a fault
 * of the YAML itself ends the reading at the first one, since what the parser finds after it follows from it.
 */
export function yamlTree(text: string, file: string): PlacedFile {
  const none = placedFile(text, file, undefined);
  const { tell, lineOf } = none;
  const top = { start: 0, end: 1 };
  if (isOver(text, fileLimit_bytes)) {
    tell(top, {
      code: 'file-too-large',
      what: 'the file is larger than 1 MiB (1 048 576 bytes)',
      why: 'files over 1 MiB are not read',
      mend: ['split the circuit, or leave out what does not belong to it'],
    });
    return none;
  }
  const parsed = parsedTo(text);
  if ('deep' in parsed) {
    tell(
      { start: parsed.deep, end: parsed.deep + 1 },
      {
        code: 'too-deep',
        what: `this place is nested deeper than ${depthLimit} levels`,
        why: 'no circuit is written that deep, and reading it could exhaust the machine',
        mend: ['look for a bracket that is not closed'],
      },
    );
    return none;
  }
  const { document } = parsed;
  if (!document) return none;
  const fault = document.errors[0];
  if (fault) {
    const { at, ...problem } = yamlFault(fault, text);
    tell(at, problem);
    return none;
  }
  if (document.directives?.yaml.explicit === true)
    tell(
      { start: 0, end: text.indexOf('\n') },
      {
        code: 'yaml-directive',
        what: 'the file begins with a YAML directive',
        why: 'circuit files are read as YAML 1.2 and in no other way',
        mend: ['leave the line out'],
      },
    );
  return { ...none, root: document.contents ? placedTree(document.contents, { text, tell, lineOf }) : undefined };
}

/** Whether the text takes more bytes than the limit in UTF-8. */
function isOver(text: string, limit: number): boolean {
  if (text.length > limit) return true;
  let bytes = text.length;
  for (let k = 0; k < text.length; k++) {
    const unit = text.charCodeAt(k);
    // Halves of a pair: 2 units make 4 bytes; other characters above 0x7ff make 3.
    if (unit >= 0x80) bytes += unit < 0x800 || (unit >= 0xd800 && unit <= 0xdfff) ? 1 : 2;
  }
  return bytes > limit;
}

type Parsed = { readonly document: Document.Parsed | undefined } | { readonly deep: number };

/**
 * What `parseDocument` of the library does, with the depth watched on the stream of tokens: they need no stack, while
 * composing what they build does. So a file nested too deep is refused before anything is composed.
 */
function parsedTo(text: string): Parsed {
  const parser = new Parser();
  const composer = new Composer({ schema: 'failsafe', version: '1.2', uniqueKeys: false, prettyErrors: false, logLevel: 'error' });
  const tokens = [];
  const depth = new Depth();
  for (const lexeme of new Lexer().lex(text)) {
    if (depth.exceeds(lexeme)) return { deep: depth.offset };
    for (const token of parser.next(lexeme)) tokens.push(token);
  }
  for (const token of parser.end()) tokens.push(token);
  const [first, second] = composer.compose(tokens, true, text.length);
  const document = first as Document.Parsed | undefined;
  if (document && second) document.errors.push(new YAMLParseError([second.range[0], second.range[1]], 'MULTIPLE_DOCS', ''));
  return { document };
}

/** Nesting while the tokens of a file go by. */
class Depth {
  offset = 0;
  private flow = 0;
  private onLine = 0;
  private atLineStart = true;
  /** Takes one more token; true when it goes too deep. `offset` then is its place. */
  exceeds(token: string): boolean {
    if (token === '\u0002' || token === '\u0018' || token === '\u001f') return false; // marks of the lexer, not of the text
    if (token === '[' || token === '{') this.flow++;
    else if (token === ']' || token === '}') this.flow = Math.max(0, this.flow - 1);
    // Within brackets a line may hold any number of colons; outside of them each indicator of a line nests.
    else if (token === '-' || token === '?' || token === ':') this.onLine += this.flow === 0 ? 1 : 0;
    else if (token === '\n' || token === '\r\n') this.onLine = 0;
    else if (this.atLineStart && token.length > indentLimit && token.trim() === '') return true;
    if (this.flow > depthLimit || this.onLine > depthLimit) return true;
    this.atLineStart = token === '\n' || token === '\r\n';
    this.offset += token.length;
    return false;
  }
}
