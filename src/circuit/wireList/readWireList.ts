import { type Writable, yamlFlow, yamlText } from '../edit/written.ts';
import { hiddenCharacters } from '../hiddenCharacters.ts';
import { checkId } from '../ids.ts';
import type { PartKind } from '../part.ts';
import type { Problem } from '../problem.ts';
import { saidShort } from '../quotedShort.ts';
import { fileLimit_bytes } from '../yamlTree.ts';
import { boxesFor, type UsedTerminals } from './boxes.ts';
import { colourCode, isColourCode } from './colours.ts';
import { noEnds, notFound } from './columnsTold.ts';
import type { Cell, Row, Separator } from './csv.ts';
import { type EndRead, endRead, idOf } from './ends.ts';
import type { WireField } from './headerWords.ts';
import { cellQuantity } from './quantities.ts';
import { type ByHand, type Column, type Tables, tablesOf } from './tables.ts';

export type WireListRead = {
  /** A circuit file; absent when not even the ends of the wires were found. */
  readonly yaml?: string;
  /** Errors are rows that could not be taken; warnings are rows taken with something left out or assumed. */
  readonly problems: readonly Problem[];
  readonly wires: number;
  readonly leftOut: number;
  readonly separator: Separator;
  readonly decimal: '.' | ',';
  readonly columns: readonly { readonly field: WireField | 'other'; readonly head: string }[];
};

/** Most problems of one sort told one by one; what goes beyond is told as a number. */
const tellsEach = 60;

/**
 * A circuit file from a wire list. Nothing is dropped in silence: a row that is no wire is told with its line and kept as
 * a comment; what a wire's row says and cannot be taken is told.
 *
 * @param text  the file's text, see `textOfBytes`
 * @param title title of the circuit when the list has none
 * @param kinds the kinds of parts known, of which one is the wire
 * @param byHand columns given by hand
 */
export function readWireList(text: string, file: string, title: string, kinds: readonly PartKind[], byHand: ByHand = {}): WireListRead {
  const problems: Problem[] = [];
  const counts = new Map<string, number>();
  const tell = (at: Cell | Row, problem: Omit<Problem, 'file' | 'line' | 'column' | 'length'>) => {
    const count = (counts.get(problem.code) ?? 0) + 1;
    counts.set(problem.code, count);
    if (count > tellsEach && problem.severity === 'warning') return;
    const cell = 'cells' in at ? (at.cells.find((c) => c.text !== '') ?? at.cells[0]) : at;
    problems.push({ file, line: cell?.line ?? 1, column: cell?.column ?? 1, length: cell?.length ?? 1, ...saidShort(problem) });
  };
  const start: Cell = { text: '', line: 1, column: 1, length: 1 };
  if (text.length > fileLimit_bytes) {
    tell(start, {
      code: 'file-too-large',
      severity: 'error',
      what: 'the list is larger than 1 MiB (1 048 576 bytes)',
      why: 'files over 1 MiB are not read',
      mend: ['split the list'],
    });
    return { problems, wires: 0, leftOut: 0, separator: ',', decimal: '.', columns: [] };
  }
  const tables = tablesOf(text.replace(/^\uFEFF/, ''), byHand);
  const { columns, separator, decimal } = tables;
  const sum = { separator, decimal, columns: columns.map(({ field, head }) => ({ field, head })) };
  for (const absent of tables.absent) tell(start, notFound(absent, tables));
  const missing = (['from', 'to'] as const).filter((field) => !columns.some((c) => c.field === field));
  if (missing.length > 0) {
    tell(tables.wires[0] ?? start, noEnds(missing, tables));
    return { problems, wires: 0, leftOut: tables.wires.length, ...sum };
  }
  for (const row of tables.before)
    tell(row, {
      code: 'row-before-head',
      severity: 'warning',
      what: 'this row stands above the head of the table and was not taken',
      why: 'what it says is not in the circuit',
      mend: ['a heading needs nothing; a wire belongs below the head'],
    });
  const list = new List(tables, kinds, tell);
  const yaml = list.yaml(title);
  for (const [code, count] of counts)
    if (count > tellsEach && problems.some((p) => p.code === code && p.severity === 'warning'))
      tell(start, {
        code: 'more-of-the-same',
        severity: 'warning',
        what: `${count - tellsEach} more places have the problem \`${code}\``,
        why: 'the list would be too long to read',
        mend: ['mend those that are shown first'],
      });
  problems.sort((a, b) => a.line - b.line || a.column - b.column);
  return { yaml, problems, wires: list.wires.length, leftOut: list.leftOut.length, ...sum };
}

