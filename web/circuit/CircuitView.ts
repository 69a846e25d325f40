import { html, LitElement, nothing, type PropertyValues } from 'lit';
import type { Step } from '../../src/circuit/edit/steps.ts';
import type { Answers } from '../Desk.ts';
import { Latest } from '../Latest.ts';
import { controls } from '../looks/controls.ts';
import { say } from '../say.ts';
import type { Session } from '../session/session.ts';
import type { Message } from '../session/update.ts';
import { saveText } from '../shell/files.ts';
import { circuitStyles } from './circuitStyles.ts';
import type { Checked, Drawn, EditCalls, ProblemSeen } from './editCalls.ts';
import { askEdit } from './editDesk.ts';
import { type Editor, openEditor } from './editor.ts';
import type { FormName } from './GuidedForms.ts';
import { idInLine, placeOfId } from './lineIds.ts';
import { linkLimit, ownLink } from './share.ts';

/** What the view keeps with the job: a text that may still be broken, and the circuit that it was made from. */
type Draft = { readonly from: string; readonly name: string; readonly text: string };
const forms: readonly (readonly [FormName, string])[] = [
  ['part', 'Add a part'],
  ['wire', 'Wire from … to …'],
  ['key', 'Key switch'],
  ['change', 'Change'],
  ['fit', 'Fit to readings'],
  ['skeleton', 'Begin anew'],
];
/** Pause in typing after which the drawing follows, ms. Problems come at once. */
const drawAfter_ms = 250;

/**
 * One's own circuit: the text with its problems, the drawing beside it, the guided forms, lists in and out.
 * @fires say - `circuit` (onto the bench), `more` (the draft stays with the job)
 */
export class CircuitView extends LitElement {
  static override properties = {
    session: { attribute: false },
    answers: { attribute: false },
    text: { state: true },
    checked: { state: true },
    drawn: { state: true },
    chosen: { state: true },
    form: { state: true },
    said: { state: true },
    otherwise: { state: true },
  };
  declare session: Session;
  declare answers: Answers;
  declare text: string;
  declare checked: Checked | undefined;
  /** The last good drawing; kept while the text is broken. */
  declare drawn: Drawn | undefined;
  declare chosen: string | undefined;
  declare form: FormName | undefined;
  declare said: string;
  /** What the text has otherwise than the bench, in words. */
  declare otherwise: readonly string[];
  private editor: Editor | undefined;
  private shownFor = '';
  private name = 'circuit.yaml';
  private drawTimer: ReturnType<typeof setTimeout> | undefined;
  /** From the last key to its problems on the screen's side, ms. */
  took = 0;
  private keyAt = 0;
  private checkedText = '';
  private readonly checks = new Latest(
    (q: EditCalls['check']['takes']) => askEdit('check', q),
    (checked, { text }) => this.wasChecked(checked, text),
    (error) => this.tell(error instanceof Error ? error.message : String(error)),
  );
  private readonly drawings = new Latest(
    (q: EditCalls['draw']['takes']) => askEdit('draw', q),
    (drawn) => {
      if (drawn) this.drawn = drawn;
      this.askOtherwise();
    },
    (error) => this.tell(error instanceof Error ? error.message : String(error)),
  );

  constructor() {
    super();
    this.text = '';
    this.said = '';
    this.otherwise = [];
  }

