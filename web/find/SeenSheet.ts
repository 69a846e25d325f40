import { html, LitElement } from 'lit';
import type { Problem } from '../../src/circuit/problem.ts';
import { type FindingNames, findingCompletions } from '../../src/report/findingCompletion.ts';
import type { Mark } from '../../src/report/positionRows.ts';
import type { SeenCell, SeenRow, SeenTable } from '../../src/report/seenTable.ts';
import { verdictMark } from '../bench/verdictMark.ts';
import type { CircuitSeen } from '../calls.ts';
import type { PhraseRead } from '../causeCalls.ts';
import { controls } from '../looks/controls.ts';
import { findingParts } from './findingParts.ts';
import { seenSheetStyles } from './seenSheetStyles.ts';

const letters: Readonly<Record<string, string>> = { w: 'works', d: 'dead', k: 'weak', c: 'comes and goes' };

/**
 * Where findings are entered: a phrase with its completion, a reading between two leads, and the position table as a
 * sheet to fill in.
 *
 * @fires told - detail: { add: string[]; remove: string[] }, canonical phrases
 * @fires place - detail: 'red' | 'black' | undefined; the next tap on the drawing puts that lead down
 * @fires done
 * Keys in the table: arrows from cell to cell, W works, D dead, K weak, C comes and goes, Delete not seen.
 */
export class SeenSheet extends LitElement {
  static override properties = {
    circuit: { attribute: false },
    seen: { attribute: false },
    findings: { attribute: false },
    check: { attribute: false },
    at: { state: true },
    typed: { state: true },
    answer: { state: true },
    all: { state: true },
  };
  declare circuit: CircuitSeen;
  declare seen: SeenTable | undefined;
  /** Canonical phrases that are noted. */
  declare findings: readonly string[];
  /** Asks how a phrase is understood. */
  declare check: (text: string) => Promise<PhraseRead>;
  /** Row and place of the cell in hand. */
  declare at: readonly [number, number] | undefined;
  declare typed: string;
  declare answer: PhraseRead | undefined;
  /** Also the loads that have no power as designed in most places. */
  declare all: boolean;

  constructor() {
    super();
    this.typed = '';
    this.findings = [];
    this.all = false;
  }

  static override styles = [controls, seenSheetStyles];

  override render() {
    return html`
      <div class="head"><h2>What was seen</h2><button @click=${() => this.dispatchEvent(new CustomEvent('done'))}>Done</button></div>
      ${this.phraseField()} ${this.seen ? this.table(this.seen) : html`<p class="quiet">working out...</p>`}
    `;
  }

  private names(): FindingNames {
    const { parts, key, hasEngine } = this.circuit;
    return {
      positions: key?.positions ?? [],
      loads: parts.filter((p) => p.isLoad),
      terminals: [...parts.filter((p) => !p.isWire).flatMap((p) => p.terminals.map((t) => `${p.id}.${t}`)), 'ground'],
      parts: parts.filter((p) => !p.isWire).map((p) => p.id),
      hasEngine,
    };
  }

  private phraseField() {
    const wrong = this.answer?.problems.find((p) => p.severity === 'error');
    const completions = findingCompletions(this.typed, this.names());
    return html`<form class="phrase" @submit=${this.enter}>
        <label>In words, or a reading
          <input type="text" id="phrase" list="may" autocomplete="off" spellcheck="false" placeholder="ON after START: engine dies" .value=${this.typed}
            aria-describedby="wrong" @input=${(e: Event) => {
              this.typed = (e.target as HTMLInputElement).value;
              this.answer = undefined;
            }} /></label>
        <button class="main" type="submit" ?disabled=${this.typed.trim() === ''}>Note it</button>
        <datalist id="may">${completions.map((c) => html`<option value=${c}></option>`)}</datalist>
      </form>
      <div id="wrong" role="alert">${
        wrong
          ? html`<p class="wrong"><b>${wrong.what}.</b> ${wrong.why[0]!.toUpperCase()}${wrong.why.slice(1)}.</p>
            <div class="near">${wrong.mend.slice(0, 5).map(
              (m) =>
                html`<button @click=${() => {
                  this.typed = this.mended(m);
                  this.answer = undefined;
                  this.renderRoot.querySelector<HTMLInputElement>('#phrase')?.focus();
                }}>${m}</button>`,
            )}</div>`
          : this.doubts().map(
              (w) =>
                html`<p><b>${w.what}.</b> ${w.why[0]!.toUpperCase()}${w.why.slice(1)}.</p>
            <div class="near">${w.mend.map((m) => html`<button @click=${() => this.instead(m)}>${m}</button>`)}</div>`,
            )
      }</div>`;
  }

