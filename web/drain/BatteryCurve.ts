import { css, html, LitElement, nothing, svg } from 'lit';
import type { DrainCurve } from '../../src/report/drainCurve.ts';
import { controls } from '../looks/controls.ts';

const left = 44;
const top = 12;

/** Charge over the time parked; the lines are named at the line, below the floor it no longer cranks. */
export class BatteryCurve extends LitElement {
  static override properties = { curve: { attribute: false } };
  declare curve: DrainCurve;

  static override styles = [
    controls,
    css`
      :host {
        display: block;
      }
      svg {
        display: block;
        max-width: 100%;
        height: auto;
      }
      text {
        font: 500 15px "Barlow Semi Condensed", sans-serif;
        fill: var(--ink);
        paint-order: stroke;
        stroke: var(--sheet);
        stroke-width: 4px;
      }
      .axis {
        stroke: var(--ink);
        stroke-width: 1.6;
        fill: none;
      }
      .grid {
        stroke: var(--rule);
      }
      .band {
        fill: var(--rule);
        opacity: 0.8;
      }
      .designed,
      .now {
        fill: none;
        stroke: var(--ink);
        stroke-width: 4;
        stroke-linecap: round;
      }
      .now {
        stroke: var(--tag);
      }
      .region {
        fill: url(#below);
      }
      .hatch {
        stroke: var(--rule);
        stroke-width: 1.4;
      }
      .floor {
        stroke: var(--ink);
        stroke-width: 2;
        stroke-dasharray: 8 5;
      }
      .meets {
        fill: var(--sheet);
        stroke: var(--tag);
        stroke-width: 3;
      }
      .when {
        font-size: 18px;
        font-weight: 700;
      }
      .frost {
        margin-top: 8px;
      }
    `,
  ];

  override render() {
    const { curve: c } = this;
    const [w, h] = [c.width, c.height];
    const designed = c.lines.find((l) => l.is === 'designed');
    const now = c.lines.find((l) => l.is === 'now');
    const said = [...c.lines.map((l) => l.label), c.meets?.label, c.noStart.label].filter((t) => t !== undefined).join('; ');
    const right = w - 4;
    return html`<svg width=${w + left + 12} height=${h + top + 46} viewBox="${-left} ${-top} ${w + left + 12} ${h + top + 46}" role="img" aria-label="Charge of the battery while parked: ${said}">
        <defs><pattern id="below" width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path class="hatch" d="M0 -1V10"></path></pattern></defs>
        <rect class="region" y=${c.noStart.y} width=${w} height=${h - c.noStart.y}></rect>
        ${c.yTicks.map((t) => svg`<line class="grid" x2=${w} y1=${t.y} y2=${t.y}></line><text x="-8" y=${t.y + 5} text-anchor="end">${t.label}</text>`)}
        <path class="band" d=${c.band}></path>
        <line class="floor" x2=${w} y1=${c.noStart.y} y2=${c.noStart.y}></line>
        <text x=${right} y=${Math.min(h - 8, c.noStart.y + 20)} text-anchor="end">${c.noStart.label}</text>
        ${c.lines.map((l) => svg`<path class=${l.is} d=${l.path}></path>`)}
        <path class="axis" d="M0 0V${h}H${w}"></path>
        ${c.xTicks.map((t) => svg`<path class="axis" d="M${t.x} ${h}v8"></path><text x=${t.x} y=${h + 24} text-anchor="middle">${t.label}</text>`)}
        <text x=${-left + 2} y=${h + 42}>${c.axis}</text><text x=${w} y=${h + 42} text-anchor="end">${c.unit} parked</text>
        ${designed ? svg`<text x=${right} y=${Math.min(c.noStart.y - 10, Math.max(40, designed.y + 24))} text-anchor="end">${designed.label}</text>` : nothing}
        ${now ? svg`<text x=${Math.min(now.x + 12, right)} y=${Math.min(h - 8, Math.max(c.noStart.y + 42, now.y))} text-anchor=${now.x + 150 > w ? 'end' : 'start'}>${now.label}</text>` : nothing}
        ${
          c.meets
            ? svg`<circle class="meets" cx=${c.meets.x} cy=${c.meets.y} r="7"></circle><text class="when" x=${c.meets.x + (c.meets.x > w / 2 ? -12 : 12)} y=${c.meets.y - 12} text-anchor=${c.meets.x > w / 2 ? 'end' : 'start'}>${c.meets.label}</text>`
            : nothing
        }
      </svg>
      ${c.frost ? html`<p class="frost caution"><b>Frost</b> ${c.frost}</p>` : nothing}`;
  }
}