  static override styles = [controls, circuitStyles];

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    clearTimeout(this.drawTimer);
    this.keepDraft();
    this.editor?.destroy();
    this.editor = undefined;
    this.shownFor = '';
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.requestUpdate();
  }

  override updated(changed: PropertyValues<this>): void {
    this.begin();
    // On a narrow screen the form that was asked for stands further down.
    if (changed.has('form') && this.form) this.renderRoot.querySelector('.guide')?.scrollIntoView({ block: 'start' });
  }

  /** Opens the editor once the circuit's text is there, and again when another circuit takes the job. */
  private begin(): void {
    const { job } = this.session;
    const read = this.answers.circuit;
    const host = this.renderRoot.querySelector<HTMLElement>('.editor');
    // An answer can come after the view was left. An editor opened then would listen to the window, and stay, for good.
    if (!read || !host || !this.isConnected) return;
    const from = `${job.id} ${job.circuit.from} ${job.circuit.name}`;
    if (this.shownFor === from) return;
    const kept = job.more['circuit'] as Draft | undefined;
    const isOwn = kept?.from === from;
    const text = isOwn ? kept.text : read.text;
    this.shownFor = from;
    this.name = isOwn ? kept.name : job.circuit.from === 'file' ? job.circuit.name : `my-${job.circuit.name}.yaml`;
    this.drawn = undefined;
    if (this.editor) this.editor.setText(text);
    else
      this.editor = openEditor(host, this.renderRoot as ShadowRoot, text, {
        changed: (now) => this.changed(now),
        moved: (line) => {
          const id = idInLine(line);
          if (id !== undefined) this.chosen = id;
        },
        complete: (now, offset) => askEdit('complete', { text: now, offset }),
        hover: (now, offset) => askEdit('hover', { text: now, offset }),
      });
    this.changed(text);
  }

  private changed(text: string): void {
    this.keyAt = performance.now();
    this.text = text;
    this.checks.want(text, { text, name: this.name });
    clearTimeout(this.drawTimer);
    this.drawTimer = setTimeout(() => {
      this.askMends();
      this.drawings.want(this.text, { text: this.text, name: this.name });
      this.keepDraft();
    }, drawAfter_ms);
  }

  private askOtherwise(): void {
    const { text } = this;
    const there = this.answers.circuit?.text ?? '';
    if (there === text || !this.checked?.sound) {
      this.otherwise = [];
      return;
    }
    void askEdit('compare', { there, here: text }).then((found) => {
      if (this.text === text) this.otherwise = found.map((d) => d.text);
    });
  }

  private askMends(): void {
    const { text } = this;
    if (this.checked?.problems.length === 0) return;
    void askEdit('mends', { text, name: this.name }).then((mends) => {
      if (this.text !== text || !this.checked || this.checkedText !== text) return;
      this.checked = { ...this.checked, problems: this.checked.problems.map((p, k) => ({ ...p, mends: mends[k] ?? [] })) };
      this.editor?.problems(this.checked.problems);
    });
  }

  private keepDraft(): void {
    if (this.shownFor === '' || this.text === this.answers.circuit?.text) return;
    const draft: Draft = { from: this.shownFor, name: this.name, text: this.text };
    const kept = this.session.job.more['circuit'] as Draft | undefined;
    if (kept?.text !== draft.text || kept.from !== draft.from)
      say(this, { do: 'more', name: 'circuit', value: draft, gesture: 'circuit text' });
  }

  private wasChecked(checked: Checked, text: string): void {
    this.checked = checked;
    this.checkedText = text;
    this.took = performance.now() - this.keyAt;
    this.editor?.problems(checked.problems);
  }

  private tell(said: string): void {
    this.said = said;
  }

  override render() {
    const { checked } = this;
    const errors = checked?.problems.filter((p) => p.problem.severity === 'error').length ?? 0;
    const isOnBench = this.text === this.answers.circuit?.text;
    return html`<div class="circuit">
      <h2 class="unseen">Circuit</h2>
      <section class="left" aria-label="Circuit file">
        <div class="row bar">
          <button class="main" ?disabled=${!checked?.sound || isOnBench} @click=${this.toBench}>${isOnBench ? 'On the bench' : 'Put on the bench'}</button>
          <button @click=${this.openList}>From a wire list</button>
          <button ?disabled=${!checked?.sound} @click=${this.saveList}>As a wire list</button>
          <button @click=${() => saveText(this.name, this.text)}>Save</button>
          <button @click=${this.copyLink}>Copy link</button>
        </div>
        <div class="editor"></div>
        <div class="problems" aria-label="Problems">
          <p role="status"><b>${checked === undefined ? 'Reading...' : checked.problems.length === 0 ? 'No problems.' : `${errors} ${errors === 1 ? 'error' : 'errors'}, ${checked.problems.length + checked.more - errors} ${checked.problems.length + checked.more - errors === 1 ? 'warning' : 'warnings'}`}</b></p>
          <ul>${checked?.problems.slice(0, 30).map((p) => this.problem(p))}</ul>
        </div>
      </section>
      <section class="right" aria-label="Drawing and guided forms">
        <div>
          <div class="row bar" role="group" aria-label="Guided">${forms.map(
            ([form, word]) =>
              html`<button aria-pressed=${this.form === form} @click=${() => {
                this.form = this.form === form ? undefined : form;
              }}>${word}</button>`,
          )}</div>
          <p class=${this.said === '' ? 'unseen' : 'said'} role="status">${this.said}</p>
        </div>
        <div class="drawing" @say=${this.fromDrawing}>
          ${checked && !checked.sound && this.drawn ? html`<p class="stale">The last good drawing; the text has errors.</p>` : nothing}
          ${
            this.drawn
              ? html`<detent-drawing .layout=${this.drawn.layout} .circuit=${{ parts: this.drawn.parts }} .neutral=${true} .line=${`Drawing of ${checked?.title ?? 'the circuit'}`} .chosen=${this.chosen} .marked=${this.marked}></detent-drawing>`
              : html`<p class="said">The drawing comes with the first text that reads without errors.</p>`
          }
        </div>
        ${
          this.form
            ? html`<div class="guide open"><detent-guided .form=${this.form} .text=${this.text} @steps=${this.takeSteps} @whole=${this.takeWhole} @fitted=${this.takeFitted}></detent-guided></div>`
            : this.assumedList()
        }
      </section>
    </div>`;
  }

  private problem({ problem, from, to, mends }: ProblemSeen) {
    return html`<li class=${problem.severity}>
      <button class="place" @click=${() => this.goTo(from, to)}>Line ${problem.line}, ${problem.severity}: ${problem.what}</button>
      <p class="small">${problem.why}</p>
      ${mends.length === 0 ? problem.mend.map((m) => html`<p class="small">Mend: ${m}</p>`) : nothing}
      <div class="row">${mends.map((mend) => html`<button @click=${() => this.mend(mend.edits)}>Mend: ${mend.label}</button>`)}</div>
    </li>`;
  }

  private assumedList() {
    const assumed = this.drawn?.assumed ?? [];
    return html`<div class="guide">
      <h3>${assumed.length === 0 ? 'Nothing was assumed.' : `Assumed, because the file does not say (${assumed.length})`}</h3>
      <ul class="small">${assumed.slice(0, 60).map((text) => html`<li>${text}</li>`)}</ul>
      ${
        this.otherwise.length > 0
          ? html`<h3>Otherwise than on the bench (there) (${this.otherwise.length})</h3>
              <ul class="small">${this.otherwise.slice(0, 60).map((text) => html`<li>${text}</li>`)}</ul>`
          : nothing
      }
    </div>`;
  }

  /** The chosen wire and its sections between connectors. */
  private get marked(): readonly string[] {
    const { chosen } = this;
    if (chosen === undefined) return [];
    return (this.drawn?.parts ?? [])
      .filter((p) => p.isWire && (p.id === chosen || (p.id.startsWith(chosen) && /^[a-z]{1,2}$/.test(p.id.slice(chosen.length)))))
      .map((p) => p.id);
  }

  private goTo(from: number, to: number): void {
    this.editor?.select(from, to);
    this.editor?.focus();
  }

  private mend(edits: readonly { from: number; to: number; insert: string }[]): void {
    this.editor?.apply(edits);
    this.editor?.focus();
  }

  /** A part or wire picked on the drawing: shown in the text. The bench's own choice is left alone. */
  private fromDrawing = (e: CustomEvent<Message>): void => {
    e.stopPropagation();
    if (e.detail.do !== 'look') return;
    const id = e.detail.look.part;
    this.chosen = id;
    const place = id === undefined ? undefined : placeOfId(this.text, id);
    if (place) this.editor?.select(place.from, place.to);
  };

  private takeSteps = async (e: CustomEvent<{ steps: readonly Step[]; said: string }>): Promise<void> => {
    const { steps, said } = e.detail;
    const { text, failed } = await askEdit('steps', { text: this.text, steps });
    const step = failed === undefined ? undefined : steps[failed];
    this.editor?.setText(text);
    this.tell(
      step === undefined
        ? said
        : `${step.do} could not be done: ${'id' in step ? step.id : ''} is there already, is not there, or the text has an error`,
    );
  };

  private takeWhole = (e: CustomEvent<string>): void => {
    this.editor?.setText(e.detail);
    this.name = 'my-circuit.yaml';
    this.form = 'part';
    this.tell(e.detail === '' ? 'An empty file: add the first part.' : 'A skeleton to begin with.');
  };

  private takeFitted = (e: CustomEvent<string>): void => {
    this.editor?.setText(e.detail);
    this.tell('Fitted figures written.');
  };

  private toBench = (): void => {
    const { faults } = this.session.job;
    this.keepDraft();
    say(this, { do: 'circuit', circuit: { from: 'file', name: this.name, text: this.text }, faults });
    this.shownFor = `${this.session.job.id} file ${this.name}`;
    this.tell('On the bench now.');
  };

  private openList = (): void => {
    const field = document.createElement('input');
    field.type = 'file';
    field.accept = '.csv,.tsv,.txt';
    field.onchange = async () => {
      const file = field.files?.[0];
      if (file) await this.takeList(file.name, new Uint8Array(await file.arrayBuffer()));
    };
    field.click();
  };

  /** A wire list takes the place of the text; rows that were not taken are told. */
  async takeList(name: string, bytes: Uint8Array): Promise<void> {
    const read = await askEdit('import', { bytes, name, byHand: {} });
    if (read.yaml !== undefined) {
      this.editor?.setText(read.yaml);
      this.name = name.replace(/\.[^.]*$/, '.yaml');
    }
    const first = read.problems.slice(0, 3).map((p) => `line ${p.line}: ${p.what}`);
    this.tell([`${read.wires} wires taken, ${read.leftOut} rows not, ${read.problems.length} remarks`, ...first].join('; '));
  }

  private saveList = async (): Promise<void> => {
    const german = new Intl.NumberFormat().formatToParts(1.5).some((p) => p.type === 'decimal' && p.value === ',');
    const csv = await askEdit('export', { text: this.text, style: { separator: german ? ';' : ',', decimal: german ? ',' : '.' } });
    saveText(this.name.replace(/\.[^.]*$/, '.csv'), `\uFEFF${csv}`);
  };

  private copyLink = async (): Promise<void> => {
    const hash = await ownLink(this.name, this.text);
    if (hash === undefined) {
      this.tell(`The circuit makes a link longer than ${linkLimit} characters, which mail programs would cut: send the file instead.`);
      return;
    }
    await navigator.clipboard.writeText(`${location.href.replace(/#.*$/, '')}#${hash}`);
    this.tell(`Link copied; the circuit travels in it (${hash.length} of ${linkLimit} characters).`);
  };
}
