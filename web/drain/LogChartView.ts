import { css, html, LitElement, svg } from 'lit';
import type { LogChart } from '../../src/report/drainLogChart.ts';
import { controls } from '../looks/controls.ts';

/** The measured log: what was logged as a band, its levels as a staircase, the matched steps with their text. */
export class LogChartView extends LitElement {
  static override properties = { chart: { attribute: false }, lines: { attribute: false } };
  declare chart: LogChart;
  declare lines: readonly string[];

  static override styles = [
    controls,
    css`
      .box {
        overflow-x: auto;
      }
      svg {
        display: block;
      }
      text {
        font: 500 14px "Barlow Semi Condensed", sans-serif;
        fill: var(--ink);
        paint-order: stroke;
        stroke: var(--sheet);
        stroke-width: 4px;
      }
      .rows {
        fill: var(--edge);
      }
      .levels {
        fill: none;
        stroke: var(--ink);
        stroke-width: 2.4;
      }
      .axis {
        fill: none;
        stroke: var(--ink);
      }
      .grid {
        stroke: var(--rule);
      }
      .gap {
        fill: var(--band);
      }
      .mark {
        fill: var(--hand);
      }
      li {
        padding: 4px 0;
        border-top: 1px solid var(--rule);
      }
    `,
  ];

  override render() {
    const { chart: c } = this;
    return html`<div class="box" tabindex="0" role="group" aria-label="Chart of the log"><svg width=${c.width + 90} height=${c.height + 50} viewBox="-70 -12 ${c.width + 90} ${c.height + 50}" role="img" aria-label="Current over time. ${this.lines.join(' ')}">
        ${c.gaps.map((g) => svg`<rect class="gap" x=${g.x} width=${g.width} height=${c.height}></rect>`)}
        ${c.yTicks.map((t) => svg`<line class="grid" x2=${c.width} y1=${t.y} y2=${t.y}></line><text x="-8" y=${t.y + 5} text-anchor="end">${t.label}</text>`)}
        <path class="rows" d=${c.rows}></path><path class="levels" d=${c.levels}></path>
        <path class="axis" d="M0 0V${c.height}H${c.width}"></path>
        ${c.xTicks.map((t) => svg`<text x=${t.x} y=${c.height + 20} text-anchor="middle">${t.label}</text>`)}
        <text x=${c.width} y=${c.height + 36} text-anchor="end">${c.unit}</text>
        ${c.marks.map((m) => svg`<circle class="mark" cx=${m.x} cy=${m.y} r="5"></circle><text x=${Math.min(m.x + 8, c.width - 180)} y=${Math.max(14, m.y - 8)}>${m.label}</text>`)}
      </svg></div>
      <ul>${this.lines.map((l) => html`<li>${l}</li>`)}</ul>`;
  }
}
