import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import type { CellView, RowView } from '../../src/report/positionRows.ts';
import type { TablePosition } from '../../src/solve/positionTable.ts';
import { controls } from '../looks/controls.ts';
import { verdictMark } from './verdictMark.ts';

/** A column of the table under its track. */
export type Column = { readonly load: string; readonly number: number; readonly left: number; readonly width: number };

/**
 * Loads against key positions. On a wide screen each load's column hangs under its track; on a narrow one the loads go
 * down and the positions across.
 *
 * @fires position-picked - detail: TablePosition; turn the key there
 * @fires cell-picked - detail: { position: TablePosition; load: string }
 * Keys: one stop, arrows between cells, Enter picks.
 */
export class PositionTable extends LitElement {
  static override properties = {
    rows: { attribute: false },
    positions: { attribute: false },
    columns: { attribute: false },
    current: { type: String },
    load: { type: String },
    narrow: { type: Boolean },
    at: { state: true },
  };
  declare rows: readonly RowView[];
  declare positions: readonly TablePosition[];
  /** Absent: equal columns in the order of the rows. */
  declare columns: readonly Column[] | undefined;
  declare current: string | undefined;
  declare load: string | undefined;
  declare narrow: boolean;
  /** Line and column of the focusable cell; column 0 is the head. */
  declare at: readonly [number, number];

  constructor() {
    super();
    this.rows = [];
    this.positions = [];
    this.narrow = false;
    this.at = [0, 0];
  }

  static override styles = [
    controls,
    css`
      :host {
        display: block;
      }
      table {
        border-collapse: separate;
        border-spacing: 0;
        table-layout: fixed;
        line-height: 1.05;
      }
      th,
      td {
        border-bottom: 1px solid var(--rule);
        border-right: 1px solid var(--rule);
        padding: 0 2px;
        font-weight: 500;
        text-align: center;
        font-size: 15px;
        background: var(--sheet);
        height: 40px;
        cursor: pointer;
      }
      thead th {
        height: 46px;
        font-weight: 600;
        vertical-align: middle;
        cursor: default;
        position: sticky;
        top: 0;
        z-index: 2;
        overflow-wrap: anywhere;
      }
      thead th.chosen {
        background: var(--handtint);
      }
      /* A word of ten letters breaks in the narrowest column otherwise. */
      thead th.longname {
        font-size: 13px;
        padding-inline: 1px;
      }
      thead td {
        height: 46px;
        position: sticky;
        top: 0;
        z-index: 2;
      }
      .corner {
        font-weight: 500;
        font-size: 13px;
        color: var(--ink2);
      }
      .number {
        font-size: 13px;
        font-weight: 500;
        color: var(--ink2);
      }
      tbody th {
        text-align: left;
        padding: 0 6px 0 18px;
        position: sticky;
        left: 0;
        z-index: 1;
        font-size: 16px;
        font-weight: 700;
      }
      thead .corner {
        left: 0;
        z-index: 3;
      }
      tbody th .quiet {
        display: block;
        font-size: 14px;
        font-weight: 500;
      }
      tbody th.longname {
        font-size: 14px;
      }
      .many th,
      .many td {
        height: 30px;
      }
      .many tbody th .quiet {
        display: inline;
        margin-left: 6px;
      }
      .many thead th,
      .many thead td {
        height: 36px;
        line-height: 1;
      }
      .many .was {
        margin-top: -2px;
      }
      tr.now > * {
        background: var(--band);
      }
      tr.now > th {
        box-shadow: inset 8px 0 var(--hand);
      }
      .void {
        cursor: default;
      }
      .cell {
        display: inline-flex;
        align-items: center;
        gap: 4px;
        max-width: 100%;
      }
      :host(:not([narrow])) td.other .cell {
        line-height: 0.95;
        text-align: left;
      }
      .mark {
        flex: none;
      }
      .was {
        display: block;
        font-size: 13px;
        color: var(--ink);
        font-weight: 500;
      }
      td.off {
        color: var(--ink2);
      }
      td.weak {
        background: var(--cautiontint);
      }
      td.bad,
      td.other {
        background: var(--tagtint);
        color: var(--tag);
        font-weight: 700;
        outline: 2px solid var(--tag);
        outline-offset: -2px;
      }
      td.other {
        outline-style: dashed;
      }
      td.chosen:not(.bad, .other) {
        box-shadow: inset 0 -4px var(--hand);
      }
      td.long {
        font-size: 13px;
      }
      td:focus-visible,
      tbody th:focus-visible {
        outline: 3px solid var(--hand);
        outline-offset: -3px;
      }
      :host([narrow]) table {
        width: 100%;
        table-layout: auto;
      }
      :host([narrow]) td {
        padding: 0 8px;
        height: 48px;
        font-size: 16px;
        white-space: nowrap;
      }
      :host([narrow]) tbody th {
        font-size: 16px;
        padding-left: 12px;
        max-width: 130px;
        font-weight: 600;
      }
      :host([narrow]) thead th {
        padding: 0 8px;
      }
      @media print {
        :host([narrow]) table {
          border-top: 0.4mm solid #000;
        }
        :host([narrow]) th,
        :host([narrow]) td {
          height: 4.6mm;
          font-size: 8pt;
          padding: 0 1mm;
          position: static;
        }
        :host([narrow]) tbody th {
          font-size: 8pt;
          max-width: none;
        }
        .mark {
          width: 8pt;
          height: 8pt;
        }
        .was {
          display: inline;
          font-size: 7.5pt;
          margin-left: 1mm;
        }
        td.bad,
        td.other {
          outline-width: 0.3mm;
          outline-offset: -0.3mm;
        }
        tr {
          break-inside: avoid;
        }
      }
      :host([narrow]) thead th.now {
        background: var(--band);
        box-shadow: inset 0 -5px var(--hand);
      }
    `,
  ];