  /** What was noted otherwise than it was typed. */
  private doubts(): readonly Problem[] {
    return this.answer?.problems.every((p) => p.severity === 'warning') ? this.answer.problems : [];
  }

  /** The phrase as it was meant in the place of the one that was noted. */
  private instead(phrase: string): void {
    const told = this.answer?.findings.filter((f) => subjectOfPhrase(f) === subjectOfPhrase(phrase)) ?? [];
    const left = this.doubts().filter((w) => !w.mend.includes(phrase));
    this.answer = this.answer && left.length > 0 ? { ...this.answer, problems: left } : undefined;
    this.tell([phrase], told);
  }

  /** A mend is a whole phrase, or a near name for the words that were not understood. */
  private mended(mend: string): string {
    const wrong = this.answer?.problems.find((p) => p.severity === 'error');
    if (!wrong || mend.includes(':')) return mend;
    const { column, length } = wrong;
    return this.typed.slice(0, column - 1) + mend + this.typed.slice(column - 1 + length);
  }

  private readonly enter = async (e: Event): Promise<void> => {
    e.preventDefault();
    const text = this.typed.trim();
    if (text === '') return;
    const answer = await this.check(text);
    // A warning stays to be read: it says how the phrase was taken.
    this.answer = answer.problems.length > 0 ? answer : undefined;
    if (answer.findings.length === 0) return;
    this.typed = '';
    this.tell(answer.findings, []);
  };

  private table(seen: SeenTable) {
    const [r, c] = this.at ?? [-1, -1];
    const row = seen.rows[r];
    const cell = row?.cells[c];
    return html`
      <div class="words" role="group" aria-label="What was seen of the chosen cell">
        ${
          row && cell
            ? html`<p><b>${seen.places[c]!.name}</b> ${row.name}${handOf(cell.head)}</p>
              <div class="row">${row.words.map(
                (w) =>
                  html`<button aria-pressed=${this.wordOf(cell, row) === w} @click=${() => this.put(row, cell, w)}>${verdictMark(markOf(w))} ${w}</button>`,
              )}<button ?disabled=${this.wordOf(cell, row) === undefined} @click=${() => this.put(row, cell, undefined)}>not seen</button></div>`
            : html`<p class="quiet">Tap a cell of the table and say what was seen there. Not looked at stays empty.</p>`
        }
      </div>
      <div class="tablebox" tabindex="-1"><table @keydown=${this.onKeys}>
        <caption class="unseen">What was seen of each load in each key position</caption>
        <thead><tr><th scope="col">Each load, switched on</th>${seen.places.map((p) => html`<th scope="col">${placeHead(p.name, p.angle)}</th>`)}</tr></thead>
        <tbody>${seen.rows.map(
          (line, i) => html`<tr><th scope="row">${line.name}</th>${line.cells.map((x, k) => this.cell(line, x, i, k))}</tr>`,
        )}</tbody>
      </table></div>`;
  }

