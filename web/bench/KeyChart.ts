import { css, html, LitElement, nothing, type PropertyValues, svg } from 'lit';
import type { KeyPlace } from '../../src/circuit/scene.ts';
import { type KeyChart as Chart, type KeyChartInput, keyChart } from '../../src/report/keyChart.ts';
import { controls } from '../looks/controls.ts';

/** A turn of the key, by whatever hand: the steps of one drag carry the same gesture. */
export type Turned = { readonly key: KeyPlace; readonly gesture: string };

type Shown = { readonly positions: readonly (KeyChartInput['positions'][number] & { readonly keyOut: boolean })[] } & Pick<
  KeyChartInput,
  'rings'
>;

/** A detent takes the key within this many degrees, unless Shift is held. */
const detentPull = 3;
let gestures = 0;

/**
 * The key switch as an arc chart with the key as its needle.
 *
 * @fires key-turned - detail: Turned; dragging, arrow keys, buttons
 * @fires key-released - detail: gesture; the hand is off: a sprung position returns
 * Keys on the chart: arrows 1°, Page Up and Page Down next detent, Home and End the ends, Escape lets go.
 */
export class KeyChart extends LitElement {
  static override properties = {
    shown: { attribute: false },
    place: { attribute: false },
    stands: { type: Number },
    radius: { type: Number },
  };
  declare shown: Shown | undefined;
  declare place: KeyPlace | undefined;
  /** Where the switch itself stands, degrees; differs from the key by lost motion. */
  declare stands: number | undefined;
  declare radius: number;
  private chart: Chart | undefined;
  private gesture = '';
  private dragging = false;
  private holding = false;

  constructor() {
    super();
    this.radius = 286;
  }

  static override styles = [
    controls,
    css`
      :host {
        display: block;
        position: relative;
      }
      .out {
        position: absolute;
        right: 0;
        top: 0;
      }
      .steps {
        display: flex;
        gap: 6px;
        flex: 1 1 auto;
      }
      svg {
        display: block;
        width: 100%;
        height: auto;
        overflow: visible;
        touch-action: none;
        cursor: grab;
        font-variant-numeric: tabular-nums;
      }
      svg:active {
        cursor: grabbing;
      }
      .slider {
        outline-offset: 4px;
      }
      text {
        fill: var(--ink);
        font-size: 18px;
        font-weight: 600;
      }
      .ring {
        font-size: 16px;
      }
      .now {
        font-weight: 700;
      }
      .scale {
        fill: none;
        stroke: var(--ink);
        stroke-width: 1.6;
      }
      .inner {
        fill: none;
        stroke: var(--rule);
        stroke-width: 1;
      }
      .notch {
        fill: var(--ink);
        stroke: var(--ink);
        stroke-width: 1.6;
      }
      .outline {
        fill: var(--sheet);
        stroke: var(--edge);
        stroke-width: 1.2;
      }
      .closed {
        fill: var(--ink);
      }
      .added {
        fill: var(--ink);
        stroke: var(--tag);
        stroke-width: 3;
      }
      .missing {
        fill: url(#hatch);
        stroke: var(--tag);
        stroke-width: 2;
      }
      .hatch-ground {
        fill: var(--tagtint);
      }
      .hatch-line {
        stroke: var(--tag);
        stroke-width: 2.2;
      }
      .needle {
        transition: transform var(--turn) ease-out;
      }
      .needle.dragged {
        transition: none;
      }
      .needle path,
      .needle circle {
        stroke-linejoin: round;
      }
      .casing {
        stroke: var(--sheet);
        fill: none;
      }
      .hand {
        fill: var(--hand);
      }
      .handline {
        stroke: var(--hand);
        fill: none;
      }
      .grip {
        fill: var(--sheet);
        stroke: var(--hand);
        stroke-width: 3;
      }
      .eye {
        fill: var(--sheet);
      }
      .stands {
        stroke: var(--hand);
        stroke-width: 2;
        stroke-dasharray: 6 4;
        fill: none;
      }
      .buttons {
        display: flex;
        flex-wrap: wrap;
        gap: 6px;
        margin-top: 12px;
      }
      .buttons button {
        flex: 1 1 auto;
        padding: 4px 8px;
        min-width: 44px;
      }
      @media (max-width: 899.9px) {
        .buttons button {
          min-height: 50px;
          font-size: 17px;
        }
      }
    `,
  ];

