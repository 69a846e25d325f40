import { html, LitElement, nothing, type PropertyValues } from 'lit';
import type { Action, HintStrength } from '../../src/practice/action.ts';
import { levels } from '../../src/practice/level.ts';
import { progressText, type Result } from '../../src/practice/progress.ts';
import type { CircuitSeen } from '../calls.ts';
import type { Answers } from '../Desk.ts';
import { controls } from '../looks/controls.ts';
import { say } from '../say.ts';
import type { Job, Meter, Session } from '../session/session.ts';
import { type KeptPractice, keptPractice, practiceName, progressKey, resultsOf } from './keptPractice.ts';
import type { About, BenchSeen, DebriefSeen, Which } from './practiseCalls.ts';
import { askPractise } from './practiseDesk.ts';
import { practiseStyles } from './practiseStyles.ts';
import { saveText } from './saveText.ts';

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
const strengths: readonly HintStrength[] = ['ask', 'narrow', 'show'];

/**
 * The apprentice at work: the drawing without potentials, the key, instruments, actions with their cost, the log, hints,
 * and at the end the debrief.
 *
 * @fires say - `more`, `meter`
 */
export class PractiseView extends LitElement {
  static override properties = {
    session: { attribute: false },
    answers: { attribute: false },
    bench: { state: true },
    debrief: { state: true },
    busy: { state: true },
    told: { state: true },
    kind: { state: true },
    doing: { state: true },
    level: { state: true },
    quiz: { state: true },
    teaching: { state: true },
  };
  declare session: Session;
  declare answers: Answers;
  declare bench: BenchSeen | undefined;
  declare debrief: DebriefSeen | undefined;
  declare busy: boolean;
  declare told: string;
  declare kind: Kind;
  declare doing: Doing;
  declare level: number;
  declare quiz: { readonly level: 1 | 2; readonly seed: number } | undefined;
  declare teaching: boolean;
  private shownFor = '';

  static override styles = [controls, practiseStyles];

  constructor() {
    super();
    this.busy = false;
    this.told = '';
    this.kind = 'volts';
    this.doing = 'look';
    this.level = 3;
    this.teaching = false;
  }

  private get job(): Job {
    return this.session.job;
  }
  private get file(): { readonly text: string; readonly name: string } | undefined {
    const read = this.answers.circuit;
    const choice = this.job.circuit;
    return read?.circuit ? { text: read.text, name: choice.from === 'library' ? `${choice.name}.yaml` : choice.name } : undefined;
  }
  private about(which: Which): About | undefined {
    return this.file && { ...this.file, which };
  }