  private cell(row: SeenRow, cell: SeenCell, r: number, c: number) {
    const word = this.wordOf(cell, row);
    const [ar, ac] = this.at ?? [0, 0];
    const isAt = ar === r && ac === c;
    return html`<td class=${word === undefined ? '' : toneOf(word)}><button data-at="${r} ${c}" tabindex=${isAt ? 0 : -1} aria-pressed=${this.at !== undefined && isAt}
      aria-label="${row.name}, ${cell.head.split(':')[0]}: ${word ?? 'not seen'}${cell.isOff && word === undefined ? ', off as designed' : ''}" @click=${() => {
        this.at = [r, c];
      }}>${word === undefined ? html`<span class="quiet">${cell.isOff ? 'off' : ''}</span>` : html`${verdictMark(markOf(word))} ${short(word)}`}</button></td>`;
  }

  private wordOf(cell: SeenCell, row: SeenRow): string | undefined {
    return row.words.find((w) => this.findings.includes(`${cell.head} ${w}`));
  }

  private put(row: SeenRow, cell: SeenCell, word: string | undefined): void {
    const before = row.words.map((w) => `${cell.head} ${w}`).filter((p) => this.findings.includes(p));
    const add = word === undefined || before.includes(`${cell.head} ${word}`) ? [] : [`${cell.head} ${word}`];
    this.tell(
      add,
      before.filter((p) => p !== `${cell.head} ${word}`),
    );
  }

  private readonly onKeys = (e: KeyboardEvent): void => {
    const { seen } = this;
    if (!seen || e.ctrlKey || e.metaKey || e.altKey) return;
    const [r, c] = this.at ?? [0, 0];
    const ways: Readonly<Record<string, readonly [number, number]>> = {
      ArrowUp: [-1, 0],
      ArrowDown: [1, 0],
      ArrowLeft: [0, -1],
      ArrowRight: [0, 1],
    };
    const way = ways[e.key];
    const row = seen.rows[r];
    const cell = row?.cells[c];
    const word = letters[e.key.toLowerCase()];
    if (way) {
      this.at = [Math.max(0, Math.min(seen.rows.length - 1, r + way[0])), Math.max(0, Math.min(seen.places.length - 1, c + way[1]))];
      void this.updateComplete.then(() => this.renderRoot.querySelector<HTMLElement>(`[data-at="${this.at![0]} ${this.at![1]}"]`)?.focus());
    } else if (row && cell && word && row.words.includes(word)) {
      this.at = [r, c];
      this.put(row, cell, word);
    } else if (row && cell && (e.key === 'Delete' || e.key === 'Backspace')) this.put(row, cell, undefined);
    else return;
    e.preventDefault();
  };

  private tell(add: readonly string[], remove: readonly string[]): void {
    this.dispatchEvent(new CustomEvent('told', { detail: { add, remove } }));
  }
}

/** What a canonical phrase is about, without its scene: `M1 dead`. */
const subjectOfPhrase = (phrase: string): string => phrase.slice(phrase.indexOf(':') + 1).trim();
const markOf = (word: string): Mark => findingParts(`x: y ${word}`, { parts: [] } as unknown as CircuitSeen).mark;
const toneOf = (word: string): string =>
  ['dead', 'dies', 'still'].includes(word) ? 'bad' : /weak|slowly|comes/.test(word) ? 'weak' : 'good';
const short = (word: string): string => (word === 'comes and goes' ? 'at times' : word === 'cranks slowly' ? 'slowly' : word);
const handOf = (head: string): string => {
  const [scene = ''] = head.split(':');
  const hand = scene.split(', ').slice(1).join(', ');
  return hand === '' ? '' : `, with ${hand}`;
};
const placeHead = (name: string, angle: number) =>
  /^between/.test(name)
    ? html`between<br /><small>${Math.round(angle)}°</small>`
    : / after /.test(name)
      ? html`${name.split(' ')[0]}<br /><small>released</small>`
      : html`${name}<br /><small>${Math.round(angle)}°</small>`;
