import { html, LitElement, nothing, type PropertyValues } from 'lit';
import type { Layout } from '../../src/report/layout/layout.ts';
import { noticed } from '../../src/report/noticed.ts';
import { positionRows, type RowView, tableSentence } from '../../src/report/positionRows.ts';
import type { TablePosition } from '../../src/solve/positionTable.ts';
import type { Calls, CircuitSeen, FaultIn, Name } from '../calls.ts';
import type { Answers } from '../Desk.ts';
import { later } from '../later.ts';
import { controls } from '../looks/controls.ts';
import { say } from '../say.ts';
import type { Look, Session } from '../session/session.ts';
import { benchStyles } from './benchStyles.ts';
import { brokenFile } from './brokenFile.ts';
import type { CircuitDrawing } from './CircuitDrawing.ts';
import { columnsOf } from './columnsOf.ts';
import type { Flag } from './drawnMarks.ts';
import type { FaultChooser } from './FaultChooser.ts';
import type { Turned } from './KeyChart.ts';
import { currentPosition, engineWord, keyNote, keyTitle } from './keyWords.ts';
import type { Instant } from './PlayStrip.ts';
import type { Column, PositionTable } from './PositionTable.ts';
import { StoryPlayed } from './StoryPlayed.ts';
import { layoutWith, loadsAlone } from './storyLayout.ts';
import { verdictMark } from './verdictMark.ts';

export type Ask = <N extends Name>(name: N, takes: Calls[N]['takes']) => Promise<Calls[N]['gives']>;
const wide = matchMedia('(min-width: 900px)');
const broad = matchMedia('(min-width: 1200px)');
const paper = matchMedia('print');
/** The same empty list every time, so that what did not change is seen not to have. */
const none: readonly never[] = [];
const nothingSet = {};

/**
 * The bench: drawing with the table hanging from it, the key, what is switched on, the hang-tags.
 * @fires say, wish
 */
export class BenchView extends LitElement {
  static override properties = {
    session: { attribute: false },
    answers: { attribute: false },
    ask: { attribute: false },
    told: { type: String },
    words: { state: true },
    printing: { state: true },
    first: { state: true },
  };
  declare session: Session;
  declare answers: Answers;
  declare ask: Ask;
  /** What happened last, as the live region says it. */
  declare told: string;
  declare words: readonly string[];
  declare printing: boolean;
  /** A fault for a newcomer, and the circuit that it is about. */
  declare first: { readonly choice: unknown; readonly phrase: string | null } | undefined;
  private wordsOpen = false;
  private rowsFrom: readonly unknown[] = [];
  private rows: readonly RowView[] = [];
  private columns: readonly Column[] | undefined;
  private ringsShown: unknown;
  private readonly storyPlayed = new StoryPlayed(this);
  private tracks: CircuitDrawing['tracks'];

  constructor() {
    super();
    this.words = [];
    this.told = '';
    this.printing = false;
  }

  static override styles = [controls, benchStyles];

  override connectedCallback(): void {
    super.connectedCallback();
    for (const width of [wide, broad]) width.addEventListener('change', this.onWidth);
    paper.addEventListener('change', this.onPaper);
  }
  override disconnectedCallback(): void {
    super.disconnectedCallback();
    for (const width of [wide, broad]) width.removeEventListener('change', this.onWidth);
    paper.removeEventListener('change', this.onPaper);
  }
  /** On paper the table stands upright: loads down, positions across. */
  private readonly onPaper = () => {
    this.printing = paper.matches;
    this.performUpdate();
  };
  private readonly onWidth = () => this.requestUpdate();