  override updated(changed: PropertyValues<this>): void {
    if (changed.has('current')) this.showCurrent();
  }

  /** On a narrow screen the column of the present position comes into view. */
  showCurrent(): void {
    if (this.narrow) this.renderRoot.querySelector('thead th.now')?.scrollIntoView({ inline: 'center', block: 'nearest' });
  }

  override render() {
    return this.narrow ? this.transposed() : this.hanging();
  }

  private hanging() {
    const columns = this.columns ?? this.rows.map((row, k) => ({ load: row.id, number: k + 1, left: 84 + 76 * k, width: 76 }));
    const rowOf = new Map(this.rows.map((r) => [r.id, r]));
    const gutter = columns[0]?.left ?? 84;
    let end = gutter;
    const gaps = columns.map((c) => {
      const gap = Math.max(0, c.left - end);
      end = c.left + c.width;
      return gap;
    });
    const width = (px: number) => html`<col width=${px} />`;
    return html`<table class=${this.positions.length > 5 ? 'many' : ''} role="grid" aria-label="Loads in every key position" width=${end} @keydown=${this.onKeys}>
      <colgroup>
        ${width(gutter)}${columns.map((c, k) => [gaps[k]! > 0.5 ? width(gaps[k]!) : nothing, width(c.width)])}
      </colgroup>
      <thead>
        <tr>
          <td class="corner">Each load, switched on</td>
          ${columns.map((c, k) => [
            gaps[k]! > 0.5 ? html`<td class="void" role="presentation"></td>` : nothing,
            html`<th scope="col" class="${c.load === this.load ? 'chosen' : ''} ${/\S{10}/.test(rowOf.get(c.load)?.name ?? '') ? 'longname' : ''}" title=${c.load}>
              ${c.number > 0 ? html`<span class="number">${c.number}</span>` : nothing} ${rowOf.get(c.load)?.name ?? c.load}
            </th>`,
          ])}
        </tr>
      </thead>
      <tbody>
        ${this.positions.map(
          (p, line) => html`<tr class=${p.name === this.current ? 'now' : ''} aria-current=${p.name === this.current ? 'true' : nothing}>
            ${this.positionHead(p, line)}
            ${columns.map((c, k) => [
              gaps[k]! > 0.5 ? html`<td class="void" role="presentation"></td>` : nothing,
              this.cell(rowOf.get(c.load)?.cells[line], p, line, k + 1),
            ])}
          </tr>`,
        )}
      </tbody>
    </table>`;
  }

