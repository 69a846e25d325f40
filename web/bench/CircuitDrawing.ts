import { html, LitElement, nothing, type PropertyValues, svg } from 'lit';
import { guard } from 'lit/directives/guard.js';
import { type CrossingDrawn, crossingsOf, neighbour, type Ribbon, ribbonsOf, terminalAt, terminalPoints } from '../../src/report/drawn.ts';
import type { FunctionGroup } from '../../src/report/functionGroups.ts';
import { type HangTag, hangTags } from '../../src/report/hangTags.ts';
import type { Layout, PlacedPole, Point } from '../../src/report/layout/layout.ts';
import { markPlace } from '../../src/report/markPlace.ts';
import type { Moment } from '../../src/report/moment.ts';
import { amperesText, voltsText } from '../../src/report/positionRows.ts';
import type { SheetMark } from '../../src/report/sheetDrawing.ts';
import type { CircuitSeen, FaultIn } from '../calls.ts';
import { controls } from '../looks/controls.ts';
import { say } from '../say.ts';
import type { Look, Meter } from '../session/session.ts';
import { drawingStyles } from './drawingStyles.ts';
import { type Flag, flagWords, type Halo, haloRings, sheetMarks, tagsHung } from './drawnMarks.ts';
import { fixtures, frames, hitAreas, labels } from './drawnPieces.ts';
import { liveWires, plainWires } from './drawnWires.ts';
import { pathOf } from './svgPath.ts';
import { symbolShapes } from './symbolShapes.ts';

/** While a key is dragged each moment follows the last within this; to shift the colours of every wire then costs many frames a move. */
const swift_ms = 200;
const zooms = [0.35, 0.5, 0.7, 1, 1.4, 2] as const;
const ways: Readonly<Record<string, readonly [number, number]>> = {
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
};

/**
 * The circuit as drawn by its layout, with the potentials and currents of one moment.
 *
 * @fires say - `look`, `meter`
 * Slot: more to press beside the tools.
 * @fires scrolled - detail: { left, top } px, at full size; the table below follows
 * @fires fault-wanted - a part was chosen to put a fault into
 * Keys: arrows from part to part, Enter chooses, F its faults, A and B leads, + - 0 zoom, / search.
 */
export class CircuitDrawing extends LitElement {
  static override properties = {
    layout: { attribute: false },
    circuit: { attribute: false },
    moment: { attribute: false },
    line: { type: String },
    show: { type: String },
    put: { attribute: false },
    load: { attribute: false },
    chosen: { attribute: false },
    marked: { attribute: false },
    meter: { attribute: false },
    halos: { attribute: false },
    flags: { attribute: false },
    marks: { attribute: false },
    neutral: { type: Boolean },
    paper: { type: Boolean },
    only: { type: Boolean },
    tools: { type: Boolean, reflect: true },
    tracks: { attribute: false },
    functions: { attribute: false },
    folded: { attribute: false },
    drain: { type: Boolean },
    zoom: { state: true },
    pointed: { state: true },
    focused: { state: true },
    dragged: { state: true },
  };
  declare layout: Layout;
  declare circuit: Pick<CircuitSeen, 'parts'>;
  declare moment: Moment | undefined;
  /** What is shown, as one sentence: the accessible name. */
  declare line: string;
  declare show: Look['show'];
  declare put: readonly FaultIn[];
  /** Chosen load: its feed and return stand out. */
  declare load: string | undefined;
  declare chosen: string | undefined;
  /** Wires that stand out, by id. */
  declare marked: readonly string[];
  declare meter: Meter | undefined;
  declare halos: readonly Halo[];
  declare flags: readonly Flag[];
  /** Numbers where readings were taken, and the ring round the cause. */
  declare marks: readonly SheetMark[];
  /** Plain ink, no potential: the apprentice must not see the answer. */
  declare neutral: boolean;
  /** On a sheet of paper: fitted to the width, nothing to press. */
  declare paper: boolean;
  declare drain: boolean;
  /** Only what belongs to one load is drawn. */
  declare only: boolean;
  /** With search and the choice of one load. */
  declare tools: boolean;
  /** Of a large circuit: how many tracks it has, and whether all are shown. */
  declare tracks: { readonly many: number; readonly all: boolean } | undefined;
  /** What a large circuit can be folded to, and the names of what it is folded to now. */
  declare functions: readonly FunctionGroup[];
  declare folded: readonly string[];
  declare zoom: number;
  /** What the pointer is at: a wire's index or a pole's id. */
  declare pointed: number | string | undefined;
  declare focused: string | undefined;
  /** A lead on its way to another terminal. */
  declare dragged: { readonly lead: 'red' | 'black'; readonly to: Point } | undefined;
  private crossings: readonly CrossingDrawn[] = [];
  private terminals: ReadonlyMap<string, Point> = new Map();
  private ribbons: readonly Ribbon[] = [];
  private tags: readonly HangTag[] = [];
  /** When the newest moment came, and whether it came so soon after the last that colours change at once. */
  private momentAt = Number.NEGATIVE_INFINITY;
  private follows = false;