  override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('session') && !changed.has('answers')) return;
    const held = keptPractice(this.job);
    const key = JSON.stringify([this.job.id, this.file?.name, held?.which, held?.actions]);
    if (key === this.shownFor || !this.file) return;
    this.shownFor = key;
    if (held?.begun) void this.show(held);
    else [this.bench, this.debrief] = [undefined, undefined];
  }

  /** The bench after the actions kept, worked out by the worker; after the last one the debrief. */
  private async show(held: KeptPractice): Promise<void> {
    const about = this.about(held.which);
    if (!about) return;
    await this.working(async () => {
      this.bench = await askPractise('bench', { ...about, actions: held.actions });
      if (!this.bench.ended) {
        this.debrief = undefined;
        return;
      }
      this.told = 'Working out the debrief: every step beside the best one.';
      this.debrief = await askPractise('debrief', { ...about, actions: held.actions });
      this.told = this.debrief.verdict;
      if (!held.counted) this.count(held, this.debrief.total);
    });
  }

  private async working(run: () => Promise<void>): Promise<void> {
    this.busy = true;
    try {
      await run();
    } catch (error) {
      this.told = error instanceof Error ? error.message : String(error);
    } finally {
      this.busy = false;
    }
  }

  private keep(value: KeptPractice | undefined): void {
    // One gesture for the whole exercise: a reading that was taken cannot be undone.
    say(this, { do: 'more', name: practiceName, value, gesture: 'practise' });
  }

  private count(held: KeptPractice, score: number): void {
    const result: Result = { level: held.begun!.level, circuit: this.answers.circuit?.circuit?.title ?? '', seed: held.begun!.seed, score };
    say(this, { do: 'more', name: progressKey, value: [...resultsOf(this.job), result], gesture: 'practise' });
    this.keep({ ...held, counted: true });
  }

  override render() {
    const circuit = this.answers.circuit?.circuit;
    if (!circuit) return html`<p class="wait">${this.answers.failure ?? 'Reading the circuit...'}</p>`;
    const held = keptPractice(this.job);
    if (this.quiz && this.file)
      return html`<detent-quiz .file=${this.file} .level=${this.quiz.level} .seed=${this.quiz.seed} @finished=${(e: CustomEvent<number>) => this.quizDone(e.detail)} @left=${() => (this.quiz = undefined)}></detent-quiz>`;
    if (this.debrief && held)
      return html`<detent-debrief .seen=${this.debrief} .title=${circuit.title} @again=${() => this.leave()} @next=${() => void this.next()}></detent-debrief>`;
    if (!held?.begun) return this.setUp(circuit);
    return this.desk(circuit, held);
  }

  private setUp(circuit: CircuitSeen) {
    const results = resultsOf(this.job);
    return html`<div class="wait">
      <h2>Practise on ${circuit.title}</h2>
      <p>A fault is hidden in this vehicle. The customer tells what is wrong; find it as at a real one. Every step costs minutes, parts cost money.</p>
      <form class="set" @submit=${(e: Event) => this.begin(e)}>
        <div class="fields">
          <label>Level
            <select name="level" .value=${String(this.level)} @change=${(e: Event) => (this.level = Number((e.target as HTMLSelectElement).value))}>
              ${levels.map((l) => html`<option value=${l.number} ?selected=${l.number === this.level}>${l.number} ${l.title}</option>`)}
            </select>
          </label>
          <label>Seed <input type="text" name="seed" inputmode="numeric" size="6" value=${String(results.length + 1)} /></label>
          <button class="main" ?disabled=${this.busy}>${this.busy ? 'Hiding a fault...' : 'Begin'}</button>
          <button type="button" ?disabled=${this.busy} @click=${() => this.next()}>Choose for me</button>
        </div>
        <p class="quiet">${levels.find((l) => l.number === this.level)?.skill}</p>
      </form>
      <p role="status">${this.told}</p>
      ${
        results.length > 0
          ? html`<p>${results.length} done. Last: ${results
              .slice(-4)
              .map((r) => `level ${r.level}, ${r.score}`)
              .join(
                '; ',
              )}. <button class="low" @click=${() => saveText('progress.json', progressText(results))}>Save the progress</button></p>`
          : nothing
      }
      <p><label class="button">Open an instructor's exercise<input class="unseen" type="file" accept=".yaml,.yml" @change=${(e: Event) => this.openFile(e)} /></label></p>
      <details ?open=${this.teaching} @toggle=${(e: Event) => (this.teaching = (e.target as HTMLDetailsElement).open)}>
        <summary>For instructors: hide a fault</summary>
        ${this.teaching ? html`<detent-instructor .file=${this.file} .faults=${circuit.faults} .put=${this.job.faults}></detent-instructor>` : nothing}
      </details>
    </div>`;
  }

  private begin(e: Event): void {
    e.preventDefault();
    const words = new FormData(e.target as HTMLFormElement);
    const seed = Number.parseInt(String(words.get('seed')), 10);
    void this.start(this.level, Number.isFinite(seed) ? seed : 1);
  }

  private async next(): Promise<void> {
    const results = resultsOf(this.job);
    const { level, because } = await askPractise('next', { results });
    this.level = level;
    this.told = `Level ${level}: ${because}.`;
    await this.start(level, results.length + 1);
  }

  private async start(level: number, seed: number): Promise<void> {
    this.debrief = undefined;
    if (level < 3) {
      this.keep(undefined);
      this.quiz = { level: level as 1 | 2, seed };
      return;
    }
    await this.take({ from: 'seed', level, seed });
  }

  private async take(which: Which): Promise<void> {
    const about = this.about(which);
    if (!about) return;
    await this.working(async () => {
      const made = await askPractise('begin', about);
      if (!made.ok) {
        this.told = made.why;
        return;
      }
      this.told = '';
      say(this, { do: 'meter', meter: { red: undefined, black: 'ground' } });
      const begun = made.value;
      this.keep({ which: which.from === 'seed' ? { ...which, candidate: begun.candidate } : which, begun, actions: [], hints: [] });
    });
  }

  private async openFile(e: Event): Promise<void> {
    const file = (e.target as HTMLInputElement).files?.[0];
    if (!file) return;
    const text = await file.text();
    const pass = /opens: pass/.test(text) ? (prompt('Pass-word of the exercise') ?? '') : '';
    await this.take({ from: 'file', file: text, number: 1, pass });
  }

  private quizDone(score: number): void {
    const { level, seed } = this.quiz!;
    const result: Result = { level, circuit: this.answers.circuit?.circuit?.title ?? '', seed, score };
    say(this, { do: 'more', name: progressKey, value: [...resultsOf(this.job), result], gesture: 'practise' });
  }

  private leave(): void {
    this.debrief = undefined;
    this.keep(undefined);
  }

  private desk(circuit: CircuitSeen, held: KeptPractice) {
    const { bench } = this;
    const begun = held.begun!;
    return html`<div class="desk">
      <section class="left" aria-label="Vehicle and log">
        <p class="line"><b>Level ${begun.level}, ${begun.title.toLowerCase()}.</b> <span class="quiet">"${begun.complaint}" ${bench?.line ?? ''}</span></p>
        <detent-drawing neutral show="healthy" .layout=${circuit.layout} .circuit=${circuit} .moment=${undefined} .line=${`Wiring, neutral. ${bench?.line ?? ''}`}
          .meter=${this.leads()}></detent-drawing>
        <div class="below">
          <section aria-label="Your log">${this.log(begun.difficulty.minutes)}</section>
          <section aria-label="Do something">${this.actions(circuit)}</section>
        </div>
      </section>
      <aside class="right" aria-label="Meter, key and hints">${this.meter(circuit)} ${this.key(circuit)} ${this.hints(held)}
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
    return { ...this.job.meter, open: true, instrument: 'volts' };
  }

  private log(goodTime: number) {
    const steps = this.bench?.steps ?? [];
    return html`<div class="head"><h2>Your log</h2><span class="quiet">${Math.round(this.bench?.minutes ?? 0)} min used, ${Math.ceil(goodTime)} is a good time; ${this.bench?.money ?? 0} money</span></div>
      ${
        steps.length === 0
          ? html`<p>Nothing done yet. Begin with what the customer complains of, in that place of the key.</p>`
          : html`<table class="log"><tbody>${steps.map(
              (s, k) =>
                html`<tr class="${k === steps.length - 1 ? 'last' : ''} ${s.trap ? 'trap' : ''}"><td>${s.at}</td><th scope="row">${s.did}</th><td>${s.said}</td><td class="figure">${s.figure}</td><td class="cost">${s.cost}</td></tr>`,
            )}</tbody></table>`
      }
      <p class="unseen" role="status" aria-live="polite">${this.told || (steps.at(-1)?.said ?? '')}</p>`;
  }

  private actions(circuit: CircuitSeen) {
    const listed = circuit.parts.filter((p) =>
      this.doing === 'ask' || this.doing === 'look' ? p.isLoad : this.doing !== 'swap' || !p.isWire,
    );
    const needsPart = this.doing !== 'walk' && this.doing !== 'bridge' && this.doing !== 'set';
    return html`<div class="head"><h2>Do something</h2><span class="quiet">each costs time</span></div>
      <form class="do" @submit=${(e: Event) => this.doIt(e)}>
        <label>What
          <select name="what" @change=${(e: Event) => (this.doing = (e.target as HTMLSelectElement).value as Doing)}>
            ${doings.map(([name, word]) => html`<option value=${name} ?selected=${name === this.doing}>${word}</option>`)}
          </select></label>
        ${
          needsPart
            ? html`<label>Which part<input name="part" type="text" list="parts" autocomplete="off" placeholder=${this.doing === 'look' ? 'everything in sight' : this.doing === 'ask' ? 'engine, history or a load' : 'X2'} />
            <datalist id="parts">${this.doing === 'ask' ? html`<option value="engine"></option><option value="history"></option>` : nothing}${listed.map((p) => html`<option value=${p.id}>${p.name || p.what}</option>`)}</datalist></label>`
            : nothing
        }
        ${
          this.doing === 'set'
            ? html`<label>Which switch<select name="set">${circuit.switches.flatMap((s) => s.settings.map((w) => html`<option value="${s.id} ${w}">${s.name} (${s.id}): ${w}</option>`))}</select></label>`
            : nothing
        }
        ${this.doing === 'bridge' ? html`<p class="small quiet">Between leads A and B. A bridge stays until it is taken off.</p>` : nothing}
        <div class="row"><button class="main" ?disabled=${this.busy}>Do it</button>${this.bench?.scene.bridged.length ? html`<button type="button" @click=${() => this.act({ do: 'unbridge' })}>Bridge off</button>` : nothing}</div>
      </form>
      <form class="do" @submit=${(e: Event) => this.type(e)}>
        <label>Or type it, as in the terminal<input name="line" type="text" autocomplete="off" placeholder="volts S1.15" /></label>
      </form>
      <p class="small" role="alert">${this.told}</p>`;
  }

  private meter(circuit: CircuitSeen) {
    const { red, black } = this.job.meter;
    const one = this.kind === 'clamp' || this.kind === 'amps';
    const read = [...(this.bench?.steps ?? [])].reverse().find((s) => s.figure !== '');
    const figure = read?.figure ?? '- - -';
    const places = circuit.parts.filter((p) => !p.isWire).flatMap((p) => p.terminals.map((t) => `${p.id}.${t}`));
    const field = (
      lead: 'red' | 'black',
      letter: string,
      word: string,
    ) => html`<div class="lead"><span class="letter" aria-hidden="true">${letter}</span>
      <input type="text" list="places" autocomplete="off" aria-label="${letter}, ${word}" placeholder=${word} .value=${this.job.meter[lead] ?? ''}
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

  private key(circuit: CircuitSeen) {
    const { key } = circuit;
    const now = this.bench?.scene.key;
    if (!key || !now) return nothing;
    const here = key.positions.find((p) => Math.abs(p.angle - now.angle) < 0.5);
    return html`<section>
      <h2>Key ${now.in ? `at ${here?.name ?? `${Math.round(now.angle)}°`}` : 'out'} <span class="quiet small">engine ${this.bench?.scene.engine}</span></h2>
      <div class="row" role="group" aria-label="Turn the key">
        ${key.positions.map((p) => html`<button aria-pressed=${now.in && here?.name === p.name} ?disabled=${this.busy} @click=${() => this.act({ do: 'turn', angle: p.angle })}>${p.name}${p.springsTo ? ', hold' : ''}</button>`)}
        <button ?disabled=${this.busy} @click=${() => this.act({ do: 'release' })}>Let go</button>
        <button ?disabled=${this.busy} @click=${() => this.act(now.in ? { do: 'key', is: 'out' } : { do: 'key', is: 'in' })}>${now.in ? 'Key out' : 'Key in'}</button>
      </div>
      <form class="fields" @submit=${(e: Event) => this.ease(e)}>
        <label>Ease it to, degrees<input name="angle" type="text" inputmode="decimal" size="5" .value=${String(Math.round(now.angle))} /></label><button ?disabled=${this.busy}>Ease</button>
      </form>
    </section>`;
  }

  private hints(held: KeptPractice) {
    const given = held.hints;
    const next = strengths[Math.min(given.filter((h) => h.after === held.actions.length).length, 2)]!;
    return html`<section>
      <div class="head"><h3 class="hint">${given.length === 0 ? 'Hints' : `Hint ${given.length}`}</h3><span class="quiet small">ask costs 1 point, narrow 3, show 6</span></div>
      ${given.length > 0 ? html`<p>${given.at(-1)!.text}</p>` : nothing}
      <div class="row"><button ?disabled=${this.busy} @click=${() => this.hint(held, next)}>${given.length === 0 ? 'A hint' : 'Next hint'}: ${next}</button></div>
    </section>`;
  }

  private async hint(held: KeptPractice, strength: HintStrength): Promise<void> {
    const about = this.about(held.which);
    if (!about) return;
    await this.working(async () => {
      const text = await askPractise('hint', { ...about, actions: held.actions, strength });
      const actions: readonly Action[] = [...held.actions, { do: 'hint', strength }];
      this.keep({ ...held, actions, hints: [...held.hints, { after: actions.length, text }] });
    });
  }

  private act(action: Action): void {
    const held = keptPractice(this.job);
    if (!held || this.busy) return;
    this.told = '';
    this.keep({ ...held, actions: [...held.actions, action] });
  }

  private read(): void {
    const { red, black } = this.job.meter;
    if (!red) return;
    if (this.kind === 'clamp' || this.kind === 'amps') void this.line(`${this.kind} ${red}`);
    else if (black) void this.line(`${this.kind} ${red} ${black}`);
  }

  private doIt(e: Event): void {
    e.preventDefault();
    const words = new FormData(e.target as HTMLFormElement);
    const { red, black } = this.job.meter;
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
    const faults = this.answers.circuit?.circuit?.faults ?? [];
    const subjects = new Set(faults.map((f) => f.phrase.split(' ')[0]));
    const unknown = known.find((p) => !subjects.has(p.split(' ')[0]!));
    if (phrase === '' || unknown !== undefined)
      this.told =
        phrase === '' ? 'Name a fault, as the list writes it.' : `\`${unknown}\` is no fault of this circuit; choose one of the list.`;
    else void this.line(`name ${phrase}`);
  }

  /** @returns true when it was something that can be done */
  private async line(line: string): Promise<boolean> {
    if (!this.file) return false;
    const read = await askPractise('read', { ...this.file, line });
    if (read.ok) this.act(read.value);
    else this.told = read.why;
    return read.ok;
  }
}
