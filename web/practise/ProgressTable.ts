import { css, html, LitElement, nothing } from 'lit';
import { levels } from '../../src/practice/level.ts';
import { mastered, progressText, type Result, readProgress, standings } from '../../src/practice/progress.ts';
import { controls } from '../looks/controls.ts';
import { saveText } from './saveText.ts';

/**
 * What has been practised, level by level: which are held, how the last exercises went; saved as a file, joined from one, cleared.
 *
 * @fires level - detail: number of the level that was chosen
 * @fires brought - detail: Result[] of a file, to be joined
 * @fires cleared
 */
export class ProgressTable extends LitElement {
  static override properties = {
    results: { attribute: false },
    has: { attribute: false },
    chosen: { type: Number },
    next: { type: Number },
    asking: { state: true },
    told: { state: true },
  };
  declare results: readonly Result[];
  /** Levels that the circuit can hold. */
  declare has: readonly number[];
  declare chosen: number;
  declare next: number;
  /** "Clear" was pressed once. */
  declare asking: boolean;
  declare told: string;

  constructor() {
    super();
    this.results = [];
    this.has = [];
    this.asking = false;
    this.told = '';
  }

  static override styles = [
    controls,
    css`
      :host {
        display: grid;
        gap: 12px;
      }
      table {
        border-collapse: collapse;
        width: 100%;
      }
      th,
      td {
        text-align: left;
        vertical-align: middle;
        padding: 2px 10px 2px 0;
        border-top: 1px solid var(--rule);
        line-height: 1.2;
      }
      thead th {
        border-top: 0;
        padding-bottom: 6px;
      }
      tbody th {
        font-weight: 400;
      }
      td.no {
        width: 64px;
      }
      td.no button {
        min-width: 52px;
      }
      tr.next > * {
        background: var(--handtint);
      }
      label.button {
        display: inline-grid;
        place-content: center;
      }
      .row > button {
        flex: 0 1 auto;
      }
      .held {
        font-weight: 700;
      }
      @media (max-width: 599.9px) {
        .skill {
          display: none;
        }
      }
    `,
  ];

  override render() {
    return html`<table>
        <caption class="unseen">Your progress, level by level</caption>
        <thead><tr><th scope="col">Level</th><th scope="col">Skill</th><th scope="col">Last scores</th><th scope="col">Stands</th></tr></thead>
        <tbody>${standings(this.results).map((s) => {
          const level = levels[s.level - 1]!;
          const here = this.has.includes(s.level);
          return html`<tr class=${s.level === this.next ? 'next' : ''}>
            <td class="no"><button aria-pressed=${s.level === this.chosen} ?disabled=${!here} aria-label="Choose level ${s.level}, ${level.title}" @click=${() => this.dispatchEvent(new CustomEvent('level', { detail: s.level }))}>${s.level}</button></td>
            <th scope="row"><b>${level.title}</b><span class="skill quiet"> ${level.skill}</span></th>
            <td>${s.last.length === 0 ? html`<span class="quiet">none yet</span>` : s.last.join(', ')}</td>
            <td class=${s.held ? 'held' : 'quiet'}>${s.held ? 'held' : here ? (s.done === 0 ? 'open' : 'not yet held') : 'not in this vehicle'}${s.level === this.next ? ', next' : ''}</td>
          </tr>`;
        })}</tbody>
      </table>
      <p class="small quiet">A level is held by two exercises in a row with ${mastered} points or more. Kept on this machine only, for all vehicles together; the terminal reads and writes the same file.</p>
      <div class="row">
        <button ?disabled=${this.results.length === 0} @click=${() => saveText('progress.json', progressText(this.results), 'application/json')}>Save as a file</button>
        <label class="button">Join a file<input class="unseen" type="file" accept=".json" @change=${(e: Event) => this.join(e)} /></label>
        ${
          this.asking
            ? html`<button @click=${() => this.clear()}>Clear ${this.results.length} results for good</button><button @click=${() => (this.asking = false)}>Keep them</button>`
            : html`<button ?disabled=${this.results.length === 0} @click=${() => (this.asking = true)}>Clear the progress</button>`
        }
      </div>
      ${this.told === '' ? nothing : html`<p role="status">${this.told}</p>`}`;
  }

  private async join(e: Event): Promise<void> {
    const field = e.target as HTMLInputElement;
    const file = field.files?.[0];
    if (!file) return;
    const brought = readProgress(await file.text());
    field.value = '';
    this.told = brought ? `Joined: ${file.name}, ${brought.length} results.` : `${file.name} holds no results of exercises.`;
    if (brought) this.dispatchEvent(new CustomEvent('brought', { detail: brought }));
  }

  private clear(): void {
    this.asking = false;
    this.told = 'The progress is cleared.';
    this.dispatchEvent(new CustomEvent('cleared'));
  }
}
