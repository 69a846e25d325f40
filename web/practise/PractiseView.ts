import { html, LitElement, nothing, type PropertyValues } from 'lit';
import type { Action, HintStrength } from '../../src/practice/action.ts';
import { levels } from '../../src/practice/level.ts';
import { joinedResults, nextLevel, type Result } from '../../src/practice/progress.ts';
import type { CircuitSeen } from '../calls.ts';
import type { Answers } from '../Desk.ts';
import { controls } from '../looks/controls.ts';
import { say } from '../say.ts';
import type { Job, Session } from '../session/session.ts';
import { type KeptPractice, keptPractice, keptSet, practiceName, setName } from './keptPractice.ts';
import { practiceShelf } from './practiceShelf.ts';
import type { About, BenchSeen, DebriefSeen, SetSeen, Which } from './practiseCalls.ts';
import { askPractise, stopPractise } from './practiseDesk.ts';
import { practiseStyles } from './practiseStyles.ts';

/** After this it is said what is being worked out. */
const patience_ms = 300;
const none: readonly never[] = [];

/**
 * Practise: an exercise chosen or given, worked at the bench, and at the end the debrief; progress, quizzes and what
 * instructors need.
 *
 * @fires say - `more`, `meter`, `circuit`
 */
export class PractiseView extends LitElement {
  static override properties = {
    session: { attribute: false },
    answers: { attribute: false },
    bench: { state: true },
    debrief: { state: true },
    busy: { state: true },
    told: { state: true },
    level: { state: true },
    quiz: { state: true },
    teaching: { state: true },
    results: { state: true },
    has: { state: true },
    working: { state: true },
    set: { state: true },
    pass: { state: true },
  };
  declare session: Session;
  declare answers: Answers;
  declare bench: BenchSeen | undefined;
  declare debrief: DebriefSeen | undefined;
  declare busy: boolean;
  declare told: string;
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
    return html`<detent-practice-bench .meter=${this.job.meter} .circuit=${circuit} .sectors=${this.answers.table?.sectors ?? none} .file=${this.file} .held=${held}
      .bench=${this.bench} .busy=${this.busy} .working=${this.working} .told=${this.told}
      @done=${(e: CustomEvent<readonly Action[]>) => this.act(...e.detail)} @hinted=${(e: CustomEvent<HintStrength>) => void this.hint(held, e.detail)}></detent-practice-bench>`;
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
  private async hint(held: KeptPractice, strength: HintStrength): Promise<void> {
    const about = this.about(held.which);
    if (!about) return;
    await this.whileWorking('Thinking about what your readings say', async () => {
      const text = await askPractise('hint', { ...about, actions: held.actions, strength });
      const actions: readonly Action[] = [...held.actions, { do: 'hint', strength }];
      this.keep({ ...held, actions, hints: [...held.hints, { after: actions.length, text }] });
    });
  }

  private act(...actions: readonly Action[]): void {
    const held = keptPractice(this.job);
    if (!held || this.busy) return;
    this.told = '';
    this.keep({ ...held, actions: [...held.actions, ...actions] });
  }
}
