import { css, html, LitElement, nothing } from 'lit';
import type { DiagnosisView, OutcomeRow, ReadingRow } from '../../src/report/diagnosisView.ts';
import { readingAsks } from '../../src/report/readingAnswer.ts';
import { controls } from '../looks/controls.ts';
import { percent } from './ring.ts';

/**
 * The next reading: what to do, where its leads go, a field for the figure or a button for each word, and what each
 * outcome would tell.
 *
 * @fires found - detail: finding phrase
 * @fires what-if - detail: OutcomeRow or undefined, while an outcome is pointed at or focused
 * @fires skip - detail: key of the reading that cannot be reached
 * @fires chosen - detail: key of another reading
 */
export class NextCard extends LitElement {
  static override properties = {
    view: { attribute: false },
    reading: { attribute: false },
    others: { attribute: false },
    figure: { state: true },
    wrong: { state: true },
  };
  declare view: DiagnosisView;
  declare reading: ReadingRow;
  declare others: readonly ReadingRow[];
  declare figure: string;
  declare wrong: string;
  private shown = '';

  constructor() {
    super();
    this.figure = '';
    this.wrong = '';
    this.others = [];
  }

  static override styles = [
    controls,
    css`
      :host {
        display: block;
      }
      section {
        padding: 12px 20px;
        display: grid;
        gap: 8px;
      }
      .tells {
        background: var(--paper);
        border-top: 2px solid var(--ink);
      }
      .over {
        display: flex;
        justify-content: space-between;
        gap: 12px;
        font-size: 15px;
      }
      .over b {
        color: var(--hand);
      }
      .title {
        font-size: 27px;
        line-height: 1.15;
        overflow-wrap: anywhere;
      }
      .title::first-letter {
        text-transform: uppercase;
      }
      ol {
        margin: 0;
        padding-left: 26px;
        font-size: 17px;
        display: grid;
        gap: 6px;
      }
      ol li::marker {
        font-weight: 700;
      }
      .letter {
        display: inline-grid;
        place-items: center;
        width: 26px;
        height: 26px;
        border-radius: 50%;
        background: var(--hand);
        color: var(--onhand);
        font-weight: 700;
        font-size: 15px;
      }
      form {
        display: grid;
        grid-template-columns: minmax(0, 1fr) auto;
        gap: 8px;
        align-items: end;
      }
      .field {
        position: relative;
        display: block;
      }
      .field input {
        height: 54px;
        font-size: 24px;
        font-weight: 700;
        border: 2px solid var(--ink);
        padding-right: 40px;
      }
      .field span {
        position: absolute;
        right: 14px;
        bottom: 12px;
        font-size: 22px;
        color: var(--ink2);
      }
      .wrong {
        color: var(--tag);
        font-weight: 600;
      }
      .outcome {
        display: grid;
        grid-template-columns: minmax(84px, 26%) minmax(0, 1fr) auto;
        gap: 10px;
        align-items: center;
        width: 100%;
        min-height: 46px;
        text-align: left;
        border: 0;
        border-bottom: 1px solid var(--rule);
        border-radius: 0;
        background: none;
        padding: 2px 0;
        font-weight: 500;
        line-height: 1.15;
        font-size: 16px;
      }
      .outcome:hover,
      .outcome:focus-visible {
        background: var(--handtint);
      }
      .outcome .then {
        font-weight: 700;
        white-space: nowrap;
        font-size: 17px;
      }
      .other {
        width: 100%;
        text-align: left;
        font-weight: 500;
        margin-bottom: 6px;
      }
      @media (max-width: 899.9px) {
        section {
          padding: 12px 16px;
        }
        .title {
          font-size: 25px;
        }
      }
    `,
  ];

  override willUpdate(): void {
    const key = readingKey(this.reading);
    if (key === this.shown) return;
    this.shown = key;
    this.figure = '';
    this.wrong = '';
  }

