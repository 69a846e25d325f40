import { html, LitElement, nothing, type PropertyValues } from 'lit';
import type { KeyPlace } from '../../src/circuit/scene.ts';
import type { Action, HintStrength } from '../../src/practice/action.ts';
import type { CircuitDrawing } from '../bench/CircuitDrawing.ts';
import type { KeyChart, Turned } from '../bench/KeyChart.ts';
import type { CircuitSeen } from '../calls.ts';
import { controls } from '../looks/controls.ts';
import { say } from '../say.ts';
import type { Meter } from '../session/session.ts';
import type { KeptPractice } from './keptPractice.ts';
import type { BenchSeen } from './practiseCalls.ts';
import { askPractise, stopPractise } from './practiseDesk.ts';
import { practiseStyles } from './practiseStyles.ts';

type Kind = 'volts' | 'lamp' | 'ohms' | 'clamp' | 'amps';
const kinds: readonly (readonly [Kind, string])[] = [
  ['volts', 'Volts'],
  ['ohms', 'Ohms'],
  ['amps', 'Amps'],
  ['clamp', 'Clamp'],
  ['lamp', 'Test lamp'],
];
const doings = [
  ['look', 'Look'],
  ['ask', 'Ask the customer'],
  ['walk', 'Whole table'],
  ['set', 'Switch a load'],
  ['unplug', 'Unplug or pull'],
  ['plug', 'Plug in again'],
  ['bridge', 'Bridge, fused'],
  ['wiggle', 'Wiggle'],
  ['swap', 'Try a known good'],
  ['repair', 'Repair or replace'],
] as const;
type Doing = (typeof doings)[number][0];
type Rings = NonNullable<KeyChart['shown']>;
/** A key that has not moved for so long rests. */
const rest_ms = 300;
const strengths: readonly HintStrength[] = ['ask', 'narrow', 'show'];
const hintWords: Readonly<Record<HintStrength, string>> = { ask: 'a question', narrow: 'narrow it down', show: 'show the reading' };

/**
 * The apprentice at work: the drawing without potentials, the key, instruments, actions with their cost, the log, hints,
 * and the fault to be named.
 *
 * @fires done - detail: actions taken
 * @fires hinted - detail: how strong a hint is asked for
 * @fires say - `meter`
 */
export class PractiseBench extends LitElement {
  static override properties = {
    meter: { attribute: false },
    circuit: { attribute: false },
    sectors: { attribute: false },
    file: { attribute: false },
    held: { attribute: false },
    bench: { attribute: false },
    busy: { type: Boolean },
    working: { attribute: false },
    told: { attribute: false },
    kind: { state: true },
    doing: { state: true },
    turning: { state: true },
    answer: { state: true },
  };
  /** Where the leads are, kept with the job. */
  declare meter: Meter;
  declare circuit: CircuitSeen;
  /** Of the sound key switch. */
  declare sectors: Rings['rings'];
  declare file: { readonly text: string; readonly name: string } | undefined;
  declare held: KeptPractice;
  declare bench: BenchSeen | undefined;
  declare busy: boolean;
  /** What is under way, in words, once it takes longer than a moment. */
  declare working: string | undefined;
  declare told: string;
  declare kind: Kind;
  declare doing: Doing;
  /** Where the hand has the key, before it rests. */
  declare turning: KeyPlace | undefined;
  /** What is said to a line that cannot be done. */
  declare answer: string;
  private resting: ReturnType<typeof setTimeout> | undefined;
  private ringsShown: Rings | undefined;
  private ringsOf: Rings['rings'] | undefined;
  private isBrought = false;

  static override styles = [controls, practiseStyles];

  constructor() {
    super();
    this.kind = 'volts';
    this.doing = 'look';
    this.answer = '';
  }

  private get said(): string {
    return this.answer || this.told;
  }

  private fire(name: 'done' | 'hinted', detail: readonly Action[] | HintStrength): void {
    this.dispatchEvent(new CustomEvent(name, { detail }));
  }
  private act(action: Action): void {
    if (this.busy) return;
    this.answer = '';
    this.fire('done', [action]);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    clearTimeout(this.resting);
  }