  override focus(): void {
    this.renderRoot.querySelector<HTMLElement>('.slider')?.focus({ preventScroll: true });
  }

  override willUpdate(changed: PropertyValues<this>): void {
    if (!this.shown || !(changed.has('shown') || changed.has('radius'))) return;
    this.chart = keyChart({ positions: this.shown.positions, rings: this.shown.rings, radius: this.radius });
  }

  override render() {
    const { chart, place, shown } = this;
    if (!chart || !place || !shown) return nothing;
    const { box } = chart;
    const nearest = this.detentHere(place);
    return html`
      <div
        class="slider"
        role="slider"
        tabindex="0"
        aria-label="Key"
        aria-valuemin=${chart.travel[0]}
        aria-valuemax=${chart.travel[1]}
        aria-valuenow=${place.angle}
        aria-valuetext=${this.placeWords(place)}
        @keydown=${this.onKeys}
      >
        <svg
          viewBox="${box.left} ${box.top} ${box.width} ${box.height}"
          aria-hidden="true"
          @pointerdown=${this.onDown}
          @pointermove=${this.onMove}
          @pointerup=${this.onUp}
          @pointercancel=${this.onUp}
        >
          <defs>
            <pattern id="hatch" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
              <rect class="hatch-ground" width="7" height="7"></rect>
              <path class="hatch-line" d="M0 0V7"></path>
            </pattern>
          </defs>
          ${chart.rings.map(
            (ring) => svg`
            <path class="outline" d=${ring.outline}></path>
            ${ring.pieces.map((p) => svg`<path class=${p.state} d=${p.path}></path>`)}
            <text class="ring" x=${ring.labelX} y=${ring.labelY} text-anchor="end">${ring.id.replace('-', '–')}</text>`,
          )}
          <path class="inner" d=${chart.inner}></path>
          <path class="scale" d=${chart.scalePath}></path>
          ${chart.ticks.map((path) => svg`<path class="scale" d=${path}></path>`)}
          ${chart.springs.map((s) => svg`<path class="scale" d=${s.path}></path><path class="notch" d=${s.head}></path>`)}
          ${chart.detents.map(
            (d) => svg`
            <path class=${d.sprung ? 'scale' : 'notch'} d=${d.mark}></path>
            <text class=${d.name === nearest ? 'now' : ''} x=${d.x} y=${d.y} text-anchor=${d.anchor}>${d.name}</text>`,
          )}
          ${this.lag(chart, place)}
          ${place.in ? this.needle(chart) : svg`<circle class="grip" r="17"></circle><path class="handline" stroke-width="5" d="M0 -9V9"></path>`}
        </svg>
      </div>
      ${
        shown.positions.some((p) => p.keyOut && p.name === nearest)
          ? html`<button class="out" aria-pressed=${!place.in} @click=${() => this.turnTo(place.angle, this.newGesture(), !place.in)}>Key out</button>`
          : nothing
      }
      ${chart.toScale ? nothing : html`<p class="small quiet">Angles compressed, not to scale.</p>`}
      <div class="buttons" role="group" aria-label="Turn the key">
        ${shown.positions.map((p) => this.positionButton(p, nearest))}
        <span class="steps">
          <button @click=${() => this.turnBy(-1)} aria-label="Back 1 degree">− 1°</button>
          <button @click=${() => this.turnBy(1)} aria-label="On 1 degree">+ 1°</button>
        </span>
      </div>
    `;
  }

