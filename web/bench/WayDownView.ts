import { css, html, LitElement, nothing, svg } from 'lit';
import { voltsText } from '../../src/report/positionRows.ts';
import { ramp } from '../../src/report/ribbon.ts';
import { symbolOf } from '../../src/report/symbols/index.ts';
import type { WayDown, WayStep } from '../../src/report/wayDown.ts';
import type { FaultIn } from '../calls.ts';
import { controls } from '../looks/controls.ts';
import { symbolShapes } from './symbolShapes.ts';

/**
 * The way of one load's current straight down, battery to ground, with the volts between the parts: the drawing of a
 * narrow screen.
 * @fires load-picked - detail: id of a neighbouring load
 * @fires whole - the whole drawing is wanted
 */
export class WayDownView extends LitElement {
  static override properties = {
    way: { attribute: false },
    loads: { attribute: false },
    load: { type: String },
    supply: { type: Number },
    put: { attribute: false },
  };
  declare way: WayDown | undefined;
  declare loads: readonly { readonly id: string; readonly name: string; readonly number: number }[];
  declare load: string | undefined;
  declare supply: number;
  declare put: readonly FaultIn[];

  constructor() {
    super();
    this.loads = [];
    this.supply = 12;
    this.put = [];
  }

  static override styles = [
    controls,
    css`
      :host {
        display: grid;
        grid-template-rows: minmax(0, 1fr) auto;
        background: var(--sheet);
      }
      ol {
        list-style: none;
        margin: 0;
        padding: 8px 16px;
        overflow: auto;
      }
      li {
        display: grid;
        grid-template-columns: 92px 1fr auto;
        align-items: center;
      }
      .symbol {
        grid-row: 1 / span 2;
      }
      svg {
        display: block;
      }
      b {
        font-size: 17px;
      }
      .what {
        line-height: 1.2;
        min-height: 44px;
        align-self: end;
      }
      .volts {
        grid-column: 2 / -1;
        display: flex;
        align-items: center;
        gap: 12px;
        font-size: 18px;
        font-weight: 700;
        height: 34px;
      }
      .volts::before {
        content: '';
        flex: 1;
        border-top: 1px solid var(--rule);
      }
      .was {
        font-size: 14px;
        font-weight: 500;
        color: var(--tag);
      }
      .fault {
        color: var(--tag);
        font-weight: 600;
      }
      .edge {
        stroke: var(--wireedge);
      }
      .ringtag {
        fill: none;
        stroke: var(--tag);
        stroke-width: 2.4;
      }
      .line {
        stroke: var(--ink);
        stroke-linecap: round;
        stroke-linejoin: round;
      }
      .fill-none {
        fill: none;
      }
      .fill-ink {
        fill: var(--ink);
      }
      .fill-sheet {
        fill: var(--sheet);
      }
      .inside {
        fill: var(--ink);
      }
      .dots {
        stroke: var(--ink);
        stroke-width: 3;
        stroke-dasharray: 0 7;
        stroke-linecap: round;
      }
      .hatch {
        fill: url(#hatch);
      }
      .hatchground {
        fill: var(--tagtint);
      }
      .hatchline {
        stroke: var(--tag);
        stroke-width: 2.6;
      }
      .row {
        padding: 8px 12px;
        flex-wrap: nowrap;
        border-top: 1px solid var(--rule);
      }
      .row button {
        min-height: 50px;
        padding: 4px 6px;
      }
      .empty {
        padding: 20px 16px;
      }
    `,
  ];

  override render() {
    const { way, load, loads } = this;
    const at = loads.findIndex((l) => l.id === load);
    const near = loads.slice(Math.max(0, at - 1), Math.max(0, at - 1) + 3);
    return html`
      ${
        way
          ? html`<ol aria-label="Way of the current through ${load}">${way.steps.map((s, k) => this.step(s, way.steps[k - 1]))}</ol>`
          : html`<p class="empty">${load === undefined ? 'No load chosen. Pick one in the table, or below.' : 'Nothing flows through this load in this key position, in the healthy vehicle neither.'}</p>`
      }
      <div class="row">
        ${near.map((l) => html`<button aria-pressed=${l.id === load} title=${l.name} @click=${() => this.dispatchEvent(new CustomEvent('load-picked', { detail: l.id }))}>Track ${l.number}</button>`)}
        <button @click=${() => this.dispatchEvent(new CustomEvent('whole'))}>Whole drawing</button>
      </div>
    `;
  }

  private step(s: WayStep, above: WayStep | undefined) {
    const symbol = symbolOf(s.symbol);
    const fault = this.put.find((f) => f.subject === s.subject || f.subject === s.part);
    const changed = s.volts === null || s.healthy === null ? s.volts !== s.healthy : Math.abs(s.volts - s.healthy) > 0.2;
    const middle = 34;
    return html`<li>
      <svg class="symbol" width="92" height="100" viewBox="0 0 92 100" aria-hidden="true">
        <defs>
          <pattern id="hatch" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
            <rect class="hatchground" width="6" height="6"></rect>
            <path class="hatchline" d="M0 -1V7"></path>
          </pattern>
        </defs>
        ${changed ? svg`<rect class="hatch" x="36.500" y=${middle + symbol.height / 2} width="19" height=${100 - middle - symbol.height / 2}></rect>` : nothing}
        ${this.wire(s.volts, middle + symbol.height / 2 - 2, 100)}
        ${above ? this.wire(above.volts, 0, Math.max(0, middle - symbol.height / 2 + 2)) : nothing}
        <g transform="translate(46 ${middle})">${symbolShapes(s.symbol, s.isClosed ? 'closed' : 'open')}</g>
        ${fault ? svg`<circle class="ringtag" cx="46" cy=${middle} r="29"></circle>` : nothing}
      </svg>
      <p class="what"><b>${s.title}</b><br />${fault ? html`<span class="fault">${[fault.words, s.name].filter((w) => w !== '').join(', ')}</span>` : html`<span class="quiet">${s.name}</span>`}</p>
      <p class="volts">${changed && s.healthy !== null ? html`<span class="was">was ${voltsText(s.healthy)}</span>` : nothing} ${s.volts === null ? 'floating' : voltsText(s.volts)}</p>
    </li>`;
  }

  private wire(volts: number | null, from: number, to: number) {
    if (volts === null) return svg`<path class="dots" d="M46 ${from}V${to}"></path>`;
    return svg`<path class="edge" stroke-width="9" d="M46 ${from}V${to}"></path><path stroke=${ramp(Math.abs(volts) / this.supply)} stroke-width="6.500" d="M46 ${from}V${to}"></path>`;
  }
}