  override updated(changed: PropertyValues<this>): void {
    // The last step is what one looks for.
    if (changed.has('bench')) this.renderRoot.querySelector('.below > section')?.scrollTo({ top: 1e6 });
    // A wide drawing opens on the key switch: what is complained of hangs on it, and neither end of the sheet shows it.
    const { key } = this.circuit;
    const drawing = this.renderRoot.querySelector<CircuitDrawing>('detent-drawing');
    if (!key || !drawing || this.isBrought) return;
    this.isBrought = true;
    void drawing.updateComplete.then(() => drawing.bring([key.id]));
  }

  override render() {
    const { bench, circuit, held } = this;
    const begun = held.begun!;
    return html`<div class="desk">
      <section class="left" aria-label="Vehicle and log">
        <p class="line"><b>Level ${begun.level}, ${begun.title.toLowerCase()}.</b> "${begun.complaint}" <span class="quiet">${bench?.line ?? ''}</span></p>
        <detent-drawing neutral show="healthy" .layout=${circuit.layout} .circuit=${circuit} .moment=${undefined} .line=${`Wiring, neutral. ${bench?.line ?? ''}`}
          .meter=${this.leads()}></detent-drawing>
        <div class="below">
          <section aria-label="Your log" tabindex="0">${this.log(begun.difficulty.minutes)}</section>
          <section aria-label="Do something">${this.actions()}</section>
        </div>
      </section>
      <aside class="right" aria-label="Meter, key and hints">${this.instruments()} ${this.key()} ${this.hints()}
        <section>
          <h2>Name the fault</h2>
          <form class="do" @submit=${(e: Event) => this.name(e)}>
            <label class="unseen" for="name">Fault</label>
            <input id="name" name="name" type="text" list="faults" autocomplete="off" placeholder="S1.30-15 open at ON" />
            <datalist id="faults">${circuit.faults.map((f) => html`<option value=${f.phrase}>${f.text}</option>`)}</datalist>
            <div class="row"><button class="main" ?disabled=${this.busy}>Name the fault</button><button type="button" @click=${() => this.act({ do: 'name', faults: [] })}>Give up</button></div>
          </form>
        </section>
      </aside>
    </div>`;
  }

  private leads(): Meter {
    return { ...this.meter, open: true, instrument: 'volts' };
  }

  private log(goodTime: number) {
    const steps = this.bench?.steps ?? [];
    // What is being worked out stands in the place of the clock: nothing moves when it comes and goes.
    const clock = html`<span class="quiet">${Math.round(this.bench?.minutes ?? 0)} min used, ${Math.ceil(goodTime)} is a good time; ${this.bench?.money ?? 0} money</span>`;
    const busy = html`<span class="quiet busy" role="status">${this.working}... <button type="button" @click=${() => stopPractise()}>Stop</button></span>`;
    return html`<div class="head"><h2>Your log</h2>${this.working === undefined ? clock : busy}</div>
      ${
        steps.length === 0
          ? html`<p>Nothing done yet. Begin with what the customer complains of, in that place of the key.</p>`
          : html`<table class="log"><tbody>${steps.map(
              (s, k) =>
                html`<tr class="${k === steps.length - 1 ? 'last' : ''} ${s.trap ? 'trap' : ''}"><td>${s.at}</td><th scope="row">${s.did}</th><td>${s.said}</td><td class="figure">${s.figure}</td><td class="cost">${s.cost}</td></tr>`,
            )}</tbody></table>`
      }
      <p class="unseen" role="status" aria-live="polite">${this.said || (steps.at(-1)?.said ?? '')}</p>`;
  }

