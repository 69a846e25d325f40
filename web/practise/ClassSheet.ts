import { css, html, LitElement, nothing } from 'lit';
import { byApprentice, type ClassRow, classSheetText, readClassSheet, withLine } from '../../src/practice/classSheet.ts';
import { controls } from '../looks/controls.ts';
import { practiceShelf } from './practiceShelf.ts';
import { saveText } from './saveText.ts';

/** The class sheet: a list of names or apprentices' lines come in as CSV, one line an apprentice is shown, the whole goes out as CSV. */
export class ClassSheet extends LitElement {
  static override properties = { rows: { state: true }, told: { state: true }, asking: { state: true } };
  declare rows: readonly ClassRow[];
  declare told: string;
  declare asking: boolean;

  constructor() {
    super();
    this.rows = [];
    this.told = '';
    this.asking = false;
  }

  static override styles = [
    controls,
    css`
      :host {
        display: grid;
        gap: 10px;
      }
      .wide {
        overflow-x: auto;
      }
      table {
        border-collapse: collapse;
        width: 100%;
      }
      th,
      td {
        text-align: left;
        padding: 6px 12px 6px 0;
        border-top: 1px solid var(--rule);
        line-height: 1.2;
      }
      label.button {
        display: inline-grid;
        place-content: center;
      }
      .row > button {
        flex: 0 1 auto;
      }
      tbody th {
        font-weight: 600;
      }
    `,
  ];

  override connectedCallback(): void {
    super.connectedCallback();
    void practiceShelf().then(async (shelf) => (this.rows = await shelf.sheet()));
  }

  override render() {
    const { rows } = this;
    return html`<p>Open a list of names (a CSV with the head <code>name</code>) and the lines that apprentices save after their debrief; several at once. Names stay on this machine.</p>
      ${rows.length === 0 ? html`<p class="quiet">No names yet.</p>` : this.table()}
      <div class="row">
        <label class="button">Open lines or a sheet<input class="unseen" type="file" accept=".csv" multiple @change=${(e: Event) => this.open(e)} /></label>
        <button type="button" ?disabled=${rows.length === 0} @click=${() => saveText('class.csv', classSheetText(rows), 'text/csv')}>Save the sheet</button>
        ${
          this.asking
            ? html`<button type="button" @click=${() => this.put([], 'The sheet is cleared.')}>Clear ${rows.length} lines for good</button><button type="button" @click=${() => (this.asking = false)}>Keep them</button>`
            : html`<button type="button" ?disabled=${rows.length === 0} @click=${() => (this.asking = true)}>Clear the sheet</button>`
        }
      </div>
      ${this.told === '' ? nothing : html`<p role="status">${this.told}</p>`}`;
  }

  private table() {
    return html`<div class="wide" tabindex="0" role="group" aria-label="Class sheet"><table>
      <thead><tr>${['Apprentice', 'Exercises', 'Mean score', 'Minutes', 'Best minutes', 'Unsafe acts', 'Hints'].map((h) => html`<th scope="col">${h}</th>`)}</tr></thead>
      <tbody>${byApprentice(this.rows).map(
        (a) =>
          html`<tr><th scope="row">${a.name}</th><td>${a.done}</td>${a.done === 0 ? html`<td colspan="5" class="quiet">not yet</td>` : html`<td>${a.score}</td><td>${a.minutes}</td><td>${a.bestMinutes}</td><td>${a.unsafe}</td><td>${a.hints}</td>`}</tr>`,
      )}</tbody></table></div>`;
  }

  private async open(e: Event): Promise<void> {
    const field = e.target as HTMLInputElement;
    let { rows } = this;
    const refused: string[] = [];
    for (const file of field.files ?? []) {
      const read = readClassSheet(await file.text());
      if (read.ok) rows = read.rows.reduce(withLine, rows);
      else refused.push(`${file.name}: ${read.why}.`);
    }
    field.value = '';
    await this.put(rows, refused.length > 0 ? refused.join(' ') : `${rows.length} lines on the sheet.`);
  }

  private async put(rows: readonly ClassRow[], told: string): Promise<void> {
    this.rows = rows;
    this.asking = false;
    this.told = told;
    await (await practiceShelf()).keepSheet(rows);
  }
}
