import { css, html, LitElement, nothing } from 'lit';
import { tools as allTools, type Tool } from '../../src/diagnose/candidates.ts';
import { levelOf, levels } from '../../src/practice/level.ts';
import type { CircuitSeen } from '../calls.ts';
import { controls } from '../looks/controls.ts';
import type { Message } from '../session/update.ts';
import { practiceShelf } from './practiceShelf.ts';
import type { SetSeen } from './practiseCalls.ts';
import { askPractise, stopPractise } from './practiseDesk.ts';
import { saveText } from './saveText.ts';
import { setLink } from './setLink.ts';

const toolWords: Readonly<Record<Tool, string>> = {
  meter: 'meter',
  lamp: 'test lamp',
  clamp: 'clamp',
  ohmmeter: 'ohmmeter',
  jumper: 'fused jumper',
  'donor-switch': 'known good key switch',
};

/**
 * For instructors: faults are hung on the drawing, the simulated technician tries whether they can be found with the tools
 * at hand, and what can be found joins a set, which leaves as one file or one link. What is chosen here is kept nowhere;
 * the set is kept sealed.
 */
export class InstructorPanel extends LitElement {
  static override properties = {
    file: { attribute: false },
    circuit: { attribute: false },
    library: { attribute: false },
    put: { attribute: false },
    faults: { state: true },
    partId: { state: true },
    level: { state: true },
    set: { state: true },
    seen: { state: true },
    told: { state: true },
    working: { state: true },
  };
  declare file: { readonly text: string; readonly name: string } | undefined;
  declare circuit: CircuitSeen;
  /** Name of the circuit in the library; undefined for a file of one's own, which no link can carry. */
  declare library: string | undefined;
  /** Hang-tags on the bench. */
  declare put: readonly string[];
  declare faults: readonly string[];
  declare partId: string | undefined;
  declare level: number;
  /** The set as its file is written; empty when nothing is in it. */
  declare set: string;
  declare seen: SetSeen | undefined;
  declare told: string;
  declare working: string | undefined;

  constructor() {
    super();
    this.told = '';
    this.put = [];
    this.faults = [];
    this.level = 3;
    this.set = '';
  }

  static override styles = [
    controls,
    css`
      :host {
        display: grid;
        gap: 18px;
      }
      section,
      form {
        display: grid;
        gap: 10px;
      }
      .place {
        display: grid;
        grid-template-columns: minmax(0, 1fr) 380px;
        gap: 18px;
        align-items: start;
      }
      .sheet {
        border: 1px solid var(--rule);
        background: var(--sheet);
        height: 560px;
        min-width: 0;
        display: grid;
        grid-template: minmax(0, 1fr) / minmax(0, 1fr);
        overflow: hidden;
      }
      .fields {
        display: flex;
        flex-wrap: wrap;
        gap: 12px;
        align-items: end;
      }
      .fields label {
        display: grid;
        gap: 4px;
        font-weight: 600;
      }
      .tools {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 18px;
      }
      .tools legend {
        font-weight: 600;
        float: left;
        width: 100%;
      }
      .tools label {
        display: flex;
        gap: 8px;
        align-items: center;
        min-height: 44px;
      }
      .row > button {
        flex: 0 1 auto;
      }
      legend {
        padding: 0;
      }
      ol {
        display: grid;
        gap: 0;
        list-style: none;
      }
      li {
        display: grid;
        grid-template-columns: minmax(0, 1fr) auto;
        gap: 10px;
        align-items: center;
        border-top: 1px solid var(--rule);
        padding: 6px 0;
      }
      @media (max-width: 999.9px) {
        .place {
          grid-template-columns: minmax(0, 1fr);
        }
        .sheet {
          height: 320px;
        }
      }
    `,
  ];

  override connectedCallback(): void {
    super.connectedCallback();
    void practiceShelf().then(async (shelf) => this.show(await shelf.set()));
  }