  private positionButton(p: Shown['positions'][number], nearest: string | undefined) {
    const pressed = nearest === p.name && (this.place?.in ?? false);
    if (p.springsTo === undefined)
      return html`<button aria-pressed=${pressed} @click=${() => this.turnTo(p.angle, this.newGesture())}>${p.name}</button>`;
    return html`<button
      aria-pressed=${pressed}
      @pointerdown=${(e: PointerEvent) => {
        (e.currentTarget as Element).setPointerCapture(e.pointerId);
        this.hold(p.angle);
      }}
      @pointerup=${this.letGo}
      @pointercancel=${this.letGo}
      @keydown=${(e: KeyboardEvent) => {
        if ((e.key === ' ' || e.key === 'Enter') && !e.repeat) this.hold(p.angle);
      }}
      @keyup=${(e: KeyboardEvent) => {
        if (e.key === ' ' || e.key === 'Enter') this.letGo();
      }}
      @blur=${this.letGo}
      @click=${(e: MouseEvent) => {
        // A click without finger or key comes from assistive technology: it holds, the next one lets go.
        if (e.detail !== 0 || this.justHeld) return;
        if (pressed) this.dispatchEvent(new CustomEvent('key-released', { detail: this.gesture }));
        else this.turnTo(p.angle, this.newGesture());
      }}
      @contextmenu=${(e: Event) => e.preventDefault()}
    >
      ${p.name}, hold
    </button>`;
  }

  private justHeld = false;
  private hold(angle: number): void {
    this.holding = true;
    this.justHeld = true;
    this.turnTo(angle, this.newGesture());
  }
  private readonly letGo = (): void => {
    if (!this.holding) return;
    this.holding = false;
    this.released();
    setTimeout(() => {
      this.justHeld = false;
    });
  };

  /** Bow at the centre, blade, handle, pointer to the scale; drawn upright and turned by the style sheet. */
  private needle(chart: Chart) {
    const r = chart.radius;
    const grip = r > 250 ? 104 : 88;
    return svg`<g class="needle">
      <path class="casing" stroke-width="9" d="M0 ${-grip - 20}V${-r + 24}"></path>
      <path class="handline" stroke-width="3.2" d="M0 ${-grip - 20}V${-r + 12}"></path>
      <path class="hand" d="M0 ${-r + 1}L-4.5 ${-r + 16}H4.5Z"></path>
      <path class="hand" d="M-7 -26V${-grip + 18}L0 ${-grip + 12}L7 ${-grip + 18}V-26Z"></path>
      <path class="casing" stroke-width="2" d="M-1 -34V${-grip + 24}M3 -34V${-grip + 24}"></path>
      <circle class="hand" r="30"></circle>
      <ellipse class="eye" cx="0" cy="6" rx="8" ry="13" transform="rotate(35)"></ellipse>
      <g transform="translate(0 ${-grip})">
        <circle class="grip" r="22"></circle>
        <path class="handline" stroke-width="2.4" d="M-5 -7V7M0 -9V9M5 -7V7"></path>
        <path class="hand" d="M-16 0L-9.5 -4.5V4.5ZM16 0L9.5 -4.5V4.5Z"></path>
      </g>
    </g>`;
  }

  /** Lost motion: a thin needle where the switch stands, and the degrees between. */
  private lag(chart: Chart, place: KeyPlace) {
    const stands = this.stands;
    if (stands === undefined || !place.in || Math.abs(stands - place.angle) < 0.5) return nothing;
    const r = chart.radius;
    const middle = chart.turn((stands + place.angle) / 2);
    const [x, y] = [(r + 34) * Math.sin((middle * Math.PI) / 180), -(r + 34) * Math.cos((middle * Math.PI) / 180)];
    return svg`<path class="stands" d="M0 -34V${-r}" transform="rotate(${chart.turn(stands)})"></path>
      <text class="ring" x=${x} y=${y} text-anchor="middle">${Math.round(Math.abs(stands - place.angle))}° lost</text>`;
  }

  override updated(): void {
    const needle = this.renderRoot.querySelector<SVGGElement>('.needle');
    if (!needle || !this.chart || !this.place) return;
    needle.classList.toggle('dragged', this.dragging);
    needle.style.transform = `rotate(${this.chart.turn(this.place.angle)}deg)`;
  }