  override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('answers') && !changed.has('session')) return;
    if (this.wordsOpen && this.answers.moment !== changed.get('answers')?.moment) void this.readWords(true);
    const before = changed.get('session') as Session | undefined;
    if (before && before.job.faults !== this.session.job.faults) this.storyPlayed.again();
    this.storyPlayed.playTold();
    const { table, circuit } = this.answers;
    if (!table || !circuit?.circuit) {
      this.rows = [];
      return;
    }
    const layout = this.layoutShown(circuit.circuit);
    const from = [table.table, this.session.job.look.show, layout] as const;
    // A turn of the key changes none of these: then the table is left alone.
    if (this.rows.length > 0 && from.every((x, k) => x === this.rowsFrom[k])) return;
    this.rowsFrom = from;
    const rows = positionRows(table.table, this.session.job.look.show);
    const elsewhere = this.isOnly() ? none : this.isStory(circuit.circuit) ? rows.filter((r) => r.id === 'engine') : rows;
    this.columns = columnsOf(layout, rows, elsewhere);
    const order = new Map(this.columns.map((c, k) => [c.load, k]));
    // Loads without a track here follow in the order of the table.
    const place = (id: string) => order.get(id) ?? order.size;
    this.rows = [...rows].sort((a, b) => place(a.id) - place(b.id));
  }

  /** Folded to some loads, and that drawing is at hand. */
  private isOnly(): boolean {
    const circuit = this.answers.circuit?.circuit;
    const alone = circuit && loadsAlone(this.session.job.look, circuit);
    return alone !== undefined && this.answers.only?.loads.join() === alone.join();
  }
  private layoutShown(circuit: CircuitSeen): Layout {
    if (this.isOnly()) return this.answers.only!.layout;
    const { look, faults } = this.session.job;
    const put = (this.answers.table?.faults ?? none).map((f) => f.part);
    const about = [look.load, look.part, ...(faults.length > 0 ? put : none)].filter((id) => id !== undefined && id !== 'engine');
    return layoutWith(circuit, look.all === true, about as readonly string[]);
  }
  /** Of a large circuit, the tracks of its story alone. */
  private isStory(circuit: CircuitSeen): boolean {
    return circuit.story !== undefined && this.layoutShown(circuit) === circuit.story;
  }

  /** The same object as long as it says the same, so that the drawing is left alone. */
  private tracksOf(circuit: CircuitSeen): CircuitDrawing['tracks'] {
    if (!circuit.story && !circuit.functions) return undefined;
    const [many, all] = [circuit.layout.tracks.length, this.layoutShown(circuit) === circuit.layout];
    if (this.tracks?.many !== many || this.tracks.all !== all) this.tracks = { many, all };
    return this.tracks;
  }

  /** A meter or a story that was just taken out is to be seen. */
  override updated(changed: PropertyValues<this>): void {
    const before = (changed.get('session') as Session | undefined)?.job;
    if (!before) return;
    const { meter, look } = this.session.job;
    if (meter.open && !before.meter.open) void this.bringTool('detent-meter');
    if (look.playing && !before.look.playing) void this.bringTool('detent-play');
  }

  private async bringTool(tag: string): Promise<void> {
    await customElements.whenDefined(tag);
    await this.updateComplete;
    this.renderRoot.querySelector(tag)?.scrollIntoView({ block: 'nearest' });
    // The key turns as the story goes.
    if (this.playsBroad) this.renderRoot.querySelector('.column')?.scrollTo({ top: 0 });
  }

  override render() {
    const { answers, session } = this;
    const read = answers.circuit;
    if (!read) return html`<p class="wait">${answers.failure ?? 'Reading the circuit...'}</p>`;
    if (!read.circuit) return brokenFile(this, read);
    const { look } = session.job;
    return html`<div class="bench" data-panel=${look.panel}>
      <nav class="parts" aria-label="Parts of the bench">
        ${(['key', 'drawing', 'table'] as const).map(
          (panel) =>
            html`<button aria-current=${look.panel === panel ? 'true' : 'false'} @click=${() => this.openPanel(panel)}>${panel[0]!.toUpperCase()}${panel.slice(1)}</button>`,
        )}
      </nav>
      <section class="left" aria-label="Drawing and table">${this.sceneBar()} ${this.drawing(read.circuit)} ${this.playsBroad ? html`<div class="tablebox">${this.play(read.circuit)}</div>` : this.table()}</section>
      <aside class="right" aria-label="Key, switches and faults">
        <div class="column">${this.right(read.circuit)}</div>
        <section class="legend"><detent-legend .supply=${answers.moment?.moment.supply ?? 12}></detent-legend></section>
      </aside>
    </div>`;
  }

  private sceneBar() {
    const { job } = this.session;
    const count = job.faults.length;
    const line = this.answers.moment?.line ?? '';
    return html`<div class="scenebar">
      <p class="line">
        ${count > 0 ? html`<b>With ${count} hang-tag${count === 1 ? '' : 's'}.</b>` : nothing} <span class="quiet">${this.answers.failure ?? (this.answers.waiting ? 'working out...' : line)}</span>
        ${this.told.startsWith('The ') ? html`<b class="happened">${this.told}</b>` : nothing}
      </p>
      ${job.beside || this.showsInDrawing ? nothing : this.showChoice()}
    </div>`;
  }

  /** On a wide screen the choice stands in the row of the drawing's tools. */
  private get showsInDrawing(): boolean {
    return wide.matches && !this.printing;
  }

  private showChoice() {
    const { look } = this.session.job;
    return html`<div class="show" role="group" aria-label="Show">
      ${(['healthy', 'faulty', 'difference'] as const).map(
        (show) =>
          html`<button aria-pressed=${look.show === show} @click=${() => this.look({ show })}>${show[0]!.toUpperCase()}${show.slice(1)}</button>`,
      )}
    </div>`;
  }

  private drawing(circuit: CircuitSeen) {
    const { job } = this.session;
    if (job.beside) return this.comparison(circuit);
    if (!wide.matches && !job.look.whole && !this.printing) return this.wayDown(circuit);
    return this.picture(circuit, this.answers.moment, job.look.show, this.answers.table?.faults ?? none);
  }

  private picture(circuit: CircuitSeen, answer: Answers['moment'], show: Look['show'], put: readonly FaultIn[]) {
    const { job } = this.session;
    return html`<detent-drawing
      .layout=${this.layoutShown(circuit)}
      .circuit=${circuit}
      .moment=${answer?.moment}
      .line=${answer?.line ?? ''}
      .show=${show}
      .put=${put}
      .load=${job.look.load}
      .chosen=${job.look.part}
      .only=${job.look.only}
      .functions=${circuit.functions ?? none}
      .folded=${job.look.functions ?? none}
      .tracks=${job.beside ? undefined : this.tracksOf(circuit)}
      .tools=${!job.beside}
      .meter=${job.meter}
      .flags=${show === 'healthy' ? none : this.flags(answer)}
      @scrolled=${(e: CustomEvent<{ left: number; top: number }>) => this.scrollAlong(e)}
      @fault-wanted=${() => this.toFaults()}
    >${job.beside || !this.showsInDrawing ? nothing : this.showChoice()}</detent-drawing>`;
  }

  /** Said at the place itself: what carries too much, and what is fed by another way. */
  private flags(answer: Answers['moment']): readonly Flag[] {
    const table = this.answers.table?.table;
    const current = table && currentPosition(table.positions, this.session.job.scene?.key);
    const all = table?.rows.filter((r) => r.cells.some((c) => c.position === current && c.otherWay)) ?? [];
    // Of many, only the chosen one has its words in the drawing; the table names them all.
    if (all.length === 0 && (answer?.moment.overloads.length ?? 0) === 0) return none;
    const others = all.length <= 3 ? all : all.filter((r) => r.id === this.session.job.look.load);
    return [
      ...(answer?.moment.overloads ?? []).map((o) => ({
        part: o.part,
        subject: o.element,
        text: `${o.value.toPrecision(3)} A, limit ${o.limit} A`,
      })),
      ...others.map((r) => ({ part: r.id, subject: r.id, text: 'fed another way' })),
    ];
  }

  /** At full size the table goes with the drawing, and two drawings side by side go together. */
  private scrollAlong(e: CustomEvent<{ left: number; top: number }>): void {
    this.renderRoot.querySelector('.tablebox')?.scrollTo({ left: e.detail.left });
    for (const other of this.renderRoot.querySelectorAll<CircuitDrawing>('.pair detent-drawing'))
      if (other !== e.target) other.follow(e.detail.left, e.detail.top);
  }

  /** Two scenes side by side: what was kept, and what is now. */
  private comparison(circuit: CircuitSeen) {
    const { job } = this.session;
    const { beside, moment } = this.answers;
    const put = (phrases: readonly string[]): readonly FaultIn[] => phrases.map((phrase) => faultBare(phrase, circuit));
    const differing = circuit.layout.tracks.flatMap(({ load }) => {
      const [kept, now] = [beside, moment].map((m) => m?.moment.loads.find((l) => l.id === load));
      return kept && now && kept.verdict !== now.verdict ? [{ load, kept: kept.verdict, now: now.verdict }] : [];
    });
    return html`<div class="pair">
      <figure><figcaption><b>Kept.</b> ${beside?.line ?? 'working out...'} ${job.beside!.faults.join('; ')}</figcaption>${this.picture(circuit, beside, 'faulty', put(job.beside!.faults))}</figure>
      <figure><figcaption><b>Now.</b> ${moment?.line ?? ''} ${job.faults.join('; ')}</figcaption>${this.picture(circuit, moment, 'faulty', put(job.faults))}</figure>
      <p class="differing">${
        differing.length === 0
          ? 'No load differs between the two.'
          : html`<b>${differing.length} ${differing.length === 1 ? 'differs' : 'differ'}:</b> ${differing.map((d) => `${circuit.parts.find((p) => p.id === d.load)?.name || d.load} ${d.kept}, now ${d.now}`).join('; ')}.`
      }</p>
    </div>`;
  }

  private wayDown(circuit: CircuitSeen) {
    const { look } = this.session.job;
    const loads = circuit.layout.tracks.map((t) => ({
      id: t.load,
      number: t.number,
      name: this.rows.find((r) => r.id === t.load)?.name ?? t.load,
    }));
    return later(
      this,
      'tools',
      'the way of one load',
      () => html`<detent-way
      .way=${this.answers.way ?? undefined}
      .load=${look.load}
      .loads=${loads}
      .supply=${this.answers.moment?.moment.supply ?? 12}
      .put=${this.answers.table?.faults ?? none}
      @load-picked=${(e: CustomEvent<string>) => this.look({ load: e.detail })}
      @whole=${() => this.look({ whole: true })}
    ></detent-way>`,
    );
  }

  /** On a wide screen a story runs under the drawing, in the table's place, with the key in sight beside it. */
  private get playsBroad(): boolean {
    return this.session.job.look.playing && broad.matches;
  }

  private play(circuit: CircuitSeen) {
    const { key } = circuit;
    if (!key) return nothing;
    const { story, played, recorded } = this.storyPlayed;
    return later(
      this,
      'tools',
      'the story',
      () => html`<detent-play
        .strip=${played?.strip}
        .problems=${played?.problems ?? none}
        .story=${story}
        .positions=${key.positions}
        .recording=${recorded !== undefined}
        ?broad=${this.playsBroad}
        @story=${(e: CustomEvent<string>) => this.storyPlayed.play(e.detail)}
        @instant=${(e: CustomEvent<Instant>) => say(this, { do: 'instant', ...e.detail })}
        @recording=${(e: CustomEvent<boolean>) => this.storyPlayed.record(e.detail, circuit)}
        @done=${() => this.look({ playing: false })}
      ></detent-play>`,
    );
  }

  private table() {
    const table = this.answers.table?.table;
    if (!table) return html`<div class="tablebox"></div>`;
    return html`<div class="tablebox" @scroll=${this.tableScrolled}>
      <detent-table
        .rows=${this.rows}
        .columns=${this.columns}
        .positions=${table.positions}
        .current=${currentPosition(table.positions, this.session.job.scene?.key)}
        .load=${this.session.job.look.load}
        ?narrow=${!wide.matches || this.printing}
        @position-picked=${(e: CustomEvent<TablePosition>) => this.turnTo(e.detail)}
        @cell-picked=${(e: CustomEvent<{ position: TablePosition; load: string }>) => this.pick(e.detail.position, e.detail.load)}
      ></detent-table>
    </div>`;
  }

  private right(circuit: CircuitSeen) {
    const { job } = this.session;
    const { moment, table } = this.answers;
    const key = job.scene?.key;
    return html`
      ${
        circuit.key && key
          ? html`<section class="key">
              <h2><span class="big">${keyTitle(circuit.key.positions, key)}</span> <span class="quiet">${keyNote(key, circuit.key.positions)}</span></h2>
              <detent-key-chart
                .shown=${this.rings(circuit)}
                .place=${key}
                .stands=${moment?.moment.stands}
                .radius=${wide.matches ? 286 : 206}
                @key-turned=${(e: CustomEvent<Turned>) => {
                  this.storyPlayed.noteTurn(e.detail.key.angle, false);
                  say(this, { do: 'key', ...e.detail });
                }}
                @key-released=${(e: CustomEvent<string>) => this.release(e.detail)}
              ></detent-key-chart>
            </section>`
          : nothing
      }
      <section class="faults">
        ${job.look.part !== undefined && job.faults.length === 0 ? nothing : this.difference()}
        <detent-faults .circuit=${circuit} .phrases=${job.faults} .put=${table?.faults ?? none} .partId=${job.look.part} @put=${() => this.toKey()}></detent-faults>
        ${(table?.problems ?? []).map((p) => html`<p class="caution"><b>Caution</b> ${p.what}. ${p.why}</p>`)}
      </section>
      ${
        job.meter.open
          ? later(
              this,
              'tools',
              'the meter',
              () => html`<detent-meter .meter=${job.meter} .reading=${this.answers.reading} .circuit=${circuit} .bridges=${job.scene?.bridged ?? none}
              @bridged=${(e: CustomEvent<readonly [string, string]>) => this.bridge(e.detail)}></detent-meter>`,
            )
          : nothing
      }
      ${job.look.playing && !this.playsBroad ? this.play(circuit) : nothing}
      <section ?hidden=${job.meter.open && job.look.playing}><div class="row">
        ${job.meter.open ? nothing : html`<button @click=${() => say(this, { do: 'meter', meter: { open: true } })}>Use a meter</button>`}
        ${
          job.look.playing || !circuit.key
            ? nothing
            : html`<button @click=${() => {
                this.look({ playing: true });
                this.storyPlayed.playFirst(circuit);
              }}>Play over time</button>`
        }
      </div></section>
      <section class="switched">
        <h2>Switched on ${circuit.hasEngine ? html`<span class="quiet note">engine ${engineWord(job.scene?.engine)}</span>` : nothing}</h2>
        <detent-hand .switches=${circuit.switches} .hand=${job.scene?.hand ?? nothingSet}></detent-hand>
      </section>
      <section>
        <div class="row">
          ${
            job.beside
              ? html`<button @click=${() => say(this, { do: 'beside', beside: undefined })}>End the comparison</button>`
              : html`<button ?disabled=${!job.scene} @click=${() => job.scene && say(this, { do: 'beside', beside: { scene: job.scene, faults: job.faults } })}>Compare from here</button>`
          }
        </div>
        <details @toggle=${(e: Event) => this.readWords((e.target as HTMLDetailsElement).open)}>
          <summary>The drawing in words</summary>
          <ul class="words">${this.words.map((w) => html`<li>${w}</li>`)}</ul>
        </details>
      </section>
      <section class="warnings" ?hidden=${(moment?.moment.overloads.length ?? 0) + (moment?.moment.chatters.length ?? 0) === 0}>
        ${moment?.moment.overloads.map(
          (o) =>
            html`<p class="caution"><b>Over its guide value</b> ${o.element}: ${o.what}, ${o.value.toPrecision(3)} A, limit ${o.limit} A</p>`,
        )}
        ${moment?.moment.chatters.map((id) => html`<p class="caution"><b>Chatters</b> ${id} pulls in and drops out again and again here.</p>`)}
      </section>
    `;
  }

  /** What the driver would notice. */
  private difference() {
    const table = this.answers.table?.table;
    const { job } = this.session;
    if (job.faults.length === 0) return this.beginning();
    if (!table) return nothing;
    const sentence = tableSentence(table);
    if (sentence === undefined) return html`<h2>Nothing differs</h2><p>In no key position would the driver notice.</p>`;
    const current = currentPosition(table.positions, job.scene?.key);
    const told = noticed(table);
    const here = this.rows.filter((r) => r.cells.some((c) => c.position === current && c.was !== undefined));
    return html`<h2 class="differs">${sentence}</h2>
      ${told.length === 0 ? nothing : html`<p><b>The driver would notice:</b> ${told.join(' ')}</p>`}
      ${job.scene?.engine === 'stopped' && job.scene.key && this.answers.circuit?.circuit?.hasEngine && this.told === '' ? html`<p class="quiet">Drag the key to START, hold it, and let go. Or hold the button down; on the keyboard End, then Esc.</p>` : nothing}
      <ul class="phone differlist">
        ${here.map((r) => {
          const cell = r.cells.find((c) => c.position === current)!;
          return html`<li class=${cell.tone}><b>${r.name}</b><span class="verdict">${verdictMark(cell.mark)} ${cell.word}</span><span class="quiet">${cell.was}</span></li>`;
        })}
      </ul>`;
  }

  /** A vehicle without faults: how to see one work. */
  private beginning() {
    void this.askFirst();
    const first = this.first?.phrase;
    if (!first)
      return html`<h2>Nothing is wrong here yet</h2>
        <p>Hang a fault on it: press a part of the drawing, or choose one from the list. Then turn the key.</p>`;
    return html`<h2>Nothing is wrong here yet</h2>
      <p>Hang a fault on it, turn the key to START, let go, and see what becomes of the engine.</p>
      <button class="main" @click=${() => {
        say(this, { do: 'faults', faults: [first] });
        this.toKey();
      }}>Try ${first}</button>`;
  }

  /** Asked once a circuit, after the table, which matters more. */
  private async askFirst(): Promise<void> {
    const { circuit: choice } = this.session.job;
    if (this.first?.choice === choice || !this.answers.table || !this.session.job.scene) return;
    this.first = { choice, phrase: null };
    const phrase = await this.ask('first', { choice });
    if (this.first.choice === choice) this.first = { choice, phrase };
  }

  private rings(circuit: CircuitSeen) {
    const sectors = this.answers.table?.sectors ?? [];
    const key = JSON.stringify([circuit.title, sectors]);
    if ((this.ringsShown as { key: string } | undefined)?.key !== key)
      this.ringsShown = { key, shown: { positions: circuit.key!.positions, rings: sectors } };
    return (this.ringsShown as { shown: unknown }).shown;
  }

  private readonly tableScrolled = (e: Event): void => {
    this.renderRoot.querySelector<CircuitDrawing>('detent-drawing')?.follow((e.target as Element).scrollLeft);
  };

  private async readWords(open: boolean): Promise<void> {
    this.wordsOpen = open;
    const { circuit: choice, faults, scene } = this.session.job;
    if (open && scene) this.words = await this.ask('words', { choice, faults, scene });
  }

  private async openPanel(panel: Look['panel']): Promise<void> {
    this.look({ panel });
    await new Promise(requestAnimationFrame);
    if (panel === 'table') this.renderRoot.querySelector<PositionTable>('detent-table')?.showCurrent();
  }

  /** With a fault in, the next thing is to turn the key: it comes into view and takes the focus that the list had. */
  private toKey(): void {
    for (const scroller of this.renderRoot.querySelectorAll('.column, .right')) scroller.scrollTo({ top: 0 });
    this.renderRoot.querySelector<HTMLElement>('detent-key-chart')?.focus();
  }
  private async toFaults(): Promise<void> {
    // The part that was chosen goes by way of the session first.
    await new Promise(requestAnimationFrame);
    await this.renderRoot.querySelector<FaultChooser>('detent-faults')?.toList();
  }

  private look(look: Partial<Look>): void {
    say(this, { do: 'look', look });
  }
  private turnTo(position: TablePosition): void {
    if (this.session.job.scene?.key) say(this, { do: 'key', key: position.key });
  }
  private pick(position: TablePosition, load: string): void {
    this.turnTo(position);
    this.look({ load: this.session.job.look.load === load ? undefined : load });
  }
  private bridge([red, black]: readonly [string, string]): void {
    const { scene } = this.session.job;
    if (!scene) return;
    const without = scene.bridged.filter(([a, b]) => a !== red || b !== black);
    const bridged = without.length < scene.bridged.length ? without : [...without, [red, black] as const];
    say(this, { do: 'scene', scene: { ...scene, bridged } });
  }
  private async release(gesture: string): Promise<void> {
    const { circuit: choice, faults, scene } = this.session.job;
    if (!scene?.key) return;
    const key = await this.ask('release', { choice, faults, key: scene.key });
    if (key.angle === this.session.job.scene?.key?.angle) return;
    this.storyPlayed.noteTurn(key.angle, true);
    say(this, { do: 'key', key, gesture });
  }
}

/** A fault phrase before or without the worker's words for it. */
function faultBare(phrase: string, circuit: CircuitSeen): FaultIn {
  const known = circuit.faults.find((f) => f.phrase === phrase);
  const subject = phrase.split(' ')[0]!;
  return { phrase, subject, words: phrase.slice(subject.length + 1), part: known?.part ?? subject.split('.')[0]!, text: known?.text ?? '' };
}
