import { css, html, LitElement, svg } from 'lit';
import { type Stage, stages } from '../../src/report/diagnosisView.ts';
import { controls } from '../looks/controls.ts';

/** How far the search is: a degree line with a notch for each stage, the present one in the hand's colour. */
export class ProofScale extends LitElement {
  static override properties = { stage: { type: String }, text: { type: String } };
  declare stage: Stage;
  declare text: string;

  static override styles = [
    controls,
    css`
      :host {
        display: block;
      }
      svg {
        display: block;
        width: 100%;
        height: 34px;
        overflow: visible;
      }
      .line,
      .tick {
        stroke: var(--ink);
        stroke-width: 1.6;
        fill: none;
      }
      .tick {
        stroke-width: 1;
      }
      .notch {
        fill: var(--sheet);
        stroke: var(--ink);
        stroke-width: 1.6;
      }
      .notch.now {
        fill: var(--hand);
        stroke: var(--hand);
      }
      ol {
        display: grid;
        grid-template-columns: repeat(4, 1fr);
        list-style: none;
        margin: 2px 0 8px;
        padding: 0;
        text-align: center;
        font-size: 15px;
        line-height: 1.1;
      }
      [aria-current] {
        font-weight: 700;
      }
    `,
  ];

  override render() {
    const at = stages.indexOf(this.stage);
    return html`<svg viewBox="0 0 400 34" preserveAspectRatio="none" aria-hidden="true">
        <path class="line" d="M4 28H396"></path>
        ${Array.from({ length: 29 }, (_x, k) => svg`<path class="tick" d="M${8 + k * 13.7} 28v-6"></path>`)}
        ${stages.map((_s, k) => svg`<path class=${k === at ? 'notch now' : 'notch'} d="M${42 + k * 100} 8h16l-8 16Z"></path>`)}
      </svg>
      <ol>${stages.map((s) => (s === this.stage ? html`<li aria-current="step">${s}</li>` : html`<li>${s}</li>`))}</ol>
      <p>${this.text}</p>`;
  }
}