  private detentHere(place: KeyPlace): string | undefined {
    return this.shown?.positions.find((p) => Math.abs(p.angle - place.angle) < 0.5)?.name;
  }

  private placeWords(place: KeyPlace): string {
    const degrees = `${Math.round(place.angle)} degrees`;
    const name = this.detentHere(place);
    if (!place.in) return 'key out';
    return name === undefined ? `between detents, ${degrees}` : `${name}, at the detent, ${degrees}`;
  }

  private newGesture(): string {
    this.gesture = `turn ${++gestures}`;
    return this.gesture;
  }

  private turnTo(angle: number, gesture: string, isIn = true): void {
    const { place, chart } = this;
    if (!place || !chart) return;
    const to = Math.min(chart.travel[1], Math.max(chart.travel[0], angle));
    if (to === place.angle && isIn === place.in) return;
    const came = to === place.angle ? place.came : to > place.angle ? 'up' : 'back';
    this.dispatchEvent(new CustomEvent<Turned>('key-turned', { detail: { key: { angle: to, came, in: isIn }, gesture } }));
  }

  private turnBy(degrees: number): void {
    if (this.place) this.turnTo(Math.round(this.place.angle + degrees), this.gesture.startsWith('by') ? this.gesture : this.byGesture());
  }
  private byGesture(): string {
    this.gesture = `by ${++gestures}`;
    return this.gesture;
  }

  private released(): void {
    this.dispatchEvent(new CustomEvent<string>('key-released', { detail: this.gesture }));
  }

  private angleOf(e: PointerEvent): number | undefined {
    const { chart } = this;
    const picture = this.renderRoot.querySelector('svg');
    const screen = picture?.getScreenCTM();
    if (!chart || !screen) return undefined;
    const { x, y } = new DOMPoint(e.clientX, e.clientY).matrixTransform(screen.inverse());
    if (Math.hypot(x, y) < 12) return undefined;
    const turned = (Math.atan2(x, -y) * 180) / Math.PI;
    const raw = chart.angleAt(turned < -90 ? turned + 360 : turned);
    const detent = e.shiftKey ? undefined : this.shown?.positions.find((p) => Math.abs(p.angle - raw) <= detentPull);
    return detent?.angle ?? Math.round(raw * 2) / 2;
  }

  private onDown(e: PointerEvent): void {
    if (e.button !== 0) return;
    (e.currentTarget as Element).setPointerCapture(e.pointerId);
    this.renderRoot.querySelector<HTMLElement>('.slider')?.focus({ preventScroll: true });
    this.dragging = true;
    this.newGesture();
    this.onMove(e);
    e.preventDefault();
  }
  private onMove(e: PointerEvent): void {
    if (!this.dragging) return;
    const angle = this.angleOf(e);
    if (angle !== undefined) this.turnTo(angle, this.gesture);
  }
  private onUp(): void {
    if (!this.dragging) return;
    this.dragging = false;
    this.released();
  }

  private onKeys(e: KeyboardEvent): void {
    const { place, chart } = this;
    if (!place || !chart || e.ctrlKey || e.metaKey || e.altKey) return;
    const detents = [...chart.detents].sort((a, b) => a.angle - b.angle);
    const step = e.shiftKey ? 5 : 1;
    if (e.key === 'ArrowUp' || e.key === 'ArrowRight') this.turnBy(step);
    else if (e.key === 'ArrowDown' || e.key === 'ArrowLeft') this.turnBy(-step);
    else if (e.key === 'PageUp') this.turnTo(detents.find((d) => d.angle > place.angle)?.angle ?? chart.travel[1], this.newGesture());
    else if (e.key === 'PageDown')
      this.turnTo(detents.filter((d) => d.angle < place.angle).at(-1)?.angle ?? chart.travel[0], this.newGesture());
    else if (e.key === 'Home') this.turnTo(chart.travel[0], this.newGesture());
    else if (e.key === 'End') this.turnTo(chart.travel[1], this.newGesture());
    else if (e.key === 'Escape') this.released();
    else return;
    e.preventDefault();
  }
}