  private positionHead(p: TablePosition, line: number) {
    const between = /^between (.+) and (.+?)( \d+)?$/.exec(p.name);
    const degrees = `${Math.round(p.angle)}°`;
    return html`<th
      scope="row"
      class=${p.name.length > 8 && !between ? 'longname' : ''}
      tabindex=${this.stop(line, 0)}
      data-at="${line} 0"
      title="Turn the key to ${p.name}"
      @click=${() => this.pickPosition(p, line)}
    >
      ${between ? 'between' : p.name}<span class="quiet">${degrees}</span>
    </th>`;
  }

  private transposed() {
    return html`<table role="grid" aria-label="Loads in every key position" @keydown=${this.onKeys}>
      <thead>
        <tr>
          <td class="corner">Each load, switched on</td>
          ${this.positions.map((p) => html`<th scope="col" class=${p.name === this.current ? 'now' : ''}>${p.detent ? p.name : `${Math.round(p.angle)}°`}</th>`)}
        </tr>
      </thead>
      <tbody>
        ${this.rows.map(
          (row, line) => html`<tr>
            <th scope="row">${row.name}</th>
            ${this.positions.map((p, k) => this.cell(row.cells[k], p, line, k + 1))}
          </tr>`,
        )}
      </tbody>
    </table>`;
  }

  private cell(cell: CellView | undefined, position: TablePosition, line: number, column: number) {
    if (!cell) return html`<td></td>`;
    const classes = `${cell.tone}${cell.load === this.load ? ' chosen' : ''}${cell.word.length > 9 ? ' long' : ''}`;
    return html`<td
      class=${classes}
      tabindex=${this.stop(line, column)}
      data-at="${line} ${column}"
      title=${cell.figures}
      @click=${() => this.pickCell(cell, position, line, column)}
    >
      <span class="cell">${verdictMark(cell.mark)}<span>${cell.word}</span></span>${cell.was === undefined ? nothing : html`<span class="was">${cell.was}</span>`}
    </td>`;
  }

  private stop(line: number, column: number): number {
    const first = this.narrow ? 1 : 0;
    const [l, c] = this.at;
    return l === line && Math.max(first, c) === column ? 0 : -1;
  }

  private pickPosition(position: TablePosition, line: number): void {
    this.at = [line, 0];
    this.dispatchEvent(new CustomEvent<TablePosition>('position-picked', { detail: position }));
  }
  private pickCell(cell: CellView, position: TablePosition, line: number, column: number): void {
    this.at = [line, column];
    this.dispatchEvent(new CustomEvent('cell-picked', { detail: { position, load: cell.load } }));
  }

  private onKeys(e: KeyboardEvent): void {
    const [line, column] = this.at;
    const moves: Readonly<Record<string, readonly [number, number]>> = {
      ArrowUp: [-1, 0],
      ArrowDown: [1, 0],
      ArrowLeft: [0, -1],
      ArrowRight: [0, 1],
      Home: [0, -column],
      End: [0, 999],
    };
    const target = e.composedPath()[0];
    if (e.key === 'Enter' || e.key === ' ') {
      if (target instanceof HTMLElement && target.dataset['at'] !== undefined) target.click();
    } else {
      const move = moves[e.key];
      if (!move) return;
      const lines = this.narrow ? this.rows.length : this.positions.length;
      const columns = this.narrow ? this.positions.length : (this.columns?.length ?? this.rows.length);
      const first = this.narrow ? 1 : 0;
      this.at = [Math.min(lines - 1, Math.max(0, line + move[0])), Math.min(columns, Math.max(first, Math.max(first, column) + move[1]))];
      void this.updateComplete.then(() => this.renderRoot.querySelector<HTMLElement>(`[data-at="${this.at[0]} ${this.at[1]}"]`)?.focus());
    }
    e.preventDefault();
  }
}
