import { css, html, LitElement, nothing, svg } from 'lit';
import type { Problem } from '../../src/circuit/problem.ts';
import type { KeyPlace } from '../../src/circuit/scene.ts';
import { type Strip, stripAt } from '../../src/report/strip.ts';
import { controls } from '../looks/controls.ts';
import { problemList } from './problemList.ts';

/** An instant of the story for the drawing to show. */
export type Instant = { readonly key: KeyPlace | undefined; readonly engine: 'stopped' | 'cranking' | 'running' };

const names = 112;
type StripRow = Pick<Strip['loads'][number], 'name' | 'stretches'>;
/** Height of a load's line; lower where there are many, so that a story is seen at one glance. */
const lineOf = (rows: number): number => (rows > 9 ? 17 : 22);
const keyHeight = 64;

/**
 * A story of the key over time: as words, as a strip chart, and played in real time.
 * @fires story - detail: the words to be played
 * @fires instant - detail: Instant; scrubbed or played to
 * @fires recording - detail: boolean; turns of the key are to be written down
 * @fires done - put away
 */
export class PlayStrip extends LitElement {
  static override properties = {
    strip: { attribute: false },
    problems: { attribute: false },
    story: { type: String },
    recording: { type: Boolean },
    broad: { type: Boolean, reflect: true },
    positions: { attribute: false },
    at: { state: true },
    runs: { state: true },
  };
  declare strip: Strip | undefined;
  declare problems: readonly Problem[];
  declare story: string;
  declare recording: boolean;
  /** Under the drawing, with the chart beside the words; else one below the other. */
  declare broad: boolean;
  declare positions: readonly { readonly name: string; readonly angle: number }[];
  /** Seconds scrubbed to. */
  declare at: number;
  declare runs: boolean;
  private begun = 0;

  constructor() {
    super();
    this.problems = [];
    this.story = '';
    this.positions = [];
    this.at = 0;
    this.runs = false;
    this.recording = false;
    this.broad = false;
  }