  private actions() {
    const { circuit } = this;
    const listed = circuit.parts.filter((p) =>
      this.doing === 'ask' || this.doing === 'look' ? p.isLoad : this.doing !== 'swap' || !p.isWire,
    );
    const needsPart = this.doing !== 'walk' && this.doing !== 'bridge' && this.doing !== 'set';
    return html`<div class="head"><h2>Do something</h2><span class="quiet">each costs time</span></div>
      <form class="do doing" @submit=${(e: Event) => this.doIt(e)}>
        <label>What
          <select name="what" @change=${(e: Event) => (this.doing = (e.target as HTMLSelectElement).value as Doing)}>
            ${doings.map(([name, word]) => html`<option value=${name} ?selected=${name === this.doing}>${word}</option>`)}
          </select></label>
        ${
          needsPart
            ? html`<label>Which part<input name="part" type="text" list="parts" autocomplete="off" placeholder=${this.doing === 'look' ? 'everything in sight' : this.doing === 'ask' ? 'engine, history, a load' : 'X2'} />
            <datalist id="parts">${this.doing === 'ask' ? html`<option value="engine"></option><option value="history"></option>` : nothing}${listed.map((p) => html`<option value=${p.id}>${p.name || p.what}</option>`)}</datalist></label>`
            : nothing
        }
        ${
          this.doing === 'set'
            ? html`<label>Which switch<select name="set">${circuit.switches.flatMap((s) => s.settings.map((w) => html`<option value="${s.id} ${w}">${s.name} (${s.id}): ${w}</option>`))}</select></label>`
            : nothing
        }
        ${this.doing === 'bridge' ? html`<p class="small quiet">Between leads A and B. A bridge stays until it is taken off.</p>` : nothing}
        <div class="row go"><button class="main" ?disabled=${this.busy}>Do it</button>${this.bench?.scene.bridged.length ? html`<button type="button" @click=${() => this.act({ do: 'unbridge' })}>Bridge off</button>` : nothing}</div>
      </form>
      <form class="do typed" @submit=${(e: Event) => this.type(e)}>
        <label>Or type it, as in the terminal<input name="line" type="text" autocomplete="off" placeholder="volts S1.15" /></label>
      </form>
      <p class="small" role="alert">${this.said}</p>`;
  }

  private instruments() {
    const { red, black } = this.meter;
    const { circuit } = this;
    const one = this.kind === 'clamp' || this.kind === 'amps';
    const read = [...(this.bench?.steps ?? [])].reverse().find((s) => s.figure !== '');
    const figure = read?.figure ?? '- - -';
    const places = circuit.parts.filter((p) => !p.isWire).flatMap((p) => p.terminals.map((t) => `${p.id}.${t}`));
    const field = (
      lead: 'red' | 'black',
      letter: string,
      word: string,
    ) => html`<div class="lead"><span class="letter" aria-hidden="true">${letter}</span>
      <input type="text" list="places" autocomplete="off" aria-label="${letter}, ${word}" placeholder=${word} .value=${this.meter[lead] ?? ''}
        @change=${(e: Event) => say(this, { do: 'meter', meter: { [lead]: (e.target as HTMLInputElement).value.trim() || undefined } })} /></div>`;
    return html`<section class="meter">
      <div class="kinds" role="group" aria-label="Instrument">${kinds.map(([kind, word]) => html`<button aria-pressed=${this.kind === kind} @click=${() => (this.kind = kind)}>${word}</button>`)}</div>
      <div class="display ${figure.length < 8 ? 'far' : ''}" role="status" aria-label="Reading">${figure}</div>
      ${field('red', 'A', one ? 'wire, fuse or terminal' : 'red lead')} ${one ? nothing : field('black', 'B', 'black lead')}
      <datalist id="places"><option value="ground"></option>${places.map((p) => html`<option value=${p}></option>`)}</datalist>
      <div class="row"><button class="main" ?disabled=${this.busy || !red || (!one && !black)} @click=${() => this.read()}>Take the reading</button>
      ${this.bench?.jack === 'amperes' ? html`<button @click=${() => this.act({ do: 'jack', to: 'volts' })}>Lead back to volts</button>` : nothing}</div>
    </section>`;
  }

  private key() {
    const { key } = this.circuit;
    const now = this.bench?.scene.key;
    if (!key || !now) return nothing;
    const here = key.positions.find((p) => Math.abs(p.angle - now.angle) < 0.5);
    return html`<section>
      <h2>Key ${now.in ? `at ${here?.name ?? `${Math.round(now.angle)}°`}` : 'out'} <span class="quiet small">engine ${this.bench?.scene.engine === 'stopped' ? 'still' : this.bench?.scene.engine}</span></h2>
      <detent-key-chart .shown=${this.rings()} .place=${this.turning ?? now} .stands=${(this.turning ?? now).angle} .radius=${206}
        @key-turned=${(e: CustomEvent<Turned>) => this.turn(e.detail.key)}></detent-key-chart>
      <form class="fields" @submit=${(e: Event) => this.ease(e)}>
        <button type="button" ?disabled=${this.busy} @click=${() => this.act({ do: 'release' })}>Let go</button>
        <label>Ease it to, degrees<input name="angle" type="text" inputmode="decimal" size="5" .value=${String(Math.round(now.angle))} /></label><button ?disabled=${this.busy}>Ease</button>
      </form>
    </section>`;
  }

