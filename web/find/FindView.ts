import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { type Tool, tools, usualTools } from '../../src/diagnose/candidates.ts';
import type { OutcomeRow, ReadingRow } from '../../src/report/diagnosisView.ts';
import type { Moment } from '../../src/report/moment.ts';
import type { Ask } from '../bench/BenchView.ts';
import type { CircuitDrawing } from '../bench/CircuitDrawing.ts';
import type { Halo } from '../bench/drawnMarks.ts';
import { problemList } from '../bench/problemList.ts';
import { layoutWith } from '../bench/storyLayout.ts';
import { type CauseAnswer, causeDesk } from '../CauseDesk.ts';
import type { CircuitSeen } from '../calls.ts';
import type { CircuitText, PhraseRead, SearchSeen } from '../causeCalls.ts';
import type { Answers } from '../Desk.ts';
import { controls } from '../looks/controls.ts';
import { say, wish } from '../say.ts';
import type { Job, Meter, Notes, Session } from '../session/session.ts';
import { subjectOf } from './findingParts.ts';
import { findStyles } from './findStyles.ts';
import { readingKey } from './NextCard.ts';

/** What the view keeps with the job. */
type Kept = { readonly skipped?: readonly string[]; readonly tools?: readonly Tool[]; readonly doubted?: readonly string[] };
type Panel = 'next' | 'findings' | 'suspects';
const panels: readonly (readonly [Panel, string])[] = [
  ['next', 'Next'],
  ['findings', 'Findings'],
  ['suspects', 'Suspects'],
];

/**
 * Find the cause: findings, suspects with halos on the drawing, the next reading, the proof.
 * @fires say, wish
 */
export class FindView extends LitElement {
  static override properties = {
    session: { attribute: false },
    answers: { attribute: false },
    ask: { attribute: false },
    stands: { state: true },
    panel: { state: true },
    entering: { state: true },
    whatIf: { state: true },
    chosen: { state: true },
    pointed: { state: true },
  };
  declare session: Session;
  declare answers: Answers;
  declare ask: Ask;
  /** The healthy vehicle in the scene of the next reading: how its contacts stand. */
  declare stands: Moment | undefined;
  private standsFor = '';
  declare panel: Panel;
  /** What is being entered: the sheet of what was seen, or a reading. */
  declare entering: 'seen' | 'reading' | undefined;
  declare whatIf: OutcomeRow | undefined;
  /** Key of a reading that was taken instead of the first. */
  declare chosen: string | undefined;
  declare pointed: string | undefined;
  private unlisten: (() => void) | undefined;
  private brought = '';
  private broughtIn: CircuitDrawing | undefined;

  constructor() {
    super();
    this.panel = 'next';
  }

  static override styles = [controls, findStyles];