  static override styles = [
    controls,
    css`
      :host {
        display: grid;
        gap: 8px;
        padding: 12px 20px;
        border-bottom: 1px solid var(--rule);
      }
      .words {
        display: grid;
        gap: 8px;
        align-content: start;
      }
      :host([broad]) {
        grid-template-columns: 300px minmax(0, 1fr);
        gap: 20px;
        padding: 8px 16px;
        border: 0;
      }
      :host([broad]) .words {
        grid-template-rows: repeat(3, auto) minmax(0, 1fr);
        max-height: 340px;
      }
      :host([broad]) ol {
        max-height: none;
        min-height: 60px;
      }
      .head {
        display: flex;
        justify-content: space-between;
        align-items: center;
      }
      svg {
        display: block;
        width: 100%;
        height: auto;
        background: var(--sheet);
        border: 1px solid var(--rule);
      }
      text {
        fill: var(--ink);
        font-size: 13px;
        font-weight: 500;
      }
      .grid {
        stroke: var(--rule);
      }
      .key {
        fill: none;
        stroke: var(--hand);
        stroke-width: 2.4;
      }
      .works,
      .runs,
      .cranks {
        fill: var(--ink);
      }
      .weak,
      .chatters,
      .runsdown {
        fill: var(--cautiontint);
        stroke: var(--ink);
      }
      .dead,
      .still {
        fill: none;
        stroke: var(--edge);
      }
      .cursor {
        stroke: var(--tag);
        stroke-width: 2;
      }
      ol {
        margin: 0;
        padding: 0;
        list-style: none;
        font-size: 15px;
        max-height: 130px;
        overflow: auto;
      }
      li {
        display: grid;
        grid-template-columns: 60px 1fr;
      }
    `,
  ];

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.runs = false;
  }

  override render() {
    const { strip } = this;
    return html`<div class="words">
        <div class="head"><h2>Play over time</h2><button @click=${() => this.dispatchEvent(new CustomEvent('done'))}>Put away</button></div>
        <label>Story
          <input type="text" .value=${this.story} placeholder="LOCK, ON 2 s, START 1.5 s, release, wait 3 s"
            @change=${(e: Event) => this.dispatchEvent(new CustomEvent('story', { detail: (e.target as HTMLInputElement).value }))} />
        </label>
        <div class="row">
          <button aria-pressed=${this.runs} ?disabled=${!strip} @click=${this.toggle}>${this.runs ? 'Stop' : 'Play'}</button>
          <button aria-pressed=${this.recording} @click=${() => this.dispatchEvent(new CustomEvent('recording', { detail: !this.recording }))}>
            ${this.recording ? 'Recording: turn the key' : 'Record my hand'}
          </button>
        </div>
        ${this.problems.length > 0 ? problemList(this.problems) : nothing} ${this.broad && strip ? this.events(strip) : nothing}
      </div>
      <div>${strip ? this.chart(strip) : html`<p class="quiet">Write what the hand does with the key, or record it.</p>`}
        ${!this.broad && strip ? this.events(strip) : nothing}</div>`;
  }

  private events(strip: Strip) {
    return html`<ol aria-label="Events" tabindex="0">
      ${strip.events.map((e) => html`<li><b>${e.t.toFixed(2)} s</b><span>${e.part === '' || e.part === 'engine' ? '' : `${e.part} `}${e.what}</span></li>`)}
    </ol>`;
  }

  private chart(strip: Strip) {
    const width = this.broad ? 648 : 386;
    const x = (t: number) => names + ((width - names - 6) * t) / strip.seconds;
    const angles = [...this.positions.map((p) => p.angle), ...strip.key.map((k) => k.angle)];
    const [low, high] = [Math.min(0, ...angles), Math.max(1, ...angles)];
    const y = (angle: number) => keyHeight - 6 - ((keyHeight - 14) * (angle - low)) / (high - low);
    const engine = strip.engine.length > 0 ? [{ name: 'Engine', stretches: strip.engine }] : [];
    const rows: readonly StripRow[] = [...engine, ...strip.loads];
    const line = lineOf(rows.length);
    const height = keyHeight + rows.length * line + 6;
    return html`<svg viewBox="0 0 ${width} ${height}" role="img" aria-label="Strip chart of ${strip.seconds.toFixed(1)} seconds; the events are listed beside it">
        ${this.positions.map((p) => svg`<path class="grid" d="M${names} ${y(p.angle)}H${width}"></path><text x=${names - 8} y=${y(p.angle) + 4} text-anchor="end">${p.name}</text>`)}
        <path class="key" d=${strip.key.map((k, i) => `${i === 0 ? 'M' : 'L'}${x(k.t).toFixed(1)} ${y(k.angle).toFixed(1)}`).join('')}></path>
        ${rows.map((row, i) => this.row(row, keyHeight + i * line, line, x))}
        <path class="cursor" d="M${x(this.at)} 0V${height}"></path>
      </svg>
      <input type="range" min="0" max=${strip.seconds} step=${strip.seconds / 500} .value=${String(this.at)} aria-label="Time in the story"
        aria-valuetext="${this.at.toFixed(2)} seconds" @input=${(e: Event) => this.scrub(Number((e.target as HTMLInputElement).value))} />
      <p class="small quiet">${this.at.toFixed(2)} s of ${strip.seconds.toFixed(1)} s. What stays as it is all the time is left out.</p>`;
  }

  private row({ name, stretches }: StripRow, top: number, line: number, x: (t: number) => number) {
    const middle = top + line / 2;
    const isThin = (word: string) => word === 'dead' || word === 'still';
    return svg`<text x=${names - 8} y=${middle + 4.5} text-anchor="end">${name.length > 17 ? `${name.slice(0, 16)}…` : name}</text>${stretches.map(
      (s) =>
        svg`<rect class=${s.word.replace(' ', '')} x=${x(s.from)} y=${middle - (isThin(s.word) ? 1 : 6)} width=${Math.max(1, x(s.to) - x(s.from))} height=${isThin(s.word) ? 2 : 12}><title>${name} ${s.word} from ${s.from.toFixed(2)} s</title></rect>`,
    )}`;
  }

  private scrub(t: number): void {
    this.runs = false;
    this.show(t);
  }

  private show(t: number): void {
    const { strip } = this;
    if (!strip) return;
    this.at = t;
    const { angle, came, engine } = stripAt(strip, t);
    const state = engine === 'cranks' ? 'cranking' : engine.startsWith('runs') ? 'running' : 'stopped';
    this.dispatchEvent(
      new CustomEvent<Instant>('instant', { detail: { key: angle === undefined ? undefined : { angle, came, in: true }, engine: state } }),
    );
  }

  private readonly toggle = (): void => {
    this.runs = !this.runs;
    if (!this.runs || !this.strip) return;
    if (this.at >= this.strip.seconds - 0.01) this.at = 0;
    this.begun = performance.now() - this.at * 1000;
    requestAnimationFrame(this.tick);
  };

  /** Real time; only the instants that a frame falls on are shown. */
  private readonly tick = (): void => {
    if (!this.runs || !this.strip) return;
    const t = Math.min(this.strip.seconds, (performance.now() - this.begun) / 1000);
    this.show(t);
    if (t < this.strip.seconds) requestAnimationFrame(this.tick);
    else this.runs = false;
  };
}