  override render() {
    const isBusy = this.working !== undefined;
    const tools = levelOf(this.level)!.tools;
    return html`<section aria-label="Hide a fault">
        <h3>1. Hang a fault on a part</h3>
        <p>Choose a part in the drawing, then its fault; or search the list. Two or more make one exercise. What you choose is kept nowhere until it is sealed.</p>
        <div class="place" @say=${(e: CustomEvent<Message>) => this.placed(e)}>
          <div class="sheet"><detent-drawing neutral show="healthy" .layout=${this.circuit.layout} .circuit=${this.circuit} .moment=${undefined} .chosen=${this.partId}
            line="Wiring. Choose the part that is to be faulty."></detent-drawing></div>
          <div><detent-faults .circuit=${this.circuit} .phrases=${this.faults} .partId=${this.partId}
            .put=${this.faults.map((phrase) => ({ phrase, subject: phrase, words: '', part: '', text: this.circuit.faults.find((f) => f.phrase === phrase)?.text ?? '' }))}></detent-faults></div>
        </div>
        ${this.put.length > 0 && this.faults.length === 0 ? html`<div class="row"><button type="button" @click=${() => (this.faults = this.put)}>Take the hang-tags of the bench</button></div><p class="small quiet">Hang-tags on the bench stay visible there: take them off before an apprentice sits down at this machine.</p>` : nothing}
      </section>
      <form @submit=${(e: Event) => this.hide(e)}>
        <h3>2. Check it, and put it into the set</h3>
        <div class="fields">
          <label>Level of the exercise<select name="level" @change=${(e: Event) => (this.level = Number((e.target as HTMLSelectElement).value))}>${levels.filter((l) => l.number > 2).map((l) => html`<option value=${l.number} ?selected=${l.number === this.level}>${l.number} ${l.title}</option>`)}</select></label>
          <label>Pass-word, empty for none<input type="text" name="pass" autocomplete="off" size="14" /></label>
          <label>Customer's wording, number<input type="text" name="seed" inputmode="numeric" size="4" value="1" autocomplete="off" /></label>
        </div>
        <fieldset class="tools"><legend>Tools at hand</legend>${allTools.map((t) => html`<label><input type="checkbox" name="tool" value=${t} .checked=${tools.includes(t)} />${toolWords[t]}</label>`)}</fieldset>
        <div class="row">
          <button class="main" ?disabled=${isBusy || this.faults.length === 0}>Check and put into the set</button>
          <button type="button" ?disabled=${isBusy} @click=${() => this.make()}>Or let the program hide five of this level</button>
        </div>
        <p role="status">${isBusy ? html`${this.working}... ` : this.told}</p>
        ${isBusy ? html`<div class="row"><button type="button" @click=${() => stopPractise()}>Stop</button></div>` : nothing}
      </form>
      <section aria-label="The set">
        <h3>3. The set</h3>
        ${this.seen ? this.list(this.seen) : html`<p class="quiet">Nothing in it yet.</p>`}
        <div class="row">
          <button type="button" ?disabled=${this.set === ''} @click=${() => saveText('exercises.yaml', this.set, 'application/yaml')}>Save the set as a file</button>
          <button type="button" ?disabled=${this.set === '' || this.library === undefined} @click=${() => this.link()}>Copy a link to the set</button>
          <button type="button" ?disabled=${this.set === ''} @click=${() => this.keep('', 'The set is empty.')}>Empty the set</button>
        </div>
        ${this.library === undefined ? html`<p class="small quiet">A link can only carry exercises on a circuit of the library; give this circuit and the set as files.</p>` : nothing}
        <p class="small quiet">The answers are sealed: they cannot be read from the file, the link or what is kept. It is a seal, not a safe.</p>
      </section>
      <section aria-label="Class sheet"><h3>Class sheet</h3><detent-class></detent-class></section>`;
  }

  private list(seen: SetSeen) {
    return html`<ol>${seen.exercises.map(
      (e) =>
        html`<li><span><b>${e.number}. Level ${e.level}, ${e.circuit.replace(/\.ya?ml$/, '')}.</b> "${e.complaint}" <span class="quiet">A good time: ${Math.ceil(e.minutes)} min${e.wantsPass ? '; with a pass-word' : ''}.</span></span>
        <button type="button" aria-label="Take exercise ${e.number} out" @click=${() => this.without(e.number)}>Take out</button></li>`,
    )}</ol>`;
  }

  /** The drawing and the list speak to the desk; here they are heard instead, so that nothing reaches the bench or what is kept. */
  private placed(e: CustomEvent<Message>): void {
    e.stopPropagation();
    const message = e.detail;
    if (message.do === 'faults') {
      this.faults = message.faults;
      this.partId = undefined;
    } else if (message.do === 'look' && 'part' in message.look) this.partId = message.look.part;
  }

  private async whileWorking(run: () => Promise<string>): Promise<void> {
    this.working = 'The technician is trying it';
    try {
      this.told = await run();
    } catch (error) {
      this.told = error instanceof Error && error.message !== 'stopped' ? error.message : 'Stopped; nothing was put into the set.';
    } finally {
      this.working = undefined;
    }
  }
  private readonly heard = (words: string): void => {
    this.working = `${words[0]!.toUpperCase()}${words.slice(1)}`;
  };

  private words(): { level: number; seed: number; pass: string; tools: readonly Tool[] } {
    const form = new FormData(this.renderRoot.querySelector('form')!);
    const chosen = form.getAll('tool').map(String);
    const seed = Number.parseInt(String(form.get('seed')), 10);
    return {
      level: this.level,
      seed: Number.isFinite(seed) ? seed : 1,
      pass: String(form.get('pass')),
      tools: allTools.filter((t) => chosen.includes(t)),
    };
  }

  private hide(e: Event): void {
    e.preventDefault();
    const { file, faults, set } = this;
    if (!file) return;
    void this.whileWorking(async () => {
      const made = await askPractise('hide', { ...file, ...this.words(), faults, set }, this.heard);
      if (!made.ok) return `Not put in: ${made.why}.`;
      this.faults = [];
      await this.keep(made.set, made.said);
      return made.said;
    });
  }

  private make(): void {
    const { file, set } = this;
    if (!file) return;
    void this.whileWorking(async () => {
      const { level, seed, pass } = this.words();
      const made = await askPractise('make', { ...file, level, seed, pass, set, many: 5 }, this.heard);
      if (!made.ok) return `Not put in: ${made.why}.`;
      await this.keep(made.set, made.said);
      return made.said;
    });
  }

  private async without(number: number): Promise<void> {
    await this.keep(await askPractise('without', { text: this.set, number }), `Exercise ${number} is out.`);
  }

  private async keep(set: string, told: string): Promise<void> {
    await (await practiceShelf()).keepSet(set);
    await this.show(set);
    this.told = told;
  }

  private async show(set: string): Promise<void> {
    this.set = set;
    const read = set === '' ? undefined : await askPractise('set', { text: set });
    this.seen = read?.ok ? read.value : undefined;
  }

  private async link(): Promise<void> {
    const link = await setLink(this.library!, this.set);
    if (link === undefined) this.told = 'The set is too long for a link; save it as a file.';
    else
      this.told = await navigator.clipboard.writeText(link).then(
        () => 'The link is copied. It opens the set, with the answers sealed.',
        () => `The browser does not let the page copy. The link: ${link}`,
      );
  }
}
