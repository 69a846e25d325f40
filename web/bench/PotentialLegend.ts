import { css, html, LitElement, svg } from 'lit';
import { voltsText } from '../../src/report/positionRows.ts';
import { ramp } from '../../src/report/ribbon.ts';
import { chevron } from '../../src/report/symbols/chevron.ts';
import { controls } from '../looks/controls.ts';

/** What the ribbons of the drawing say: potential, current, floating, changed. */
export class PotentialLegend extends LitElement {
  static override properties = { supply: { type: Number }, drain: { type: Boolean } };
  declare supply: number;
  /** Drain scenes: the scale of currents begins at 10 µA. */
  declare drain: boolean;

  constructor() {
    super();
    this.supply = 12;
    this.drain = false;
  }

  static override styles = [
    controls,
    css`
      :host {
        display: block;
        font-size: 15px;
      }
      div {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 4px 14px;
      }
      span {
        display: inline-flex;
        align-items: center;
        gap: 6px;
        white-space: nowrap;
      }
      svg {
        display: block;
      }
      .bar {
        stroke: var(--ink);
        stroke-width: 1.2;
      }
      .edge {
        stroke: var(--wireedge);
      }
      .dots {
        stroke: var(--ink);
        stroke-width: 3;
        stroke-dasharray: 0 7;
        stroke-linecap: round;
      }
      .chevron {
        fill: var(--ink);
        stroke: var(--sheet);
        stroke-width: 1.2;
      }
      .hatch {
        stroke: var(--tag);
        stroke-width: 2.6;
      }
      .hatchground {
        fill: var(--tagtint);
      }
    `,
  ];

  override render() {
    const stops = [0, 0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 0.875, 1];
    const amounts = this.drain ? ['0.1 mA', '1 mA', '10 mA'] : ['0.1 A', '1 A', '10 A'];
    return html`<div role="img" aria-label="Legend: potential from 0 volts, dark blue, to ${voltsText(this.supply)}, yellow; wires grow with current; dotted wires are tied to nothing; hatched stretches differ from the healthy circuit">
      <span>0 V<svg width="152" height="16" aria-hidden="true"><defs><linearGradient id="ramp">${stops.map(
        (s) => svg`<stop offset=${s} stop-color=${ramp(s)}></stop>`,
      )}</linearGradient></defs><rect class="bar" x="1" y="1" width="150" height="14" fill="url(#ramp)"></rect></svg>${voltsText(this.supply)}</span>
      <span><svg width="44" height="6" aria-hidden="true"><path class="dots" d="M3 3H44"></path></svg>floating</span>
      <span>${this.ribbon(2, false)}none</span>
      ${[4, 5.5, 7].map((w, k) => html`<span>${this.ribbon(w, true)}${amounts[k]}</span>`)}
      <span><svg width="44" height="14" aria-hidden="true"><rect class="hatchground" width="44" height="14"></rect>${[
        0, 7, 14, 21, 28, 35, 42,
      ].map((x) => svg`<path class="hatch" d="M${x - 6} 14L${x + 6} 0"></path>`)}</svg>changed by the fault</span>
    </div>`;
  }

  private ribbon(width: number, flows: boolean) {
    return svg`<svg width="46" height="18" aria-hidden="true"><path class="edge" stroke-width=${width + 2.4} d="M0 9H46"></path><path stroke=${ramp(1)} stroke-width=${width} d="M0 9H46"></path>${
      flows ? svg`<path class="chevron" transform="translate(23 9)" d=${chevron}></path>` : null
    }</svg>`;
  }
}