  constructor() {
    super();
    this.line = '';
    this.show = 'difference';
    this.put = [];
    this.halos = [];
    this.marked = [];
    this.flags = [];
    this.marks = [];
    this.neutral = false;
    this.paper = false;
    this.drain = false;
    this.only = false;
    this.tools = false;
    this.functions = [];
    this.folded = [];
    this.zoom = 1;
  }

  static override styles = [controls, drawingStyles];

  override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('moment')) {
      const now = performance.now();
      this.follows = now - this.momentAt < swift_ms;
      this.momentAt = now;
    }
    if (changed.has('layout')) {
      this.crossings = crossingsOf(this.layout);
      this.terminals = terminalPoints(this.layout);
    }
    if (this.moment && (changed.has('layout') || changed.has('moment') || changed.has('show') || changed.has('drain')))
      this.ribbons = ribbonsOf(this.layout, this.moment, this.show, this.drain ? 1e-5 : 0.01);
    if (changed.has('layout') || changed.has('put')) this.tags = hangTags(this.layout, this.put);
  }

  override updated(changed: PropertyValues<this>): void {
    if (changed.has('put') && this.put.length > (changed.get('put') ?? []).length) this.tagIntoView();
  }

  /** A tag that was just hung is to be seen. */
  private tagIntoView(): void {
    const tag = this.tags.at(-1);
    const view = this.renderRoot.querySelector('.viewport');
    if (!tag || !view) return;
    const [left, right] = [
      Math.min(tag.box.x, tag.at[0] - 40) * this.zoom,
      Math.max(tag.box.x + tag.box.width, tag.at[0] + 60) * this.zoom,
    ];
    const [top, bottom] = [
      Math.min(tag.box.y, tag.at[1] - 40) * this.zoom,
      Math.max(tag.box.y + tag.box.height, tag.at[1] + 60) * this.zoom,
    ];
    const seen =
      left >= view.scrollLeft &&
      right <= view.scrollLeft + view.clientWidth &&
      top >= view.scrollTop &&
      bottom <= view.scrollTop + view.clientHeight;
    if (!seen) view.scrollTo({ left: (left + right - view.clientWidth) / 2, top: (top + bottom - view.clientHeight) / 2 });
  }

  override render() {
    const { layout, zoom } = this;
    if (!layout) return nothing;
    const { width, height } = layout;
    return html`
      ${this.paper ? nothing : this.toolBar()}
      <div
        class="viewport"
        tabindex="0"
        role="group"
        aria-roledescription="wiring drawing"
        aria-label=${this.line}
        @keydown=${this.onKeys}
        @scroll=${this.onScroll}
        @click=${this.onClick}
        @pointerover=${this.onPoint}
        @pointerdown=${this.onDown}
        @pointermove=${this.onMove}
        @pointerup=${this.onUp}
        @pointercancel=${this.onUp}
      >
        <svg width=${width * zoom} height=${height * zoom} viewBox="0 0 ${width} ${height}" class=${this.neutral || !this.moment ? 'neutral' : this.follows ? 'swift' : ''} aria-hidden="true">
          <defs>
            <pattern id="hatch" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
              <rect class="hatchground" width="6" height="6"></rect>
              <path class="hatchline" d="M0 -1V7"></path>
            </pattern>
          </defs>
          ${guard([layout], () => frames(layout))} ${haloRings(layout, this.halos)} ${this.neutral || !this.moment ? plainWires(layout, this.crossings) : liveWires(this.ribbons, this.crossings)}
          ${guard([layout], () => fixtures(layout))} ${this.poles()} ${guard([layout], () => labels(layout))} ${flagWords(layout, this.flags)} ${tagsHung(this.tags)}
          ${guard([layout], () => hitAreas(layout))} ${sheetMarks(layout, this.marks)} ${this.leads()} ${this.focusRing()}
        </svg>
      </div>
      ${this.paper ? nothing : html`<p class="readout" role="status">${this.readout()}</p>`}
    `;
  }

  private toolBar() {
    return html`<div class="tools">
        ${this.tools ? this.searchTools() : nothing}
        ${this.tools ? html`<button class="narrow" @click=${() => say(this, { do: 'look', look: { whole: false } })}>One load's way</button>` : nothing}
        ${this.functions.length > 0 && this.tools ? this.folds() : nothing}
        ${this.tracks ? this.allTracks(this.tracks) : nothing}
        <div class="zoom" role="group" aria-label="Zoom">
          <button @click=${() => this.zoomBy(-1)} aria-label="Zoom out">−</button>
          <button @click=${() => this.zoomWhole()}>Whole</button>
          <button @click=${() => this.zoomBy(1)} aria-label="Zoom in">+</button>
        </div>
        <slot></slot>
      </div>`;
  }

  /** Folds the drawing to what some functions need; several at once. */
  private folds() {
    const toggle = (name: string) => {
      const functions = this.folded.includes(name) ? this.folded.filter((f) => f !== name) : [...this.folded, name];
      say(this, { do: 'look', look: { functions, only: false, all: false } });
    };
    return html`<details class="folds" @keydown=${(e: KeyboardEvent) => e.key === 'Escape' && this.closeFolds()}>
      <summary class="button">${this.folded.length === 0 ? 'By function' : this.folded.length === 1 ? this.folded[0] : `${this.folded.length} functions`}</summary>
      <fieldset>
        <legend>Draw only what these need</legend>
        ${this.functions.map(
          ({ name, loads }) =>
            html`<label><input type="checkbox" .checked=${this.folded.includes(name)} @change=${() => toggle(name)} />${name} <span class="quiet">${loads.length}</span></label>`,
        )}
      </fieldset>
    </details>`;
  }

  private closeFolds(): void {
    const folds = this.renderRoot.querySelector<HTMLDetailsElement>('.folds[open]');
    if (!folds) return;
    folds.open = false;
    folds.querySelector('summary')?.focus({ preventScroll: true });
  }

  private allTracks({ many, all }: { readonly many: number; readonly all: boolean }) {
    const whole = { all: true, only: false, functions: [] };
    const story = { all: false, only: false, functions: [], load: undefined, part: undefined };
    return html`<button class="only" aria-pressed=${all} @click=${() => say(this, { do: 'look', look: all ? story : whole })}>All ${many} tracks</button>`;
  }

  private searchTools() {
    const chosen = this.load ?? this.chosen;
    return html`<input
        type="search"
        list="found"
        placeholder="Find a part"
        aria-label="Find a part in the drawing"
        @change=${(e: Event) => this.find((e.target as HTMLInputElement).value)}
      />
      <datalist id="found">${this.circuit?.parts.filter((p) => !p.isWire).map((p) => html`<option value=${p.id}>${p.name || p.what}</option>`)}</datalist>
      ${
        chosen === undefined
          ? nothing
          : html`<button class="only" aria-pressed=${this.only} @click=${() => say(this, { do: 'look', look: { only: !this.only } })}>Only ${chosen}</button>`
      }`;
  }

  /** Brings a part into view, by its id or a piece of its name. */
  private find(text: string): void {
    const wanted = text.trim().toLowerCase();
    if (wanted === '') return;
    const parts = this.circuit.parts.filter((p) => this.layout.poles.some((q) => q.part === p.id));
    const part =
      parts.find((p) => p.id.toLowerCase() === wanted) ?? parts.find((p) => `${p.id} ${p.name} ${p.what}`.toLowerCase().includes(wanted));
    if (!part) return;
    this.focused = this.layout.poles.find((p) => p.part === part.id)?.id;
    if (this.zoom < 0.7) this.zoom = 1;
    say(this, { do: 'look', look: { part: part.id, ...(part.isLoad && { load: part.id }) } });
    void this.updateComplete.then(() => this.intoView());
  }

  private poles() {
    const closed = this.show === 'healthy' ? this.moment?.healthyClosed : this.moment?.closed;
    return svg`${this.layout.poles.map((p) => this.pole(p, closed))}`;
  }

  private pole(p: PlacedPole, closed: ReadonlySet<string> | undefined) {
    const stand = closed?.has(p.element) ? 'closed' : 'open';
    return guard([this.layout, p.id, stand], () => {
      return svg`<g transform="translate(${p.x} ${p.y})">${symbolShapes(p.symbol, stand, p.turned)}</g>`;
    });
  }

  private leads() {
    const { meter } = this;
    if (!meter?.open) return nothing;
    const lead = (name: 'red' | 'black', letter: string, word: string) => {
      const terminal = meter[name];
      const at = this.dragged?.lead === name ? this.dragged.to : terminal === undefined ? undefined : this.terminalSpot(terminal);
      if (!at) return nothing;
      const side = at[0] > this.layout.width - 160 ? -1 : 1;
      // Under a ground bar the drawing soon ends.
      const isAbove = letter === 'A' || terminal === 'ground' || terminal === 'block';
      const [px, py] = [side > 0 ? at[0] + 26 : at[0] - 26 - 112, isAbove ? at[1] - 44 : at[1] + 12];
      return svg`<g class="lead" data-lead=${name}><path d="M${at[0]} ${at[1]}L${side > 0 ? px + 8 : px + 104} ${py + 17}"></path><circle cx=${at[0]} cy=${at[1]} r="5.500"></circle><rect x=${px} y=${py} width="112" height="34" rx="17"></rect><text x=${px + 16} y=${py + 23}><tspan class="letter">${letter}</tspan><tspan dx="8">${word}</tspan></text></g>`;
    };
    return svg`${lead('red', 'A', 'red lead')}${lead('black', 'B', 'black lead')}`;
  }

  /** A lead on the body goes to the ground sign nearest to the other lead. */
  private terminalSpot(terminal: string): Point | undefined {
    if (terminal !== 'ground' && terminal !== 'block') return this.terminals.get(terminal);
    const other = this.terminals.get((this.meter?.red === terminal ? this.meter.black : this.meter?.red) ?? '');
    const signs = this.layout.bars.flatMap((b) => (b.sign ? [[b.sign[0], b.y] as Point] : []));
    return signs.sort((a, b) => Math.abs(a[0] - (other?.[0] ?? 0)) - Math.abs(b[0] - (other?.[0] ?? 0)))[0];
  }

  /** Brings parts, poles or terminals into view, the first one before all. */
  bring(ids: readonly string[]): void {
    const view = this.renderRoot.querySelector('.viewport');
    const spots = ids.flatMap((id): Point[] => {
      const at = this.terminals.get(id) ?? markPlace(this.layout, id);
      return at === undefined ? [] : 'x' in at ? [[at.x, at.y]] : [at];
    });
    const [first] = spots;
    if (!view || !first) return;
    const fits = spots.filter(
      ([x, y]) =>
        Math.abs(x - first[0]) * this.zoom < view.clientWidth - 320 && Math.abs(y - first[1]) * this.zoom < view.clientHeight - 100,
    );
    const middle = (k: 0 | 1) => (Math.min(...fits.map((s) => s[k])) + Math.max(...fits.map((s) => s[k]))) / 2;
    view.scrollTo({ left: middle(0) * this.zoom - view.clientWidth / 2, top: middle(1) * this.zoom - view.clientHeight / 2 });
  }

  private focusRing() {
    const pole = this.layout.poles.find((p) => p.id === this.focused);
    const chosen = this.chosen === undefined ? [] : this.layout.poles.filter((p) => p.part === this.chosen);
    const ring = (p: PlacedPole, name: string) =>
      svg`<rect class=${name} x=${p.box.x - 6} y=${p.box.y - 4} width=${p.box.width + 12} height=${p.box.height + 8}></rect>`;
    const marked = this.marked.length === 0 ? [] : this.layout.wires.filter((w) => w.wires.some((id) => this.marked.includes(id)));
    return svg`${marked.map((w) => svg`<path class="markedwire" d=${pathOf(w.points)}></path>`)}${chosen.map((p) => ring(p, 'chosen'))}${pole ? ring(pole, 'focusring') : nothing}`;
  }

  /** What the pointer or the arrow keys are at, in words and figures. */
  private readout(): string {
    const at = this.pointed ?? this.focused;
    if (typeof at === 'number') {
      const [wire, ribbon] = [this.layout.wires[at], this.ribbons[at]];
      if (!wire) return '';
      const name = `${wire.wires.join(', ')}, ${wire.from} to ${wire.to}`;
      if (!ribbon || this.neutral) return name;
      return `${name}: ${wireFigures(ribbon)}`;
    }
    const pole = this.layout.poles.find((p) => p.id === at);
    if (!pole) return '';
    const part = this.circuit?.parts.find((p) => p.id === pole.part);
    const name = [pole.id, part?.name, part?.name === part?.what ? '' : part?.what, part?.place]
      .filter((w) => w !== undefined && w !== '')
      .join(', ');
    if (this.neutral || !this.moment) return name;
    const figures = this.show === 'healthy' ? this.moment.healthy : this.moment.is;
    const volts = [pole.top, pole.bottom].map((t) => figures.volts.get(t) ?? null);
    const load = (this.show === 'healthy' ? this.moment.healthyLoads : this.moment.loads).find((l) => l.id === pole.part);
    const verdict = load ? `${load.verdict}, ` : '';
    return `${name}: ${verdict}${volts.map((v) => (v === null ? 'floating' : voltsText(v))).join(' above, ')} below, ${amperesText(Math.abs(figures.amperes.get(pole.element) ?? 0))}`;
  }

  private onPoint(e: PointerEvent): void {
    const [wire, pole] = targetOf(e);
    this.pointed = wire ?? pole;
  }

  private onClick(e: MouseEvent): void {
    if (this.panned) return;
    const { placing } = this.meter ?? {};
    if (placing) {
      const terminal = terminalAt(this.terminals, this.pointOf(e));
      if (terminal) say(this, { do: 'meter', meter: { [placing]: terminal, placing: undefined } });
      return;
    }
    const [wire, pole] = targetOf(e);
    if (wire !== undefined) {
      this.pointed = wire;
      this.pick(this.layout.wires[wire]?.wires[0]);
    } else if (pole !== undefined) {
      this.pointed = pole;
      this.pick(this.layout.poles.find((p) => p.id === pole)?.part);
    }
  }

  /** Where an event is on the drawing's own paper. */
  private pointOf(e: MouseEvent): Point {
    const box = this.renderRoot.querySelector('svg')!.getBoundingClientRect();
    return [(e.clientX - box.left) / this.zoom, (e.clientY - box.top) / this.zoom];
  }

  private pick(part: string | undefined): void {
    if (part === undefined) return;
    const isLoad = this.circuit?.parts.find((p) => p.id === part)?.isLoad ?? false;
    say(this, { do: 'look', look: { part: part === this.chosen ? undefined : part, ...(isLoad && { load: part }) } });
  }

  private onKeys(e: KeyboardEvent): void {
    if (e.ctrlKey || e.metaKey || e.altKey) return;
    const way = ways[e.key];
    const part = this.layout.poles.find((p) => p.id === this.focused)?.part;
    if (way) {
      this.focused = neighbour(this.layout, this.focused, way) ?? this.focused;
      this.pointed = undefined;
      this.intoView();
    } else if (e.key === 'Enter') this.pick(part);
    else if (e.key.toLowerCase() === 'f') this.wantFault(part);
    else if (e.key.toLowerCase() === 'a' || e.key.toLowerCase() === 'b') this.placeLead(e.key.toLowerCase() === 'a' ? 'red' : 'black');
    else if (e.key === '+' || e.key === '=') this.zoomBy(1);
    else if (e.key === '-') this.zoomBy(-1);
    else if (e.key === '0') this.zoomWhole();
    else if (e.key === '/') this.renderRoot.querySelector<HTMLInputElement>('input[type=search]')?.focus();
    else return;
    e.preventDefault();
  }

  private wantFault(part: string | undefined): void {
    if (part === undefined) return;
    if (part !== this.chosen) this.pick(part);
    this.dispatchEvent(new CustomEvent('fault-wanted'));
  }

  /** Puts a lead on the focused piece: its upper terminal, then its lower one, in turn. */
  private placeLead(lead: 'red' | 'black'): void {
    const pole = this.layout.poles.find((p) => p.id === this.focused);
    if (!pole) return;
    const now = this.meter?.[lead];
    say(this, { do: 'meter', meter: { [lead]: now === pole.top ? pole.bottom : pole.top } });
  }

  private intoView(): void {
    const pole = this.layout.poles.find((p) => p.id === this.focused);
    const view = this.renderRoot.querySelector('.viewport');
    if (!pole || !view) return;
    const [x, y] = [pole.x * this.zoom, pole.y * this.zoom];
    const margin = 60;
    const left = Math.min(Math.max(view.scrollLeft, x - view.clientWidth + margin), x - margin);
    const top = Math.min(Math.max(view.scrollTop, y - view.clientHeight + margin), y - margin);
    view.scrollTo({ left, top });
  }

  private zoomBy(steps: number): void {
    const here = zooms.reduce((best, z, k) => (Math.abs(z - this.zoom) < Math.abs(zooms[best]! - this.zoom) ? k : best), 0);
    this.zoom = zooms[Math.min(zooms.length - 1, Math.max(0, here + steps))]!;
  }
  private zoomWhole(): void {
    const view = this.renderRoot.querySelector('.viewport');
    if (!view) return;
    const whole = Math.min(1, view.clientWidth / this.layout.width, view.clientHeight / this.layout.height);
    this.zoom = Math.abs(this.zoom - whole) < 0.001 ? 1 : whole;
  }

  /** What hangs below or stands beside was scrolled; at full size the drawing goes with it. */
  follow(left: number, top?: number): void {
    const view = this.renderRoot.querySelector('.viewport');
    if (!view || this.zoom !== 1) return;
    if (Math.abs(view.scrollLeft - left) > 1) view.scrollLeft = left;
    if (top !== undefined && Math.abs(view.scrollTop - top) > 1) view.scrollTop = top;
  }

  private onScroll(e: Event): void {
    const { scrollLeft: left, scrollTop: top } = e.target as Element;
    // The names of the rails stay in sight.
    this.renderRoot.querySelector('.rails')?.setAttribute('transform', `translate(${left / this.zoom} ${left > 4 ? -16 : 0})`);
    if (this.zoom === 1) this.dispatchEvent(new CustomEvent('scrolled', { detail: { left, top } }));
  }

  /** Dragging the paper with a mouse; fingers scroll by themselves. */
  private grabbed: { x: number; y: number; left: number; top: number } | undefined;
  private panned = false;
  private onDown(e: PointerEvent): void {
    const view = e.currentTarget as Element;
    this.closeFolds();
    this.panned = false;
    const lead = (e.composedPath()[0] as Element | undefined)?.closest?.('[data-lead]')?.getAttribute('data-lead');
    if (lead === 'red' || lead === 'black') {
      this.dragged = { lead, to: this.pointOf(e) };
      view.setPointerCapture(e.pointerId);
      e.preventDefault();
      return;
    }
    if (e.pointerType !== 'mouse' || e.button !== 0) return;
    this.grabbed = { x: e.clientX, y: e.clientY, left: view.scrollLeft, top: view.scrollTop };
  }
  private onMove(e: PointerEvent): void {
    const { grabbed } = this;
    if (this.dragged) {
      this.dragged = { ...this.dragged, to: this.pointOf(e) };
      return;
    }
    if (!grabbed) return;
    const [dx, dy] = [e.clientX - grabbed.x, e.clientY - grabbed.y];
    if (!this.panned && Math.hypot(dx, dy) < 5) return;
    this.panned = true;
    (e.currentTarget as Element).scrollTo({ left: grabbed.left - dx, top: grabbed.top - dy });
  }
  private onUp(): void {
    this.grabbed = undefined;
    if (!this.dragged) return;
    const terminal = terminalAt(this.terminals, this.dragged.to, 60);
    if (terminal) say(this, { do: 'meter', meter: { [this.dragged.lead]: terminal } });
    this.dragged = undefined;
    this.panned = true;
  }
}

function wireFigures(r: Ribbon): string {
  const [from, to] = r.volts;
  if (from === null && to === null) return 'tied to nothing';
  const volts =
    from === null || to === null
      ? voltsText(from ?? to ?? 0)
      : Math.abs(from - to) > 0.05
        ? `${voltsText(from)} to ${voltsText(to)}`
        : voltsText(from);
  return `${volts}, ${amperesText(Math.abs(r.amperes))}`;
}

function targetOf(e: Event): readonly [number | undefined, string | undefined] {
  const target = e.composedPath()[0];
  if (!(target instanceof SVGElement)) return [undefined, undefined];
  const { wire, pole } = target.dataset;
  return [wire === undefined ? undefined : Number(wire), pole];
}