  /** The sectors of the sound switch, the same object each time: the chart is laid out anew for another. */
  private rings() {
    const { positions } = this.circuit.key!;
    if (this.ringsOf !== this.sectors || this.ringsShown?.positions !== positions) {
      this.ringsOf = this.sectors;
      this.ringsShown = { positions, rings: soundOnly(this.sectors) };
    }
    return this.ringsShown;
  }

  /** One turn of the hand is one step of the log, however many marks it passes: it counts once the key rests. */
  private turn(key: KeyPlace): void {
    this.turning = key;
    clearTimeout(this.resting);
    this.resting = setTimeout(() => this.rests(), rest_ms);
  }

  private rests(): void {
    const now = this.bench?.scene.key;
    const to = this.turning;
    if (!now || !to) return;
    if (this.busy) {
      this.turn(to);
      return;
    }
    this.turning = undefined;
    if (to.in !== now.in) this.act({ do: 'key', is: to.in ? 'in' : 'out' });
    else if (to.angle !== now.angle) this.act({ do: 'turn', angle: to.angle });
  }

  private hints() {
    const given = this.held.hints;
    const next = strengths[Math.min(given.filter((h) => h.after === this.held.actions.length).length, 2)]!;
    return html`<section>
      <div class="head"><h3 class="hint">${given.length === 0 ? 'Hints' : `Hint ${given.length}`}</h3><span class="quiet small">a question costs 1 point, narrower 3, shown 6</span></div>
      ${given.length > 0 ? html`<p>${given.at(-1)!.text}</p>` : nothing}
      <div class="row"><button ?disabled=${this.busy} @click=${() => this.fire('hinted', next)}>${given.length === 0 ? 'A hint' : 'Next hint'}: ${hintWords[next]}</button></div>
    </section>`;
  }

  private read(): void {
    const { red, black } = this.meter;
    if (!red) return;
    if (this.kind === 'clamp' || this.kind === 'amps') void this.line(`${this.kind} ${red}`);
    else if (black) void this.line(`${this.kind} ${red} ${black}`);
  }

  private doIt(e: Event): void {
    e.preventDefault();
    const words = new FormData(e.target as HTMLFormElement);
    const { red, black } = this.meter;
    if (this.doing === 'bridge') void this.line(`bridge ${red ?? ''} ${black ?? ''}`);
    else if (this.doing === 'set') void this.line(String(words.get('set')));
    else void this.line(`${this.doing} ${String(words.get('part') ?? '')}`.trim());
  }

  private type(e: Event): void {
    e.preventDefault();
    const form = e.target as HTMLFormElement;
    void this.line(String(new FormData(form).get('line'))).then((done) => done && form.reset());
  }

  private ease(e: Event): void {
    e.preventDefault();
    const angle = Number.parseFloat(String(new FormData(e.target as HTMLFormElement).get('angle')));
    if (Number.isFinite(angle)) void this.line(`ease to ${angle}°`);
  }

  private name(e: Event): void {
    e.preventDefault();
    const phrase = String(new FormData(e.target as HTMLFormElement).get('name')).trim();
    const known = phrase.split(/\s+and\s+|\s*\+\s*/i);
    const { faults } = this.circuit;
    const subjects = new Set(faults.map((f) => f.phrase.split(' ')[0]));
    const unknown = known.find((p) => !subjects.has(p.split(' ')[0]!));
    if (phrase === '' || unknown !== undefined)
      this.answer =
        phrase === '' ? 'Name a fault, as the list writes it.' : `\`${unknown}\` is no fault of this circuit; choose one of the list.`;
    else void this.line(`name ${phrase}`);
  }

  /** @returns true when it was something that can be done */
  private async line(line: string): Promise<boolean> {
    this.answer = '';
    if (!this.file) return false;
    const read = await askPractise('read', { ...this.file, line });
    if (read.ok) this.act(read.value);
    else this.answer = read.why;
    return read.ok;
  }
}

/** Every contact as it ought to be: what is hung on the open job is not what is hidden here. */
const soundOnly = (rings: Rings['rings']): Rings['rings'] => rings.map(({ does: _does, ...ring }) => ring);