  override render() {
    const { reading } = this;
    const asks = readingAsks(reading);
    return html`<section>
        <p class="over"><b>Next reading</b><span class="quiet">${costText(reading)}</span></p>
        <h2 class="title">${reading.reading}</h2>
        <ol>${reading.steps.map((s) => html`<li>${withLetters(s, reading.leads)}</li>`)}</ol>
        ${
          asks.form === 'figure'
            ? html`<form @submit=${(e: Event) => this.enter(e, asks.phrase)}>
                <label class="field">${sceneWord(reading.scene)}
                  <input type="text" inputmode="decimal" autocomplete="off" .value=${this.figure} aria-describedby="wrong"
                    @input=${(e: Event) => {
                      this.figure = (e.target as HTMLInputElement).value;
                    }} /><span aria-hidden="true">${asks.unit}</span></label>
                <button class="main" type="submit">I read it: enter</button>
              </form>
              ${asks.unit === 'Ω' ? html`<button @click=${() => this.found(asks.phrase(Number.POSITIVE_INFINITY))}>It reads open, no end of ohms</button>` : nothing}`
            : html`<div class="row" role="group" aria-label="What was seen">${asks.words.map(
                ({ word, finding }) => html`<button @click=${() => this.found(finding)}>${word}</button>`,
              )}</div>`
        }
        <p class="wrong" id="wrong" role="alert" ?hidden=${this.wrong === ''}>${this.wrong}</p>
        <div class="row"><button @click=${() => this.tell('skip', readingKey(reading))}>Cannot reach it</button></div>
        ${reading.cautions.map((c) => html`<p class="caution"><b>Caution</b> ${c[0]!.toUpperCase()}${c.slice(1)}.</p>`)}
      </section>
      <section class="tells">
        <h2>What each outcome tells</h2>
        <div>${reading.outcomes.map((o) => this.outcome(o, asks.form === 'words'))}</div>
        ${
          this.others.length > 0
            ? html`<details><summary>Or read something else</summary>${this.others.map(
                (r) =>
                  html`<button class="other" @click=${() => this.tell('chosen', readingKey(r))}>${sceneWord(r.scene)}: ${r.reading} <span class="quiet">${costText(r)}</span></button>`,
              )}</details>`
            : nothing
        }
      </section>`;
  }

  private outcome(o: OutcomeRow, enters: boolean) {
    const { suspects } = this.view;
    const parts = [...new Set(o.leaves.flatMap((k) => (suspects[k]!.parts.length > 0 ? suspects[k]!.parts : ['nothing wrong'])))];
    const now = o.leaves.reduce((sum, k) => sum + suspects[k]!.probability, 0);
    const then = o.worth.reduce((sum, w) => sum + w, 0);
    const names = parts.slice(0, 3).join(', ') + (parts.length > 3 ? ` and ${parts.length - 3} more` : '');
    const show = (to: OutcomeRow | undefined) => this.tell('what-if', to);
    return html`<button class="outcome" title=${enters ? 'Enter this' : 'Show what it would leave'} @pointerenter=${() => show(o)} @pointerleave=${() => show(undefined)}
      @focus=${() => show(o)} @blur=${() => show(undefined)} @click=${() => (enters ? this.found(o.finding) : show(o))}>
      <b>${o.seen}</b><span>${names}</span><span class="then">${Math.round(100 * now)} → ${percent(then)}</span>
    </button>`;
  }

  private enter(e: Event, phrase: (value: number) => string): void {
    e.preventDefault();
    const value = Number(
      this.figure
        .trim()
        .replace(',', '.')
        .replace(/\s*[a-zΩ]+$/i, ''),
    );
    if (this.figure.trim() === '' || !Number.isFinite(value)) {
      this.wrong = 'Enter the figure that the meter shows, such as 0.4.';
      this.renderRoot.querySelector<HTMLInputElement>('.field input')?.focus();
      return;
    }
    this.found(phrase(value));
  }
  private found(phrase: string): void {
    this.tell('what-if', undefined);
    this.tell('found', phrase);
  }
  private tell(name: string, detail: unknown): void {
    this.dispatchEvent(new CustomEvent(name, { detail }));
  }
}

export const readingKey = (r: ReadingRow): string => `${r.scene}: ${r.reading}`;

function costText(r: ReadingRow): string {
  const minutes = r.minutes < 1 ? 'under a minute' : `${Math.round(r.minutes)} min`;
  return r.price > 0 ? `${minutes}, ${r.price} in parts` : minutes;
}
const sceneWord = (scene: string): string => (scene === 'off the vehicle' ? scene : `at ${scene}`);

/** The letters of the leads before the terminals that a step names. */
function withLetters(step: string, leads: readonly string[]) {
  const [red, black] = leads;
  const at = red === undefined ? -1 : step.indexOf(red);
  if (red === undefined || at < 0) return step;
  const rest = step.slice(at);
  const second = black === undefined ? -1 : black === 'ground' ? rest.indexOf('clean body') : rest.indexOf(black, red.length);
  const letter = (name: string) => html`<span class="letter" aria-label="lead ${name}">${name}</span> `;
  if (second < 0) return html`${step.slice(0, at)}${letter('A')}${rest}`;
  return html`${step.slice(0, at)}${letter('A')}${rest.slice(0, second)}${letter('B')}${rest.slice(second)}`;
}