type Tell = (at: Cell | Row, problem: Omit<Problem, 'file' | 'line' | 'column' | 'length'>) => void;
const blank: Cell = { text: '', line: 1, column: 1, length: 1 };

/** A comment ends with its line, and hides nothing. */
const unfit = new RegExp(`[\\t\\n\\u2028\\u2029\\ufeff${hiddenCharacters}]+`, 'g');

/** One list while it is read. */
class List {
  readonly wires: string[] = [];
  readonly leftOut: string[] = [];
  private readonly tables: Tables;
  private readonly kinds: readonly PartKind[];
  private readonly tell: Tell;
  private readonly known: Map<string, string>;
  private readonly used: UsedTerminals = new Map();
  private readonly wireIds = new Set<string>();
  private readonly colours = new Set<string>();
  constructor(tables: Tables, kinds: readonly PartKind[], tell: Tell) {
    this.tables = tables;
    this.kinds = kinds;
    this.tell = tell;
    this.known = this.partsGiven();
    this.tellColumns();
    for (const row of tables.wires) this.wire(row);
  }

  yaml(title: string): string {
    const head = this.circuitGiven();
    const boxes = boxesFor(this.used, this.known, this.kinds, this.tell);
    const parts = [...[...this.known].map(([id, held]) => `  ${yamlText(id)}: ${held}`), ...boxes];
    return [
      ...(head.has('title') ? [] : [`title: ${yamlText(title)}`]),
      ...[...head].filter(([key]) => key !== 'engine').map(([key, held]) => `${yamlText(key)}: ${held}`),
      parts.length === 0 ? 'parts: {}' : 'parts:',
      ...parts,
      this.wires.length === 0 ? 'wires: []' : 'wires:',
      ...this.wires.map((w) => `  - ${w}`),
      ...this.leftOut.map((line) => `  # not taken from the list: ${line}`),
      ...(head.has('engine') ? [`engine: ${head.get('engine')}`] : []),
      '',
    ].join('\n');
  }

  /** The table of parts that an exported list carries. */
  private partsGiven(): Map<string, string> {
    const known = new Map<string, string>();
    for (const row of this.tables.parts) {
      const [id, kind, name, place, parameters] = [0, 1, 2, 3, 4].map((k) => row.cells[k]?.text ?? '') as [
        string,
        string,
        string,
        string,
        string,
      ];
      const sound = checkId(id, { start: 0, end: 0 }, (_, { code, what, why, mend }) =>
        this.leave(row, { code, severity: 'error', what, why, mend }),
      );
      if (!sound) continue;
      if (known.has(id) || kind === '') {
        this.leave(row, {
          code: known.has(id) ? 'duplicate-id' : 'missing-key',
          severity: 'error',
          what: known.has(id) ? `part \`${id}\` stands in the list for the second time` : `part \`${id}\` has no kind`,
          why: 'this row was not taken',
          mend: [known.has(id) ? 'choose another id' : '`detent parts` lists every kind'],
        });
        continue;
      }
      const common = { kind, ...(name !== '' && { name }), ...(place !== '' && { place }) };
      const inside = yamlFlow(common).slice(1, -1).trim();
      known.set(id, `{ ${inside}${parameters === '' ? '' : `, ${parameters.replace(/[\r\n]+/g, ' ')}`} }`);
    }
    return known;
  }

  private circuitGiven(): Map<string, string> {
    const head = new Map<string, string>();
    for (const row of this.tables.circuit) {
      const [key, held] = [row.cells[0]?.text ?? '', row.cells[1]?.text ?? ''];
      if (key === '' || head.has(key)) {
        this.leave(row, {
          code: 'row-not-taken',
          severity: 'error',
          what: 'this row says nothing that the circuit does not have yet',
          why: 'it was not taken',
          mend: ['leave it out'],
        });
        continue;
      }
      const isFlow = (key === 'cautions' && held.startsWith('[')) || (key === 'engine' && held.startsWith('{'));
      head.set(key, isFlow ? held.replace(/[\r\n]+/g, ' ') : yamlText(held));
    }
    return head;
  }

