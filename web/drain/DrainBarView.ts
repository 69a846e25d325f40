import { css, html, LitElement, nothing, svg } from 'lit';
import type { BarItem, DrainBar } from '../../src/report/drainBar.ts';
import { textWidth } from '../../src/report/textWidth.ts';
import { controls } from '../looks/controls.ts';

const share = (x: number): string => `${(100 * x).toFixed(2)}%`;

/** Who draws, as one bar to scale: solid as designed, hatched as supposed, dotted what nothing explains; the reading a needle. */
export class DrainBarView extends LitElement {
  static override properties = { bar: { attribute: false } };
  declare bar: DrainBar;

  static override styles = [
    controls,
    css`
      :host {
        display: block;
      }
      .over {
        display: flex;
        flex-wrap: wrap;
        justify-content: space-between;
        gap: 0 16px;
        min-height: 22px;
      }
      svg {
        display: block;
        width: 100%;
        height: 106px;
        overflow: visible;
      }
      text {
        font: 500 15px "Barlow Semi Condensed", sans-serif;
        fill: var(--ink);
      }
      .designed {
        stroke: var(--sheet);
        stroke-width: 1;
      }
      .g0 {
        fill: var(--ink);
      }
      .g1 {
        fill: var(--edge);
      }
      .g2 {
        fill: var(--ink2);
      }
      .supposed {
        fill: url(#hatch);
        stroke: var(--ink);
        stroke-width: 1.6;
      }
      .unexplained {
        fill: url(#dots);
        stroke: var(--ink);
        stroke-width: 1.6;
      }
      .ground {
        fill: var(--tagtint);
      }
      .hatchline {
        stroke: var(--tag);
        stroke-width: 2.6;
      }
      .point {
        fill: var(--ink);
      }
      .axis {
        stroke: var(--ink);
        stroke-width: 1.6;
        fill: none;
      }
      .allowed {
        stroke: var(--ink);
        stroke-width: 2;
        stroke-dasharray: 6 4;
      }
      .needle {
        stroke: var(--hand);
        stroke-width: 4;
      }
      .tip {
        fill: var(--hand);
      }
      .plate {
        display: inline-block;
        background: var(--sheet);
        border: 2px solid var(--tag);
        padding: 2px 10px;
        font-weight: 700;
      }
      .plain {
        fill: var(--sheet);
        stroke: var(--tag);
        stroke-width: 1.6;
      }
      .on {
        font-size: 17px;
        font-weight: 700;
      }
      .under {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 16px;
        align-items: center;
      }
    `,
  ];

  override render() {
    const { bar } = this;
    const supposed = bar.items.find((i) => i.is === 'supposed');
    return html`
      <div class="over"><span>${bar.designed}</span>${bar.unexplained ? html`<b>${bar.unexplained}</b>` : nothing}</div>
      <svg role="img" aria-label=${[bar.designed, supposed?.label, bar.unexplained, bar.reading?.label, bar.allowed.label].filter((t) => t !== undefined).join('; ')}>
        <defs>
          <pattern id="hatch" width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect class="ground" width="9" height="9"></rect><path class="hatchline" d="M0 -1V10"></path></pattern>
          <pattern id="dots" width="7" height="7" patternUnits="userSpaceOnUse"><circle class="point" cx="2" cy="2" r="1"></circle></pattern>
        </defs>
        ${bar.items.map((i, k) => this.piece(i, k))}
        ${supposed && supposed.to - supposed.from >= 0.35 ? this.plate(supposed) : nothing}
        <line class="axis" x1="0" x2="100%" y1="76" y2="76"></line>
        ${bar.ticks.map(
          (t, k) =>
            svg`<line class="axis" x1=${share(t.at)} x2=${share(t.at)} y1="76" y2="84"></line><text x=${share(t.at)} y="101" text-anchor=${t.at > 0.97 ? 'end' : k === 0 ? 'start' : 'middle'}>${t.label}${k === 0 ? (bar.most_A < 1 ? ' mA' : ' A') : ''}</text>`,
        )}
        <line class="allowed" x1=${share(bar.allowed.at)} x2=${share(bar.allowed.at)} y1="10" y2="76"></line>
        ${
          bar.reading
            ? svg`<line class="needle" x1=${share(bar.reading.at)} x2=${share(bar.reading.at)} y1="4" y2="84"></line><svg x=${share(bar.reading.at)} y="0" overflow="visible"><path class="tip" d="M-8 0H8L0 12Z"></path></svg>`
            : nothing
        }
      </svg>
      ${supposed && supposed.to - supposed.from < 0.35 ? html`<p class="under"><span class="plate">${supposed.label}</span></p>` : nothing}`;
  }

  /** The words of a wide piece stand on it, on a plain plate. */
  private plate(i: BarItem) {
    const width = textWidth(i.label, 17, 700) + 28;
    return svg`<svg x=${share((i.from + i.to) / 2)} y="28" overflow="visible"><rect class="ground plain" x=${-width / 2} width=${width} height="34"></rect><text class="on" y="23" text-anchor="middle">${i.label}</text></svg>`;
  }

  private piece(i: BarItem, k: number) {
    const name = i.is === 'designed' ? `designed g${k % 3}` : i.is;
    return svg`<rect class=${name} x=${share(i.from)} y="14" width=${share(Math.max(0, i.to - i.from))} height="62"><title>${i.label}</title></rect>`;
  }
}
