import { css, html, LitElement, nothing } from 'lit';
import { controls } from '../looks/controls.ts';
import type { TableBegun } from './practiseCalls.ts';
import { askPractise } from './practiseDesk.ts';

/**
 * Levels 1 and 2: ten cells of the position table.
 * @fires finished - detail: score of 100; left
 */
export class TableQuiz extends LitElement {
  static override properties = {
    file: { attribute: false },
    level: { type: Number },
    seed: { type: Number },
    begun: { state: true },
    given: { state: true },
    right: { state: true },
    score: { state: true },
  };
  declare file: { readonly text: string; readonly name: string };
  declare level: 1 | 2;
  declare seed: number;
  declare begun: TableBegun | undefined;
  declare given: readonly string[];
  declare right: readonly string[];
  declare score: number | undefined;

  constructor() {
    super();
    this.given = [];
    this.right = [];
  }

  static override styles = [
    controls,
    css`
      :host {
        display: grid;
        gap: 12px;
        padding: 24px;
        max-width: 860px;
        align-content: start;
        overflow: auto;
      }
      .no {
        color: var(--tag);
        font-weight: 700;
      }
    `,
  ];

  override connectedCallback(): void {
    super.connectedCallback();
    void askPractise('table', { ...this.file, level: this.level, seed: this.seed }).then((begun) => (this.begun = begun));
  }

  override render() {
    const { begun, given, right, score } = this;
    if (!begun) return html`<p>Working out the table...</p>`;
    const q = begun.questions[given.length];
    return html`<h2>Level ${begun.level}: ${begun.title}</h2>
      <p>${begun.given === '' ? 'The vehicle is healthy. Would this load work there if it were switched on?' : `This fault is in: ${begun.given}. What follows from it?`}</p>
      <ol>${given.map((g, k) => {
        const done = begun.questions[k]!;
        return html`<li>${done.name} (${done.load}) in ${done.position}: ${g} ${g === right[k] ? 'Right.' : html`<span class="no">No: ${right[k]}.</span>`}</li>`;
      })}</ol>
      ${q ? html`<p role="status"><b>${given.length + 1}. ${q.name} (${q.load}) in ${q.position}</b></p><div class="row">${q.choices.map((c) => html`<button @click=${() => this.answer(c)}>${c}</button>`)}</div>` : nothing}
      ${score === undefined ? nothing : html`<p role="status"><b>${score} of 100.</b></p>`}
      <div class="row"><button @click=${() => this.dispatchEvent(new CustomEvent('left'))}>${score === undefined ? 'Leave' : 'Another exercise'}</button></div>`;
  }

  private async answer(choice: string): Promise<void> {
    const answers = [...this.given, choice];
    const { score, right } = await askPractise('answer', { ...this.file, level: this.level, seed: this.seed, answers });
    this.given = answers;
    this.right = right;
    if (answers.length < (this.begun?.questions.length ?? 0)) return;
    this.score = score;
    this.dispatchEvent(new CustomEvent('finished', { detail: score }));
  }
}