  private tellColumns(): void {
    const wire = this.kinds.find((k) => k.isWire === true);
    for (const { field, head, at } of this.tables.columns) {
      if (field !== 'other' || this.isWireKey(head)) continue;
      const filled = this.tables.wires.filter((r) => (r.cells[at]?.text ?? '') !== '');
      if (filled.length === 0) continue;
      this.tell(this.tables.head?.cells[at] ?? blank, {
        code: 'column-not-taken',
        severity: 'warning',
        what: `the column \`${head}\` was not taken; ${filled.length} of its cells hold something`,
        why: 'what it says is not in the circuit',
        mend: [
          `head it with a word that is known, such as ${(['from', 'to', 'colour', 'area', 'length', 'note'] as const).map((f) => `\`${f}\``).join(', ')}`,
          `or name it by hand: \`--column note="${head}"\``,
          ...(wire
            ? [
                `or with a key of a wire: ${Object.keys(wire.parameters)
                  .map((k) => `\`${k}\``)
                  .join(', ')}`,
              ]
            : []),
        ],
      });
    }
  }

  private isWireKey(head: string): boolean {
    const wire = this.kinds.find((k) => k.isWire === true);
    return ['name', 'place', 'load', 'minutes', 'with'].includes(head) || (wire !== undefined && Object.hasOwn(wire.parameters, head));
  }

  private leave(row: Row, problem: Parameters<Tell>[1]): void {
    this.tell(row, problem);
    this.leftOut.push(
      row.cells
        .map((c) => c.text)
        .join(' | ')
        .replace(unfit, ' ')
        .slice(0, 400),
    );
  }

  private cell(row: Row, field: WireField): Cell {
    const column = this.tables.columns.find((c) => c.field === field);
    return (column && row.cells[column.at]) ?? { ...blank, line: row.line };
  }

  private wire(row: Row): void {
    const [from, to] = [this.end(row, 'from', 'fromTerminal'), this.end(row, 'to', 'toTerminal')];
    if (this.isHeadAgain(row)) {
      this.leave(row, {
        code: 'head-again',
        severity: 'warning',
        what: 'the head of the table stands here again',
        why: 'it is no wire and was not taken',
        mend: ['nothing is to be done'],
      });
      return;
    }
    if (!from || !to || from.text === to.text) {
      this.leave(row, this.whyNoWire(row, from, to));
      return;
    }
    for (const end of [from, to]) this.use(end);
    const written: Record<string, Writable | undefined> = { id: this.id(row), from: from.text, to: to.text };
    const via = this.via(row);
    if (via.length > 0) written['via'] = via;
    for (const field of ['area', 'length'] as const) written[field] = this.quantity(row, field);
    written['colour'] = this.colour(row);
    const note = this.cell(row, 'note').text;
    if (note !== '') written['note'] = note;
    for (const { field, head, at } of this.tables.columns) {
      const held = row.cells[at]?.text ?? '';
      if (field === 'other' && held !== '' && this.isWireKey(head)) written[head] = held.startsWith('[') ? listIn(held) : held;
    }
    this.wires.push(yamlFlow(written));
  }

  private isHeadAgain(row: Row): boolean {
    const { head } = this.tables;
    return head !== undefined && row.cells.every((c, k) => c.text === (head.cells[k]?.text ?? ''));
  }

  private whyNoWire(row: Row, from: EndRead | undefined, to: EndRead | undefined): Parameters<Tell>[1] {
    const names = [this.cell(row, 'from').text, this.cell(row, 'to').text] as const;
    const empty = names.filter((n) => n === '').length;
    const what =
      empty === 2
        ? 'this row names neither end of a wire'
        : empty === 1
          ? `this row names one end, \`${names[0] || names[1]}\`, and not the other`
          : from && to
            ? `both ends of this wire are \`${from.text}\``
            : `\`${from ? names[1] : names[0]}\` cannot be the end of a wire`;
    return {
      code: 'row-not-taken',
      severity: 'error',
      what,
      why: 'the wire is missing in the circuit; the row stands there as a comment',
      mend: ['write both ends as part and terminal, such as `S1.15`; the body is `ground`'],
    };
  }

  private end(row: Row, field: 'from' | 'to', pin: 'fromTerminal' | 'toTerminal'): EndRead | undefined {
    const known = new Set(this.known.keys());
    const cell = this.cell(row, field);
    return cell.text === '' ? undefined : endRead(cell.text, this.cell(row, pin).text, known);
  }

  private use({ part, terminal, name }: EndRead): void {
    if (part === undefined || this.known.has(part)) return;
    const had = this.used.get(part) ?? { terminals: new Set<string>(), name: undefined };
    if (terminal !== undefined) had.terminals.add(terminal);
    this.used.set(part, { ...had, name: had.name ?? name, bare: had.bare || terminal === undefined });
  }

  private id(row: Row): string | undefined {
    const cell = this.cell(row, 'id');
    if (cell.text === '') return undefined;
    const base = idOf(/^\d+$/.test(cell.text) ? `W${cell.text}` : cell.text);
    if (base === undefined) {
      this.warn(cell, 'id-form', `\`${cell.text}\` cannot be an id`, 'the wire is named by its ends', [
        'ids are letters and digits, such as `W7`',
      ]);
      return undefined;
    }
    let id = base;
    for (let k = 2; this.wireIds.has(id) || this.known.has(id); k++) id = `${base}_${k}`;
    this.wireIds.add(id);
    if (id !== cell.text && !(id === base && `W${cell.text}` === base))
      this.warn(cell, 'id-changed', `the wire \`${cell.text}\` is called \`${id}\` in the circuit`, 'faults and findings name it so', [
        id === base ? 'ids have no blanks and points' : 'give each row an id of its own',
      ]);
    return id;
  }

  private via(row: Row): readonly string[] {
    const cell = this.cell(row, 'via');
    const pins = cell.text.split(/[\s,;+]+/).filter((p) => p !== '');
    const known = new Set(this.known.keys());
    return pins.flatMap((pin) => {
      const end = endRead(pin, '', known);
      if (end?.part !== undefined && end.terminal !== undefined && this.known.has(end.part)) return [end.text];
      this.warn(
        cell,
        'connector-not-known',
        `the wire passes \`${pin}\`, and no table of the list describes that connector`,
        'the wire runs through without it',
        ['add the connector to the circuit, then `via` to the wire'],
      );
      return [];
    });
  }

  private quantity(row: Row, field: 'area' | 'length'): string | undefined {
    const column = this.tables.columns.find((c) => c.field === field) as Column | undefined;
    const cell = this.cell(row, field);
    if (!column || cell.text === '') return undefined;
    const read = cellQuantity(cell.text, field, column.unit, this.tables.decimal);
    if ('why' in read) {
      this.warn(cell, 'quantity-not-taken', read.why, `the ${field} of this wire is not in the circuit`, read.mend);
      return undefined;
    }
    if (read.assumed !== undefined && !this.colours.has(`~${field}`)) {
      this.colours.add(`~${field}`);
      this.warn(cell, 'unit-assumed', `no unit stands in this column; ${read.assumed} was taken`, 'every drop hangs on it', [
        `write the unit into the head: \`${field} (${read.assumed})\``,
      ]);
    }
    return read.written;
  }

  private colour(row: Row): string | undefined {
    const cell = this.cell(row, 'colour');
    if (cell.text === '' || isColourCode(cell.text)) return cell.text || undefined;
    const code = colourCode(cell.text);
    if (code === undefined && !this.colours.has(cell.text)) {
      this.colours.add(cell.text);
      this.warn(cell, 'colour-not-known', `the colour \`${cell.text}\` is kept as it stands`, 'it shows on drawings as written', [
        'write the letters of IEC 60757: BK BN RD OG YE GN BU VT GY WH PK TQ, with `/` between two',
      ]);
    }
    return code ?? cell.text;
  }

  private warn(at: Cell, code: string, what: string, why: string, mend: readonly string[]): void {
    this.tell(at, { code, severity: 'warning', what, why, mend });
  }
}

function listIn(held: string): readonly string[] {
  return held
    .replace(/^\[|\]$/g, '')
    .split(',')
    .map((piece) => piece.trim().replace(/^"(.*)"$/, '$1'))
    .filter((piece) => piece !== '');
}
