import { css, html, LitElement, nothing, svg } from 'lit';
import type { DemoJob, DemoStory, LibraryCard } from '../../src/report/libraryCard.ts';
import type { Miniature } from '../../src/report/miniature.ts';
import { controls } from '../looks/controls.ts';
import { libraryCards } from './cards.ts';

/** What was chosen: a circuit by itself, or with one of its demos. */
export type Chosen = { readonly name: string; readonly story?: DemoStory; readonly job?: DemoJob };

/**
 * The circuits of the library: a picture of each drawing, what it is and teaches, its stories and jobs.
 * @fires chosen - detail: Chosen
 */
export class LibraryChooser extends LitElement {
  static override properties = { current: { type: String } };
  /** Name of the circuit on the desk. */
  declare current: string | undefined;

  static override styles = [
    controls,
    css`
      :host {
        display: block;
      }
      ul,
      .demos,
      .demos div {
        display: grid;
        gap: 12px;
      }
      ul {
        gap: 16px;
      }
      .demos {
        padding: 4px 0 8px;
      }
      .demos div {
        gap: 6px;
      }
      article {
        background: var(--sheet);
        border: 1px solid var(--rule);
        display: grid;
        gap: 8px;
        padding: 12px 16px 8px;
      }
      article[aria-current='true'] {
        border: 2px solid var(--ink);
        padding: 11px 15px 7px;
      }
      svg {
        display: block;
        width: 100%;
        height: auto;
        max-height: 150px;
      }
      path {
        fill: none;
        stroke: var(--ink);
        vector-effect: non-scaling-stroke;
      }
      .wires {
        stroke: var(--edge);
        stroke-width: 1;
      }
      .pieces {
        fill: var(--sheet);
        stroke-width: 1;
      }
      .loads {
        fill: var(--ink);
        stroke: none;
      }
      .bars {
        stroke-width: 2.5;
      }
      .key {
        fill: var(--band);
        stroke-width: 1.5;
      }
      .size {
        margin-top: -6px;
      }
      dl {
        display: grid;
        gap: 4px;
        font-size: 15px;
      }
      dt {
        font-weight: 700;
      }
      .demos button {
        text-align: left;
        font-weight: 500;
      }
      .demos button b {
        display: block;
      }
    `,
  ];

  override render() {
    return html`<ul>${libraryCards.map((card) => html`<li>${this.card(card)}</li>`)}</ul>`;
  }

  private card(card: LibraryCard & { readonly name: string }) {
    const { name } = card;
    const isHere = name === this.current;
    return html`<article aria-labelledby=${name} aria-current=${isHere}>
      ${miniature(card.picture)}
      <h3 id=${name}>${card.title}</h3>
      <p class="small quiet size">${card.parts} parts, ${card.wires} wires</p>
      <p>${card.about}</p>
      <dl>
        <div><dt>Teaches</dt><dd>${sentence(card.teaches)}</dd></div>
        <div><dt>Key-off current</dt><dd>${sentence(card.keyOff)}</dd></div>
      </dl>
      <div class="row">
        <button aria-describedby=${name} @click=${() => this.choose({ name })}>Begin a job with it</button>
      </div>
      <details>
        <summary>${sentence(`${counted(card.stories.length, 'story', 'stories')} and ${counted(card.jobs.length, 'job', 'jobs')}, all invented`)}</summary>
        <div class="demos">
          <div>
            <p class="quiet">Stories are played over time on the bench, with their fault in.</p>
            ${card.stories.map(
              (story) => html`<button @click=${() => this.choose({ name, story })}>
                <b>Play: ${story.about}</b> ${story.fault === '' ? 'No fault.' : `Fault: ${story.fault}.`}
              </button>`,
            )}
          </div>
          <div>
            <p class="quiet">Jobs open in Find the cause with what was found; the cause is for you to prove.</p>
            ${card.jobs.map(
              (job) => html`<button @click=${() => this.choose({ name, job })}>
                <b>Find the cause: ${job.complaint}</b> ${job.vehicle}${job.history.length === 0 ? nothing : `; ${job.history.join(', ')}`}
              </button>`,
            )}
          </div>
        </div>
      </details>
    </article>`;
  }

  private choose(chosen: Chosen): void {
    this.dispatchEvent(new CustomEvent<Chosen>('chosen', { detail: chosen }));
  }
}

const numbers = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];
/** `one story`, `three jobs`, `no jobs`. */
const counted = (many: number, one: string, more: string) => `${numbers[many] ?? many} ${many === 1 ? one : more}`;
const sentence = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/** Decoration: what it shows stands beside it in words. */
function miniature({ width, height, wires, pieces, loads, bars, key }: Miniature) {
  return html`<svg viewBox="0 0 ${width} ${height}" aria-hidden="true">
    ${svg`<path class="key" d=${key}></path><path class="wires" d=${wires}></path><path class="pieces" d=${pieces}></path><path class="loads" d=${loads}></path><path class="bars" d=${bars}></path>`}
  </svg>`;
}
