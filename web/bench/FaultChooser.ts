import { css, html, LitElement, nothing } from 'lit';
import { quantityText } from '../../src/circuit/quantity.ts';
import type { CircuitSeen, FaultDetail, FaultIn } from '../calls.ts';
import { controls } from '../looks/controls.ts';
import { say } from '../say.ts';

/** Lists longer than this ask for a few letters first. */
const most = 14;
let slides = 0;

/**
 * Hang-tags that are in, and the list of faults that could be.
 * @fires say - `faults`, `look`
 * @fires put - a fault was put in; the list is gone, and the focus with it
 */
export class FaultChooser extends LitElement {
  static override properties = {
    circuit: { attribute: false },
    phrases: { attribute: false },
    put: { attribute: false },
    partId: { attribute: false },
    search: { state: true },
    choosing: { state: true },
  };
  declare circuit: CircuitSeen | undefined;
  /** Fault phrases of the job. */
  declare phrases: readonly string[];
  /** The same in words, once the worker has answered. */
  declare put: readonly FaultIn[];
  /** Part chosen in the drawing: only its faults are listed. */
  declare partId: string | undefined;
  declare search: string;
  declare choosing: boolean;

  constructor() {
    super();
    this.phrases = [];
    this.put = [];
    this.search = '';
    this.choosing = false;
  }

  static override styles = [
    controls,
    css`
      :host {
        display: grid;
        gap: 8px;
      }
      .tag {
        display: grid;
        grid-template-columns: 1fr auto;
        gap: 2px 12px;
        align-items: center;
        background: var(--sheet);
        border: 2px solid var(--tag);
        border-left-width: 8px;
        padding: 6px 8px 6px 12px;
      }
      .tag b {
        font-size: 17px;
        line-height: 1.15;
      }
      .tag .fault {
        color: var(--tag);
        font-weight: 600;
        font-size: 15px;
      }
      .tag .extent {
        grid-column: 1 / -1;
      }
      .tag > button {
        grid-row: 1 / span 2;
        grid-column: 2;
      }
      .list {
        grid-auto-rows: max-content;
        display: grid;
        gap: 4px;
        max-height: 420px;
        overflow: auto;
        padding: 3px;
      }
      .list button {
        text-align: left;
        font-weight: 500;
        line-height: 1.2;
      }
      .list button b {
        display: block;
      }
      .partname {
        display: flex;
        justify-content: space-between;
        align-items: center;
        gap: 8px;
      }
    `,
  ];

  override render() {
    const open = this.choosing || this.partId !== undefined;
    return html`
      ${this.phrases.map((phrase) => this.tag(this.put.find((p) => p.phrase === phrase) ?? bare(phrase)))}
      ${open ? this.chooser() : html`<button class="open" @click=${this.openChooser}>${this.phrases.length === 0 ? 'Put in a fault' : 'Put in another fault'}</button>`}
    `;
  }

  private tag(fault: FaultIn) {
    const { detail } = fault;
    return html`<div class="tag">
      <b>${fault.subject.replace('.', ' contact ').replace(/(\d)-(\d)/, '$1–$2')}</b>
      <span class="fault">${fault.words}${detail ? ` ${quantityText(detail.now, detail.dimension)}` : ''}</span>
      <span class="extent small">${fault.problem ? html`${fault.problem.what}. ${fault.problem.mend[0] ?? ''}` : fault.text}</span>
      ${
        detail && detail.max > detail.min
          ? html`<input class="extent" type="range" min="0" max="200" .value=${String(positionOf(detail.now, detail))}
              aria-label="How bad: ${fault.subject} ${fault.words}" aria-valuetext=${quantityText(detail.now, detail.dimension)}
              @pointerdown=${() => slides++} @keydown=${() => slides++}
              @input=${(e: Event) => this.slide(fault, Number((e.target as HTMLInputElement).value))} />`
          : nothing
      }
      <button @click=${() => this.takeOff(fault.phrase)} aria-label="Take off: ${fault.phrase}">Take off</button>
    </div>`;
  }