  override connectedCallback(): void {
    super.connectedCallback();
    this.unlisten = causeDesk.listen(() => this.requestUpdate());
  }
  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.unlisten?.();
    if (this.session.job.meter.open) say(this, { do: 'meter', meter: { open: false, placing: undefined } });
  }

  override updated(_changed: PropertyValues<this>): void {
    void this.standIn(this.reading()?.scene ?? '');
    this.bringIntoView();
  }

  /** Contacts are drawn as a healthy vehicle has them in the scene of the reading. */
  private async standIn(words: string): Promise<void> {
    const { circuit: choice, scene: own } = this.session.job;
    const key = JSON.stringify([choice, words, words === '' ? own : '']);
    if (key === this.standsFor || !this.answers.circuit?.circuit) return;
    this.standsFor = key;
    const read = words === '' || words === 'off the vehicle' ? undefined : await this.ask('scene', { choice, words });
    const scene = read?.scene ?? own;
    if (scene && this.standsFor === key) this.stands = (await this.ask('moment', { choice, faults: [], scene })).moment;
  }

  private bringIntoView(): void {
    const { drawing } = this;
    // Not while it is hidden on a narrow screen.
    if (!drawing || drawing.clientHeight === 0) return;
    const wanted = this.halos.map((h) => h.part).slice(0, 1);
    const leads = this.leads();
    const to = [...(leads ? [leads.red, leads.black].filter((t) => t !== undefined && t !== 'ground') : []), ...wanted] as string[];
    const key = `${drawing.clientWidth} ${drawing.layout.width} ${to.join(' ')}`;
    // The sheet of what was seen takes the drawing's place; afterwards it is another one, and stands at its beginning.
    const isBrought = key === this.brought && drawing === this.broughtIn;
    if (isBrought || to.length === 0 || this.entering === 'reading') return;
    this.brought = key;
    this.broughtIn = drawing;
    void drawing.updateComplete.then(() => drawing.bring(to));
  }
  private get drawing(): CircuitDrawing | null {
    return this.renderRoot.querySelector('detent-drawing');
  }

  override render() {
    const read = this.answers.circuit;
    if (!read) return html`<p class="wait">${this.answers.failure ?? 'Reading the circuit...'}</p>`;
    if (!read.circuit)
      return html`<div class="wait"><h2>This circuit has problems</h2>${problemList(read.problems)}<button @click=${() => wish(this, 'library')}>Open another circuit</button></div>`;
    const { circuit } = read;
    const { notes } = this.session.job;
    const asked = this.search(read.text);
    const search = asked?.gives;
    return html`<div class="find" data-panel=${this.panel} data-entering=${this.entering ?? ''}>
      <nav class="parts" aria-label="Parts of the search">${panels.map(
        ([panel, word]) =>
          html`<button aria-current=${this.panel === panel ? 'true' : 'false'} @click=${() => {
            this.panel = panel;
          }}>${word}${panel === 'findings' && notes.findings.length > 0 ? ` (${notes.findings.length})` : ''}</button>`,
      )}</nav>
      <section class="left" aria-label="Drawing, findings and suspects">
        ${this.complaint()} ${this.entering === 'seen' ? this.seenSheet(circuit, read.text) : this.picture(circuit)}
        <div class="below">
          <section class="findings" aria-label="Findings">${this.findings(circuit, search, read.text)}</section>
          <section class="suspects" aria-label="Suspects">${this.suspects(circuit, asked)}</section>
        </div>
      </section>
      <aside class="right" aria-label="Next reading and proof">${this.right(asked)}</aside>
    </div>`;
  }

  private complaint() {
    return html`<label class="scenebar"><b>Complaint.</b>
      <input type="text" .value=${this.session.job.notes.complaint} placeholder="Starts, then dies when the key springs back to ON" @input=${(
        e: Event,
      ) => say(this, { do: 'notes', notes: { complaint: (e.target as HTMLInputElement).value }, gesture: 'complaint' })} />
    </label>`;
  }

  private picture(circuit: CircuitSeen) {
    const parts = [...this.halos.map((h) => h.part), ...Object.values(this.leads() ?? {})].filter((x) => typeof x === 'string');
    const said = this.search(this.answers.circuit?.text ?? '')?.gives?.view.verdict.text ?? 'Every part is still possible.';
    return html`<detent-drawing neutral
      .layout=${layoutWith(circuit, this.session.job.look.all === true, parts)}
      .circuit=${circuit}
      .moment=${this.stands}
      show="healthy"
      .line=${`Wiring with suspects. ${said}`}
      .halos=${this.halos}
      .meter=${this.leads()}
    ></detent-drawing>`;
  }

  /** Leads on the drawing: those being placed, or those of the next reading. */
  private leads(): Meter | undefined {
    const { meter } = this.session.job;
    if (this.entering === 'reading') return { ...meter, open: true };
    const [red, black] = this.reading()?.leads ?? [];
    return red === undefined ? undefined : { instrument: 'volts', red, black, open: true };
  }

  private get halos(): readonly Halo[] {
    const view = this.search(this.answers.circuit?.text ?? '')?.gives?.view;
    if (!view) return [];
    const shares = new Map<string, number>();
    for (const [k, s] of view.suspects.entries()) {
      const at = this.whatIf ? this.whatIf.leaves.indexOf(k) : -1;
      const share = this.whatIf ? (at < 0 ? 0 : this.whatIf.worth[at]!) : s.probability;
      for (const subject of new Set(s.faults.map(subjectOf))) shares.set(subject, (shares.get(subject) ?? 0) + share);
    }
    const all = [...shares].map(([part, share]) => ({ part, share, isPointed: part === this.pointed }));
    return all.filter((h) => h.share >= 0.02).sort((a, b) => b.share - a.share);
  }

  private findings(circuit: CircuitSeen, search: SearchSeen | undefined, text: string) {
    const { findings } = this.session.job.notes;
    const { doubted = [] } = this.kept;
    return html`<div class="head"><h2>Findings</h2>
        <div class="row"><button aria-pressed=${this.entering === 'reading'} @click=${() => this.enter('reading')}>Add a reading</button>
        <button aria-pressed=${this.entering === 'seen'} @click=${() => this.enter('seen')}>Add a finding</button></div></div>
      ${
        this.entering === 'reading'
          ? html`<detent-reading-entry .meter=${this.session.job.meter} .circuit=${circuit} .check=${this.checking(circuit.title, text)}
            @found=${(e: CustomEvent<readonly string[]>) => this.note(e.detail, [])} @done=${() => this.enter(undefined)}></detent-reading-entry>`
          : nothing
      }
      ${
        findings.length === 0
          ? html`<p class="empty">Nothing entered. Start with what does not work, and in which position.</p>`
          : html`<detent-findings .lines=${findings} .search=${search} .circuit=${circuit}
            @take-back=${(e: CustomEvent<{ line: number; phrase: string }>) => this.takeBack(e.detail, search)}></detent-findings>`
      }
      ${
        doubted.length > 0
          ? html`<p class="quiet">Doubted: ${doubted.map(
              (phrase) => html`${phrase} <button class="low" @click=${() => this.note([phrase], [])}>Put back</button> `,
            )}</p>`
          : nothing
      }`;
  }

  private suspects(circuit: CircuitSeen, asked: CauseAnswer<'search'> | undefined) {
    const view = asked?.gives?.view;
    const cleared = view && clearedParts(view.suspects, circuit);
    return html`<div class="head"><h2>Suspects</h2>
        ${cleared && cleared.length > 0 ? html`<p class="quiet cleared">cleared: ${cleared.slice(0, 6).join(', ')}${cleared.length > 6 ? ` and ${cleared.length - 6} more` : ''}</p>` : nothing}</div>
      ${
        view
          ? html`<detent-suspects .view=${view} .whatIf=${this.whatIf} .circuit=${circuit} @suspect-pointed=${(
              e: CustomEvent<string | undefined>,
            ) => {
              this.pointed = e.detail;
            }}></detent-suspects>`
          : html`<p class="empty">${asked ? (asked.failure ?? 'working out...') : 'Every part is still possible. One finding narrows it.'}</p>`
      }`;
  }

  private right(asked: CauseAnswer<'search'> | undefined) {
    const search = asked?.gives;
    const view = search?.view;
    const reading = this.reading();
    return html`
      ${
        asked?.isWaiting
          ? html`<section class="status" role="status"><p>working out ${asked.whole ? 'the suspects' : 'the next reading'}...</p><button @click=${() => causeDesk.stop()}>Stop</button></section>`
          : asked?.stopped
            ? html`<section class="status"><p>Stopped.</p><button @click=${() => causeDesk.again('search')}>Work it out</button></section>`
            : nothing
      }
      ${asked?.failure ? html`<section><p class="caution"><b>Did not work.</b> ${asked.failure}</p></section>` : nothing}
      ${view && (view.verdict.state === 'contradiction' || view.verdict.state === 'nothing-fits') ? this.contradiction(view.verdict.text) : nothing}
      ${search && search.amiss.length > 0 ? html`<section><h2 class="differs">A second fault</h2><p>After the repair this is not as it ought to be: ${search.amiss.join('; ')}. The search is open again.</p></section>` : nothing}
      ${
        reading && view
          ? html`<detent-next .view=${view} .reading=${reading} .others=${this.readings().filter((r) => r !== reading)}
            @found=${(e: CustomEvent<string>) => this.note([e.detail], [])}
            @what-if=${(e: CustomEvent<OutcomeRow | undefined>) => {
              this.whatIf = e.detail;
            }}
            @chosen=${(e: CustomEvent<string>) => {
              this.chosen = e.detail;
            }}
            @skip=${(e: CustomEvent<string>) => this.keep({ skipped: [...(this.kept.skipped ?? []), e.detail] })}></detent-next>`
          : this.noReading(asked)
      }
      ${this.repairPart(search)}
      <section><h2>Proof</h2><detent-proof .stage=${view?.stage ?? 'Suspected'} .text=${proofText(view)}></detent-proof></section>
      ${this.ways(view)}
      <section>${this.toolChoice()}</section>`;
  }

  private contradiction(text: string) {
    return html`<section role="alert"><h2 class="differs">These do not stand together</h2><p>${text}</p>
      <p class="quiet">Both are marked among the findings; "Doubt it" leaves one out.</p></section>`;
  }

  private noReading(asked: CauseAnswer<'search'> | undefined) {
    const skipped = this.kept.skipped ?? [];
    if (!asked)
      return html`<section class="begin"><p class="over"><b>Next reading</b></p><h2 class="title">What does not work, and where does the key stand?</h2>
        <p>Say what was seen: the key position first, then what works and what is dead there. It costs nothing, and often leaves a handful of parts.</p>
        <button class="main" @click=${() => this.enter('seen')}>Add a finding</button></section>`;
    if (!asked.gives || !asked.whole) return nothing;
    return html`<section><p class="over"><b>Next reading</b></p><h2 class="title">${asked.gives.view.verdict.state === 'proved' ? 'None needed: the cause is proved' : 'No reading within reach tells more'}</h2>
      ${skipped.length > 0 ? html`<p>${skipped.length} left out as out of reach.</p><button @click=${() => this.keep({ skipped: [] })}>Offer them again</button>` : nothing}</section>`;
  }

  /** Once the place is known: what was done, and what is left to be seen afterwards. */
  private repairPart(search: SearchSeen | undefined) {
    const { notes } = this.session.job;
    const view = search?.view;
    const top = view?.suspects[0];
    const isKnown = view && (view.verdict.state === 'proved' || view.verdict.state === 'pinned');
    if (!isKnown && notes.repair.length === 0) return nothing;
    const part = top?.parts[0];
    const add = (line: string) => say(this, { do: 'notes', notes: { repair: [...notes.repair, line] } });
    const has = (start: string) => notes.repair.some((r) => r.startsWith(start));
    return html`<section><h2>Repair</h2>
      <ul class="repair">${notes.repair.map(
        (line, k) =>
          html`<li><span>${line}</span><button class="low" @click=${() => say(this, { do: 'notes', notes: { repair: notes.repair.filter((_l, i) => i !== k) } })}>Take back</button></li>`,
      )}</ul>
      <div class="row">
        ${part !== undefined && !has(`replaced ${part}`) ? html`<button @click=${() => add(`replaced ${part}: cured`)}>Replaced ${part}: cured</button><button @click=${() => add(`replaced ${part}: no change`)}>Replaced ${part}: no change</button>` : nothing}
        ${has('replaced') && !has('whole table') ? html`<button @click=${() => add('whole table run again')}>Whole table run again, all as it ought to be</button>` : nothing}
      </div>
      ${has('replaced') && !search?.keyOffRead ? this.keyOffField(add) : nothing}
      <div class="row"><button class="main" @click=${() => say(this, { do: 'view', view: 'sheet' })}>To the job sheet</button></div>
    </section>`;
  }

  private keyOffField(add: (line: string) => void) {
    const battery = this.answers.circuit?.circuit?.parts.find((p) => p.terminals.includes('-') && p.terminals.includes('+'))?.id ?? 'G1';
    return html`<form class="keyoff" @submit=${(e: Event) => {
      e.preventDefault();
      const field = (e.target as HTMLFormElement).querySelector('input')!;
      const value = Number(field.value.replace(',', '.'));
      if (field.value !== '' && Number.isFinite(value)) add(`key out: ${value} mA at ${battery}.-`);
    }}><label>Key-off current, mA<input type="text" inputmode="decimal" /></label><button type="submit">Note it</button></form>`;
  }

  /** Measure or exchange: what each is expected to cost. */
  private ways(view: SearchSeen['view'] | undefined) {
    if (!view || view.ways.length === 0 || (view.suspects[0]?.probability ?? 0) < 0.1) return nothing;
    return html`<section><details><summary>Measure or exchange?</summary><table class="ways">
      <thead><tr><th scope="col">Way</th><th scope="col">cost</th><th scope="col">good part bought</th></tr></thead>
      <tbody>${view.ways.map((w) => html`<tr><th scope="row">${w.name}</th><td>${Math.round(w.money)}</td><td>${Math.round(100 * w.wasted)} %</td></tr><tr><td colspan="3" class="quiet">${w.because}</td></tr>`)}</tbody>
    </table></details></section>`;
  }

  private toolChoice() {
    const own = this.kept.tools ?? usualTools;
    return html`<details><summary>Tools at hand</summary><div class="row" role="group" aria-label="Tools at hand">${tools.map(
      (t) =>
        html`<button aria-pressed=${own.includes(t)} @click=${() => this.keep({ tools: own.includes(t) ? own.filter((x) => x !== t) : [...own, t] })}>${t.replace('-', ' ')}</button>`,
    )}</div></details>`;
  }

  private seenSheet(circuit: CircuitSeen, text: string) {
    const seen = causeDesk.want('seen', text, { circuit: this.circuitText(text) });
    const canonical = this.session.job.notes.findings.flatMap((line) => {
      const read = this.search(text)?.gives?.read.find((r) => r.text === line);
      return read && read.findings.length > 0 ? read.findings : [line];
    });
    return html`<detent-seen .circuit=${circuit} .seen=${seen.isNew ? seen.gives : undefined} .findings=${canonical} .check=${this.checking(circuit.title, text)}
      @told=${(e: CustomEvent<{ add: readonly string[]; remove: readonly string[] }>) => this.note(e.detail.add, e.detail.remove)}
      @done=${() => this.enter(undefined)}></detent-seen>`;
  }

  private checkFor: { readonly key: string; readonly check: (text: string) => Promise<PhraseRead> } | undefined;
  /** The same function as long as the circuit is the same. */
  private checking(title: string, text: string): (text: string) => Promise<PhraseRead> {
    const key = `${title}\n${text}`;
    if (this.checkFor?.key !== key)
      this.checkFor = { key, check: (phrase) => causeDesk.ask('phrase', { circuit: this.circuitText(text), text: phrase }) };
    return this.checkFor.check;
  }

  private search(text: string): CauseAnswer<'search'> | undefined {
    return searchOf(this.session.job, text);
  }
  private circuitText(text: string): CircuitText {
    return circuitTextOf(this.session.job, text);
  }

  private readings(): readonly ReadingRow[] {
    const asked = this.search(this.answers.circuit?.text ?? '');
    const { skipped = [] } = this.kept;
    return asked?.gives?.view.next.filter((r) => !skipped.includes(readingKey(r))) ?? [];
  }
  private reading(): ReadingRow | undefined {
    const all = this.readings();
    return all.find((r) => readingKey(r) === this.chosen) ?? all[0];
  }

  private get kept(): Kept {
    return keptOf(this.session.job);
  }
  private keep(more: Kept): void {
    say(this, { do: 'more', name: 'find', value: { ...this.kept, ...more } });
  }
  private enter(what: FindView['entering']): void {
    const next = this.entering === what ? undefined : what;
    this.entering = next;
    if (next !== undefined) this.panel = 'findings';
    say(this, { do: 'meter', meter: next === 'reading' ? { instrument: 'volts', placing: undefined } : { placing: undefined } });
  }

  private note(add: readonly string[], remove: readonly string[]): void {
    const { findings } = this.session.job.notes;
    const fresh = add.filter((a) => !findings.includes(a));
    const left = remove.length === 0 ? findings : findings.flatMap((line) => this.without(line, remove));
    this.whatIf = undefined;
    this.chosen = undefined;
    if (fresh.length > 0 || left !== findings) this.tellNotes({ findings: [...left, ...fresh] });
    const { doubted = [] } = this.kept;
    if (add.some((a) => doubted.includes(a))) this.keep({ doubted: doubted.filter((d) => !add.includes(d)) });
  }

  private takeBack({ line, phrase }: { line: number; phrase: string }, search: SearchSeen | undefined): void {
    const clashes = search?.view.findings.find((f) => f.phrase === phrase)?.clashes ?? false;
    const { findings } = this.session.job.notes;
    this.tellNotes({ findings: findings.flatMap((text, k) => (k === line ? this.without(text, [phrase]) : [text])) });
    if (clashes) this.keep({ doubted: [...(this.kept.doubted ?? []), phrase] });
  }

  /** What is left of a line of the notes when some of its findings are taken out. */
  private without(line: string, remove: readonly string[]): readonly string[] {
    if (remove.includes(line)) return [];
    const read = this.search(this.answers.circuit?.text ?? '')?.gives?.read.find((r) => r.text === line);
    if (!read?.findings.some((f) => remove.includes(f))) return [line];
    return read.findings.filter((f) => !remove.includes(f));
  }

  private tellNotes(notes: Partial<Notes>): void {
    say(this, { do: 'notes', notes });
  }
}

