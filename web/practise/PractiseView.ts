import { html, LitElement, nothing, type PropertyValues } from 'lit';
import type { KeyPlace } from '../../src/circuit/scene.ts';
import type { Action, HintStrength } from '../../src/practice/action.ts';
import { levels } from '../../src/practice/level.ts';
import { joinedResults, nextLevel, type Result } from '../../src/practice/progress.ts';
import type { CircuitDrawing } from '../bench/CircuitDrawing.ts';
import type { KeyChart, Turned } from '../bench/KeyChart.ts';
import type { CircuitSeen } from '../calls.ts';
import type { Answers } from '../Desk.ts';
import { controls } from '../looks/controls.ts';
import { say } from '../say.ts';
import type { Job, Meter, Session } from '../session/session.ts';
import { type KeptPractice, keptPractice, keptSet, practiceName, setName } from './keptPractice.ts';
import { practiceShelf } from './practiceShelf.ts';
import type { About, BenchSeen, DebriefSeen, SetSeen, Which } from './practiseCalls.ts';
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
/** After this it is said what is being worked out. */
const patience_ms = 300;
const strengths: readonly HintStrength[] = ['ask', 'narrow', 'show'];
const hintWords: Readonly<Record<HintStrength, string>> = { ask: 'a question', narrow: 'narrow it down', show: 'show the reading' };

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
    results: { state: true },
    has: { state: true },
    working: { state: true },
    set: { state: true },
    pass: { state: true },
    turning: { state: true },
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
  declare quiz: { readonly level: 1 | 2; readonly seed: number; readonly ticket: string } | undefined;
  declare teaching: boolean;
  /** Everything that was practised on this machine. */
  declare results: readonly Result[];
  /** Levels that the circuit can hold; one that turned out empty is taken out. */
  declare has: readonly number[];
  /** What is under way, in words, once it takes longer than a moment. */
  declare working: string | undefined;
  declare set: SetSeen | undefined;
  /** Of the set, as typed; never kept with it. */
  declare pass: string;
  /** Where the hand has the key, before it rests. */
  declare turning: KeyPlace | undefined;
  private resting: ReturnType<typeof setTimeout> | undefined;
  private ringsShown: Rings | undefined;
  private broughtOn: CircuitDrawing | undefined;
  private levelsFor = '';
  private setFor = '';
  private isChosen = false;
  /** An exercise of the set that waits for its circuit. */
  private awaited: number | undefined;
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
    this.results = [];
    this.has = levels.map((l) => l.number);
    this.pass = '';
  }

  override connectedCallback(): void {
    super.connectedCallback();
    void this.recall();
    addEventListener('focus', this.recall);
  }
  override disconnectedCallback(): void {
    super.disconnectedCallback();
    removeEventListener('focus', this.recall);
  }
  /** Results may have been added in another tab meanwhile. */
  private readonly recall = async (): Promise<void> => {
    this.took(await (await practiceShelf()).results());
  };
  private took(results: readonly Result[]): void {
    this.results = results;
    if (!this.isChosen) this.level = nextLevel(results, this.has).level;
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
    if (this.file && this.levelsFor !== this.file.name) void this.ofCircuit(this.file);
    const set = keptSet(this.job);
    if (set !== this.setFor) void this.readSet(set);
    const key = JSON.stringify([this.job.id, this.file?.name, held?.which, held?.actions]);
    if (key === this.shownFor || !this.file) return;
    this.shownFor = key;
    if (held?.begun) void this.show(held);
    else [this.bench, this.debrief] = [undefined, undefined];
  }

  override updated(changed: PropertyValues<this>): void {
    // The last step is what one looks for.
    if (changed.has('bench')) this.renderRoot.querySelector('.below > section')?.scrollTo({ top: 1e6 });
    // A wide drawing opens on the key switch: what is complained of hangs on it, and neither end of the sheet shows it.
    const key = this.answers.circuit?.circuit?.key;
    const drawing = this.renderRoot.querySelector<CircuitDrawing>('.desk detent-drawing');
    if (!key || !drawing || drawing === this.broughtOn) return;
    this.broughtOn = drawing;
    void drawing.updateComplete.then(() => drawing.bring([key.id]));
  }

  /** The bench after the actions kept, worked out by the worker; after the last one the debrief. */
  private async show(held: KeptPractice): Promise<void> {
    const about = this.about(held.which);
    if (!about) return;
    await this.whileWorking('Working out the bench', async (heard) => {
      this.bench = await askPractise('bench', { ...about, actions: held.actions });
      if (!this.bench.ended) {
        this.debrief = undefined;
        return;
      }
      heard('working out the debrief');
      const debrief = await askPractise('debrief', { ...about, actions: held.actions }, (w) => heard(`working out the debrief: ${w}`));
      this.debrief = debrief.value;
      this.told = debrief.value.verdict;
      if (!held.counted) await this.count(held, debrief.value.total);
    });
  }

  /** Runs something; what it is at is shown once it takes longer than a moment, with a way to stop it. */
  private async whileWorking(first: string, run: (heard: (words: string) => void) => Promise<void>): Promise<void> {
    this.busy = true;
    let words = first;
    const shown = setTimeout(() => (this.working = words), patience_ms);
    try {
      await run((now) => {
        words = `${now[0]!.toUpperCase()}${now.slice(1)}`;
        if (this.working !== undefined) this.working = words;
      });
    } catch (error) {
      this.told = !(error instanceof Error) ? String(error) : error.message === 'stopped' ? 'Stopped.' : error.message;
    } finally {
      clearTimeout(shown);
      this.working = undefined;
      this.busy = false;
    }
  }

  private async ofCircuit(file: { readonly text: string; readonly name: string }): Promise<void> {
    this.levelsFor = file.name;
    this.has = await askPractise('levels', file);
    this.took(this.results);
    if (this.awaited !== undefined) void this.fromSet(this.awaited);
  }

  private async readSet(text: string): Promise<void> {
    this.setFor = text;
    const read = text === '' ? undefined : await askPractise('set', { text });
    this.set = read?.ok ? read.value : undefined;
    if (read?.ok === false) this.told = `This is no set of exercises: ${read.why}.`;
  }

  private keep(value: KeptPractice | undefined): void {
    // One gesture for the whole exercise: a reading that was taken cannot be undone.
    say(this, { do: 'more', name: practiceName, value, gesture: 'practise' });
  }

  private async count(held: KeptPractice, score: number): Promise<void> {
    const { level, seed } = held.begun!;
    await this.add(held.ticket, { level, circuit: this.answers.circuit?.circuit?.title ?? '', seed, score });
    this.keep({ ...held, counted: true });
  }

  private async add(ticket: string, result: Result): Promise<void> {
    const shelf = await practiceShelf();
    await shelf.add(ticket, result);
    this.isChosen = false;
    this.took(await shelf.results());
  }

  private async replace(results: readonly Result[]): Promise<void> {
    await (await practiceShelf()).replace(results);
    this.took(results);
  }

  override render() {
    const circuit = this.answers.circuit?.circuit;
    if (!circuit) return html`<p class="wait">${this.answers.failure ?? 'Reading the circuit...'}</p>`;
    const held = keptPractice(this.job);
    if (this.quiz && this.file)
      return html`<detent-quiz .file=${this.file} .level=${this.quiz.level} .seed=${this.quiz.seed} @finished=${(e: CustomEvent<number>) => this.quizDone(e.detail)} @left=${() => (this.quiz = undefined)}></detent-quiz>`;
    if (this.debrief && held)
      return html`<detent-debrief .seen=${this.debrief} .title=${circuit.title} @again=${() => this.leave()} @next=${() => void this.goOn(held)}></detent-debrief>`;
    if (!held?.begun) return this.setUp(circuit);
    return this.desk(circuit, held);
  }

  private waiting() {
    return this.working === undefined
      ? nothing
      : html`<div class="row under"><p role="status">${this.working}...</p><button type="button" @click=${() => stopPractise()}>Stop</button></div>`;
  }

  private setUp(circuit: CircuitSeen) {
    const { results, has } = this;
    const next = nextLevel(results, has);
    const chosen = levels.find((l) => l.number === this.level);
    return html`<div class="wait">
      <h2>Practise on ${circuit.title}</h2>
      <p>A fault is hidden in this vehicle. The customer tells what is wrong; find it as at a real one. Every step costs minutes, parts cost money. Afterwards your way is shown beside the best one.</p>
      ${this.set ? this.ofSet(this.set) : nothing}
      <section class="part" aria-label="Begin an exercise">
        <p><b>Next for you: level ${next.level}, ${levels[next.level - 1]?.title.toLowerCase()}.</b> Why: ${next.because}. You may choose another.</p>
        <form class="set" @submit=${(e: Event) => this.begin(e)}>
          <div class="fields">
            <label>Level
              <select name="level" @change=${(e: Event) => this.choose(Number((e.target as HTMLSelectElement).value))}>
                ${levels.map((l) => html`<option value=${l.number} .selected=${l.number === this.level} ?disabled=${!has.includes(l.number)}>${l.number} ${l.title}</option>`)}
              </select>
            </label>
            <label>Exercise number <input type="text" name="seed" inputmode="numeric" size="6" .value=${String(results.length + 1)} /></label>
            <button class="main" ?disabled=${this.busy}>${this.level === next.level ? 'Begin' : `Begin level ${this.level}`}</button>
          </div>
          <p class="quiet">Who holds this level ${chosen?.skill}. The same vehicle, level and number always give the same exercise.</p>
        </form>
        ${this.waiting()}
        <p role="status">${this.told}</p>
        <div class="row"><label class="button">Open an instructor's exercises<input class="unseen" type="file" accept=".yaml,.yml" @change=${(e: Event) => this.openFile(e)} /></label></div>
      </section>
      <section class="part" aria-label="Your progress">
        <h3>Your progress</h3>
        <detent-progress .results=${results} .has=${has} .chosen=${this.level} .next=${next.level} @level=${(e: CustomEvent<number>) => this.choose(e.detail)}
          @brought=${(e: CustomEvent<readonly Result[]>) => void this.replace(joinedResults(results, e.detail))} @cleared=${() => void this.replace([])}></detent-progress>
      </section>
      <details ?open=${this.teaching} @toggle=${(e: Event) => (this.teaching = (e.target as HTMLDetailsElement).open)}>
        <summary>For instructors: hide a fault, make a set, keep the class sheet</summary>
        ${this.teaching ? html`<detent-instructor .file=${this.file} .circuit=${circuit} .library=${this.job.circuit.from === 'library' ? this.job.circuit.name : undefined} .put=${this.job.faults}></detent-instructor>` : nothing}
      </details>
    </div>`;
  }

  /** The set that an instructor gave, exercise by exercise. */
  private ofSet(set: SetSeen) {
    return html`<section class="part" aria-label="Exercises of your instructor">
      <h3>Exercises of your instructor: ${set.title}</h3>
      ${set.exercises.some((e) => e.wantsPass) ? html`<div class="fields"><label>Pass-word<input type="text" autocomplete="off" .value=${this.pass} @change=${(e: Event) => (this.pass = (e.target as HTMLInputElement).value)} /></label></div>` : nothing}
      <ol class="given">${set.exercises.map(
        (e) =>
          html`<li><span><b>Level ${e.level}</b>, ${e.circuit.replace(/\.ya?ml$/, '')}: "${e.complaint}" <span class="quiet">A good time: ${Math.ceil(e.minutes)} min.</span></span>
            <button ?disabled=${this.busy} aria-label="Begin exercise ${e.number} of the set" @click=${() => void this.fromSet(e.number)}>Begin</button></li>`,
      )}</ol>
      <div class="row"><button @click=${() => this.keepSet('')}>Put the set away</button></div>
    </section>`;
  }

  private choose(level: number): void {
    this.isChosen = true;
    this.level = level;
  }

  private begin(e: Event): void {
    e.preventDefault();
    const words = new FormData(e.target as HTMLFormElement);
    const seed = Number.parseInt(String(words.get('seed')), 10);
    void this.start(this.level, Number.isFinite(seed) ? seed : 1);
  }

  /** After a debrief: the next of the set, or the level that the rule chooses. */
  private async goOn(held: KeptPractice): Promise<void> {
    const { which } = held;
    this.leave();
    if (which.from === 'file') {
      const next = this.set?.exercises[which.number];
      if (next) await this.fromSet(next.number);
      return;
    }
    const { level, because } = nextLevel(this.results, this.has);
    this.level = level;
    this.told = `Level ${level}: ${because}.`;
    await this.start(level, this.results.length + 1);
  }

  private async start(level: number, seed: number): Promise<void> {
    this.debrief = undefined;
    if (level < 3) {
      this.keep(undefined);
      this.quiz = { level: level as 1 | 2, seed, ticket: crypto.randomUUID() };
      return;
    }
    if (!(await this.take({ from: 'seed', level, seed }))) this.has = this.has.filter((l) => l !== level);
  }

  /** @returns false when the circuit holds no such exercise */
  private async take(which: Which): Promise<boolean> {
    const about = this.about(which);
    if (!about) return true;
    let isThere = true;
    await this.whileWorking(which.from === 'seed' ? 'Hiding a fault' : 'Opening the exercise', async (heard) => {
      const made = await askPractise('begin', about, heard);
      if (!made.ok) {
        isThere = false;
        this.told = `${made.why[0]!.toUpperCase()}${made.why.slice(1)}.`;
        return;
      }
      this.told = '';
      say(this, { do: 'meter', meter: { red: undefined, black: 'ground' } });
      const begun = made.value;
      const found = which.from === 'seed' ? { ...which, candidate: begun.candidate } : which;
      this.keep({ which: found, begun, ticket: crypto.randomUUID(), actions: [], hints: [] });
    });
    return isThere;
  }

  private async openFile(e: Event): Promise<void> {
    const field = e.target as HTMLInputElement;
    const file = field.files?.[0];
    if (file) this.keepSet(await file.text());
    field.value = '';
  }
  private keepSet(text: string): void {
    say(this, { do: 'more', name: setName, value: text === '' ? undefined : { file: text }, gesture: 'practise' });
  }

  private async fromSet(number: number): Promise<void> {
    this.awaited = undefined;
    const wanted = this.set?.exercises[number - 1];
    if (!wanted) return;
    const name = wanted.circuit.replace(/\.ya?ml$/, '');
    const here = this.job.circuit.name.replace(/\.ya?ml$/, '');
    if (name === here) {
      await this.take({ from: 'file', file: keptSet(this.job), number, pass: wanted.wantsPass ? this.pass : '' });
      return;
    }
    if (!this.answers.library.some((l) => l.name === name)) {
      this.told = `This exercise is about ${wanted.circuit}: open that circuit first, then the set again.`;
      return;
    }
    this.awaited = number;
    say(this, { do: 'circuit', circuit: { from: 'library', name } });
  }

  private quizDone(score: number): void {
    const { level, seed, ticket } = this.quiz!;
    void this.add(ticket, { level, circuit: this.answers.circuit?.circuit?.title ?? '', seed, score });
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
        <p class="line"><b>Level ${begun.level}, ${begun.title.toLowerCase()}.</b> "${begun.complaint}" <span class="quiet">${bench?.line ?? ''}</span></p>
        <detent-drawing neutral show="healthy" .layout=${circuit.layout} .circuit=${circuit} .moment=${undefined} .line=${`Wiring, neutral. ${bench?.line ?? ''}`}
          .meter=${this.leads()}></detent-drawing>
        <div class="below">
          <section aria-label="Your log" tabindex="0">${this.log(begun.difficulty.minutes)}</section>
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
      <p class="unseen" role="status" aria-live="polite">${this.told || (steps.at(-1)?.said ?? '')}</p>`;
  }

  private actions(circuit: CircuitSeen) {
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
      <h2>Key ${now.in ? `at ${here?.name ?? `${Math.round(now.angle)}°`}` : 'out'} <span class="quiet small">engine ${this.bench?.scene.engine === 'stopped' ? 'still' : this.bench?.scene.engine}</span></h2>
      <detent-key-chart .shown=${this.rings(circuit)} .place=${this.turning ?? now} .stands=${(this.turning ?? now).angle} .radius=${206}
        @key-turned=${(e: CustomEvent<Turned>) => this.turn(e.detail.key)}></detent-key-chart>
      <form class="fields" @submit=${(e: Event) => this.ease(e)}>
        <button type="button" ?disabled=${this.busy} @click=${() => this.act({ do: 'release' })}>Let go</button>
        <label>Ease it to, degrees<input name="angle" type="text" inputmode="decimal" size="5" .value=${String(Math.round(now.angle))} /></label><button ?disabled=${this.busy}>Ease</button>
      </form>
    </section>`;
  }

  /** The sectors of the sound switch, the same object each time: the chart is laid out anew for another. */
  private rings(circuit: CircuitSeen) {
    const rings = this.answers.table?.sectors ?? [];
    if (this.ringsShown?.rings !== rings || this.ringsShown.positions !== circuit.key!.positions)
      this.ringsShown = { positions: circuit.key!.positions, rings };
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

  private hints(held: KeptPractice) {
    const given = held.hints;
    const next = strengths[Math.min(given.filter((h) => h.after === held.actions.length).length, 2)]!;
    return html`<section>
      <div class="head"><h3 class="hint">${given.length === 0 ? 'Hints' : `Hint ${given.length}`}</h3><span class="quiet small">a question costs 1 point, narrower 3, shown 6</span></div>
      ${given.length > 0 ? html`<p>${given.at(-1)!.text}</p>` : nothing}
      <div class="row"><button ?disabled=${this.busy} @click=${() => this.hint(held, next)}>${given.length === 0 ? 'A hint' : 'Next hint'}: ${hintWords[next]}</button></div>
    </section>`;
  }

  private async hint(held: KeptPractice, strength: HintStrength): Promise<void> {
    const about = this.about(held.which);
    if (!about) return;
    await this.whileWorking('Thinking about what your readings say', async () => {
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