  private chooser() {
    const { circuit } = this;
    const part = circuit?.parts.find((p) => p.id === this.partId);
    const words = this.search
      .toLowerCase()
      .split(/\s+/)
      .filter((w) => w !== '');
    const names = new Map(circuit?.parts.map((p) => [p.id, `${p.name} ${p.what}`.toLowerCase()]));
    const fitting = (circuit?.faults ?? []).filter(
      (f) =>
        (part === undefined || f.part === part.id) &&
        words.every((w) => f.phrase.toLowerCase().includes(w) || f.text.toLowerCase().includes(w) || names.get(f.part)?.includes(w)),
    );
    const shown = part || fitting.length <= most ? fitting : fitting.slice(0, most);
    return html`<div class="partname">
        <h3>${part ? `${part.id} ${part.name || part.what}` : 'Which fault?'}</h3>
        <button @click=${this.leave}>Close</button>
      </div>
      <input type="search" placeholder="Part or fault, e.g. S1 open" aria-label="Search the faults" .value=${this.search}
        @input=${(e: Event) => {
          this.search = (e.target as HTMLInputElement).value;
        }}
        @keydown=${(e: KeyboardEvent) => {
          if (e.key === 'Escape') this.leave();
          if (e.key === 'Enter' && this.search.trim() !== '')
            this.putIn(
              fitting.find((f) => f.phrase === this.search.trim())?.phrase ??
                (fitting.length === 1 ? fitting[0]!.phrase : this.search.trim()),
            );
        }} />
      <div class="list" role="group" aria-label="Faults that fit">
        ${shown.map(
          (f) =>
            html`<button @click=${() => this.putIn(f.phrase)} ?disabled=${this.phrases.includes(f.phrase)}><b>${f.phrase}</b>${f.text}</button>`,
        )}
        ${fitting.length > shown.length ? html`<p class="small quiet">${fitting.length - shown.length} more; type a part, or click it in the drawing.</p>` : nothing}
        ${fitting.length === 0 ? html`<p class="quiet">No fault of this circuit reads like that.</p>` : nothing}
      </div>`;
  }

  private readonly openChooser = (): void => {
    this.choosing = true;
    void this.toList();
  };
  /** The list with its search comes into view, ready to type into. */
  async toList(): Promise<void> {
    await this.updateComplete;
    this.renderRoot.querySelector('.partname')?.scrollIntoView({ block: 'start' });
    this.renderRoot.querySelector<HTMLInputElement>('input[type=search]')?.focus({ preventScroll: true });
  }
  private readonly closeChooser = (): void => {
    this.choosing = false;
    this.search = '';
    if (this.partId !== undefined) say(this, { do: 'look', look: { part: undefined } });
  };
  /** Closed by hand: the button that opened it has the focus again. */
  private readonly leave = (): void => {
    this.closeChooser();
    // A part that was chosen goes by way of the session first.
    requestAnimationFrame(() => this.renderRoot.querySelector<HTMLButtonElement>('button.open')?.focus());
  };
  private putIn(phrase: string): void {
    if (!this.phrases.includes(phrase)) say(this, { do: 'faults', faults: [...this.phrases, phrase] });
    this.closeChooser();
    this.dispatchEvent(new CustomEvent('put'));
  }
  private takeOff(phrase: string): void {
    say(this, { do: 'faults', faults: this.phrases.filter((p) => p !== phrase) });
  }
  private slide(fault: FaultIn, position: number): void {
    const { detail } = fault;
    if (!detail) return;
    const amount = Number(amountAt(position, detail).toPrecision(2));
    const phrase = [fault.subject, fault.words, quantityText(amount, detail.dimension)].filter((w) => w !== '').join(' ');
    if (phrase !== fault.phrase)
      say(this, { do: 'faults', faults: this.phrases.map((p) => (p === fault.phrase ? phrase : p)), gesture: `slide ${slides}` });
  }
}

const bare = (phrase: string): FaultIn => ({ phrase, subject: phrase, words: '', part: '', text: '' });

type Range = Pick<FaultDetail, 'dimension' | 'min' | 'max' | 'grades' | 'default'>;
/** Resistances and currents span decades: their slider is logarithmic, a good way beyond the usual grades on both sides. */
const isWide = (r: Range) => r.dimension === 'resistance' || r.dimension === 'current';
const usual = (r: Range) => [...r.grades, r.default].filter((g) => g > 0);
const lowEnd = (r: Range) => (isWide(r) ? Math.max(r.min, Math.min(...usual(r)) / 20, 1e-9) : r.min);
const highEnd = (r: Range) => (isWide(r) ? Math.min(r.max, Math.max(...usual(r)) * 20) : r.max);
const positionOf = (amount: number, r: Range): number => {
  const [low, high] = [lowEnd(r), highEnd(r)];
  const share = isWide(r) ? Math.log(Math.max(amount, low) / low) / Math.log(high / low) : (amount - low) / (high - low);
  return 200 * Math.min(1, Math.max(0, share));
};
const amountAt = (position: number, r: Range): number => {
  const [low, high] = [lowEnd(r), highEnd(r)];
  return isWide(r) ? low * (high / low) ** (position / 200) : low + ((high - low) * position) / 200;
};