const keptOf = (job: Job): Kept => (job.more['find'] ?? {}) as Kept;

export function circuitTextOf({ circuit }: Job, text: string): CircuitText {
  return { name: circuit.from === 'file' ? circuit.name : `${circuit.name}.yaml`, text };
}

/** The search from the notes of a job; undefined while nothing was found yet. Asks only when something changed. */
export function searchOf(job: Job, text: string): CauseAnswer<'search'> | undefined {
  const { notes } = job;
  if (text === '' || (notes.findings.length === 0 && !notes.repair.some((r) => r.includes(':')))) return undefined;
  const own = keptOf(job).tools ?? usualTools;
  const key = JSON.stringify([text, notes.findings, notes.history, notes.repair, own]);
  const asked = causeDesk.want('search', key, { circuit: circuitTextOf(job, text), notes, tools: own });
  // An answer about another circuit says nothing here.
  return asked.of.startsWith(JSON.stringify([text]).slice(0, -1)) ? asked : { ...asked, gives: undefined };
}

function proofText(view: SearchSeen['view'] | undefined): string {
  if (!view || view.verdict.text === '')
    return 'Not proved yet. A proof is a reading that would be different if anything else were to blame.';
  const isSure = view.verdict.state === 'proved' || view.verdict.state === 'pinned' || view.stage === 'Table run again';
  if (view.verdict.state === 'contradiction' || view.verdict.state === 'nothing-fits')
    return 'Not proved: first settle what does not stand together.';
  return isSure ? view.verdict.text : `${view.verdict.text} A proof is a reading that would be different if anything else were to blame.`;
}

/** So few suspects hold this much of the belief that the others may be called cleared. */
const narrowed = { many: 12, share: 0.9 } as const;

/** Parts that nothing believable blames any more: named so that nobody buys them. */
function clearedParts(suspects: SearchSeen['view']['suspects'], circuit: CircuitSeen): readonly string[] {
  // While hundreds share the blame, a small share clears nobody.
  const first = suspects.slice(0, narrowed.many).reduce((sum, s) => sum + s.probability, 0);
  if (first < narrowed.share) return [];
  const blamed = new Map<string, number>();
  for (const s of suspects) for (const p of s.parts) blamed.set(p, (blamed.get(p) ?? 0) + s.probability);
  return circuit.parts.filter((p) => !p.isWire && (blamed.get(p.id) ?? 0) < 0.002).map((p) => p.id);
}
