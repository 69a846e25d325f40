import { html, LitElement, nothing } from 'lit';
import type { DrainCard } from '../../src/report/drainCard.ts';
import { type CauseAnswer, causeDesk } from '../CauseDesk.ts';
import type { CircuitSeen } from '../calls.ts';
import type { DrainSeen, LogSeen } from '../causeCalls.ts';
import type { Answers } from '../Desk.ts';
import { circuitTextOf } from '../find/FindView.ts';
import { percent, ring } from '../find/ring.ts';
import { controls } from '../looks/controls.ts';
import { say } from '../say.ts';
import type { Session } from '../session/session.ts';
import { drainStyles } from './drainStyles.ts';

/** What the view keeps with the job. */
type Kept = { readonly suspect?: string | undefined; readonly ambient?: number | undefined };
const wide = matchMedia('(min-width: 900px)');

/**
 * The key-off drain: who draws, how long the battery lasts, the hypothesis with its rivals, the fuse table to fill in,
 * the measured log.
 * @fires say
 */
export class DrainScreen extends LitElement {
  static override properties = {
    session: { attribute: false },
    answers: { attribute: false },
    wrong: { state: true },
    log: { state: true },
    logName: { state: true },
  };
  declare session: Session;
  declare answers: Answers;
  declare wrong: string;
  declare log: LogSeen | undefined;
  declare logName: string | undefined;
  private unlisten: (() => void) | undefined;

  constructor() {
    super();
    this.wrong = '';
  }

  static override styles = [controls, drainStyles];

  override connectedCallback(): void {
    super.connectedCallback();
    this.unlisten = causeDesk.listen(() => this.requestUpdate());
    wide.addEventListener('change', this.onWidth);
  }
  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.unlisten?.();
    wide.removeEventListener('change', this.onWidth);
  }
  private readonly onWidth = () => this.requestUpdate();

  override render() {
    const read = this.answers.circuit;
    if (!read?.circuit) return html`<p class="wait">${read ? 'This circuit has problems; see the bench.' : 'Reading the circuit...'}</p>`;
    const asked = this.want(read.text);
    const seen = asked.gives;
    return html`<div class="drain">
      <section class="left" aria-label="Key-off current">
        ${asked.isWaiting ? html`<p class="status" role="status">working out... <button class="low" @click=${() => causeDesk.stop()}>Stop</button></p>` : nothing}
        ${asked.stopped ? html`<p class="status">Stopped. <button class="low" @click=${() => causeDesk.again('drain')}>Work it out</button></p>` : nothing}
        ${asked.failure ? html`<p class="caution"><b>Did not work.</b> ${asked.failure}</p>` : nothing}
        ${seen ? this.figures(seen, read.circuit) : nothing}
      </section>
      <aside class="right" aria-label="Hypothesis and next reading">${seen ? this.right(seen, read.circuit) : nothing}</aside>
    </div>`;
  }

  private want(text: string): CauseAnswer<'drain'> {
    const { job } = this.session;
    const { suspect, ambient } = this.kept;
    const { findings } = job.notes;
    const curve = wide.matches ? ([480, 350] as const) : ([266, 280] as const);
    const log = this.log?.done ? this.logName : undefined;
    const key = JSON.stringify([text, findings, suspect, ambient, curve, log]);
    const asked = causeDesk.want('drain', key, { circuit: circuitTextOf(job, text), findings, suspect, ambient, curve, log });
    return asked.of.startsWith(JSON.stringify([text]).slice(0, -1)) ? asked : { ...asked, gives: undefined };
  }

  private figures(seen: DrainSeen, circuit: CircuitSeen) {
    const { view } = seen;
    return html`
      <section class="result">
        <div class="headline"><div><h1 class="sentence">${view.sentence}</h1><p class="meaning">${view.meaning}</p></div>${this.cableForm(seen)}</div>
        <p class="wrong" role="alert" ?hidden=${this.wrong === ''}>${this.wrong}</p>
        <detent-drain-bar .bar=${view.bar}></detent-drain-bar>
        <dl>${view.lines.filter((l) => l.name !== 'Read' || this.own(seen).length === 0).map((l) => html`<dt>${l.name}</dt><dd>${l.text}</dd>`)}${this.readings(seen)}
          ${view.lines.some((l) => l.name === 'Read') ? nothing : html`<dt>Read</dt><dd>No current entered. Read it 40 minutes after the key came out.</dd>`}</dl>
      </section>
      <div class="pair">
        <section aria-label="How long the battery lasts"><h2>How long the battery lasts</h2>
          ${view.curve ? html`<detent-battery .curve=${view.curve}></detent-battery>` : html`<p>This circuit has no battery.</p>`}
          <label class="ambient">Battery at, °C<input type="text" inputmode="numeric" .value=${`${seen.ambient}`} @change=${(e: Event) => this.setAmbient((e.target as HTMLInputElement).value)} /></label>
        </section>
        <section aria-label="Plan: drop across each fuse"><h2>Plan: drop across each fuse</h2>${this.fuses(seen)}</section>
      </div>
      <section class="more"><h2>Measured log</h2>${this.logPart(seen)}</section>
      ${
        view.stairs.length > 1
          ? html`<section class="more"><h2>After the key comes out</h2><table class="stairs"><thead><tr><th scope="col">after</th><th scope="col">current</th><th scope="col">what</th></tr></thead><tbody>${view.stairs.map(
              (s) => html`<tr><td>${s.since}</td><td>${s.current}</td><td>${s.asleep}</td></tr>`,
            )}</tbody></table></section>`
          : nothing
      }
      <section class="more"><h2>Before the first reading</h2><ol>${view.procedure.map(
        (a) =>
          html`<li>${a.does} <span class="quiet">${a.minutes} min.</span>${a.cautions.map((c) => html`<span class="mind">${c[0]!.toUpperCase()}${c.slice(1)}.</span>`)}</li>`,
      )}</ol></section>
      <p class="quiet small foot">${circuit.title}. An aid, not an order: the maker's instructions have the last word.</p>`;
  }

  private cableForm(seen: DrainSeen) {
    return html`<form class="cable" @submit=${(e: Event) => this.enter(e, (value) => `${seen.head}: ${value} mA at ${seen.cable}`)}>
      <label>Read at ${seen.cable}, mA<input type="text" inputmode="decimal" autocomplete="off" /></label><button type="submit">Enter the reading</button>
    </form>`;
  }

  /** Readings of the drain that are noted, to take back. */
  private own({ head }: DrainSeen): readonly string[] {
    return this.session.job.notes.findings.filter((f) => f.startsWith(head));
  }
  private readings(seen: DrainSeen) {
    return this.own(seen).map(
      (f, k) =>
        html`<dt>${k === 0 ? 'Read' : ''}</dt><dd>${f} <button class="low back" aria-label="Take back: ${f}" @click=${() => this.takeBack(f)}>Take back</button></dd>`,
    );
  }

  private fuses(seen: DrainSeen) {
    const { fuses, fuseNote } = seen.view;
    if (fuses.length === 0) return html`<p>${fuseNote}</p>`;
    return html`<p class="quiet">Fuses stay in, doors stay shut. Under 0.1 mV: no drain that way.</p>
      <div class="fusebox" tabindex="0" role="group" aria-label="Fuse table"><table>
        <thead><tr><th scope="col">Fuse</th><th scope="col">feeds</th><th scope="col">expect, mV</th><th scope="col">read, mV</th></tr></thead>
        <tbody>${fuses.map((f) => {
          const ends = seen.fuseEnds[f.fuse];
          return html`<tr class=${f.tells ? 'tells' : ''}><th scope="row">${f.fuse} <span class="quiet">${f.rating}</span></th><td title=${f.feeds}>${feedsShort(f.feeds)}</td>
            <td>${f.supposed === f.healthy ? f.healthy : html`<b>${f.supposed}</b> <span class="quiet">else ${f.healthy}</span>`}</td>
            <td>${
              f.read === ''
                ? html`<form @submit=${(e: Event) => this.enter(e, (v) => `${seen.head}: ${v} mV from ${ends![0]} to ${ends![1]}`)}><input type="text" inputmode="decimal" autocomplete="off" aria-label="Read across ${f.fuse}, mV"
                    @change=${(e: Event) => (e.target as HTMLInputElement).form?.requestSubmit()} /></form>`
                : html`<b>${f.read}</b> <span class="quiet small">${f.readAmperes}</span>`
            }</td></tr>`;
        })}</tbody>
      </table></div>
      <p><b>${fuseNote}</b></p>
      <details><summary>What a step of 0.1 mV stands for</summary><p class="small">${fuses.map((f) => html`${f.fuse}: ${f.perStep} (${f.ohm} ${f.spread}, ${f.source}). `)}</p></details>`;
  }

  private logPart(seen: DrainSeen) {
    const { view } = seen;
    return html`<label class="button">Open a log (CSV: time and current)<input class="unseen" type="file" accept=".csv,.txt,.tsv" @change=${this.openLog} /></label>
      ${this.log && !this.log.done ? html`<p role="status">${this.log.rows} rows read...</p>` : nothing}
      ${this.log?.problems.slice(0, 6).map((p) => html`<p class="caution"><b>${p.severity === 'error' ? 'Not read.' : `Line ${p.line}`}</b> ${p.what}. ${p.why}</p>`) ?? nothing}
      ${view.log ? html`<detent-log .chart=${view.log} .lines=${view.logLines}></detent-log>` : nothing}`;
  }

  private readonly openLog = async (e: Event): Promise<void> => {
    const file = (e.target as HTMLInputElement).files?.[0];
    if (!file) return;
    this.logName = `${file.name} ${file.size}`;
    this.log = { rows: 0, done: false, problems: [] };
    const { logName } = this;
    const read = await causeDesk.ask('log', { name: logName, file }, (part) => {
      if (this.logName === logName) this.log = part;
    });
    if (this.logName === logName) this.log = read;
  };

  private right(seen: DrainSeen, circuit: CircuitSeen) {
    const { card, suspects } = seen.view;
    return html`
      <section class="hypothesis"><p class="over"><b>Hypothesis</b>${card ? html`<span>${verdictWord(card)}</span>` : nothing}</p>
        ${card ? this.card(card) : html`<h2 class="title">What do you think draws it?</h2><p>Choose one below, or name it.</p>`}
        <label>Fault supposed<input type="text" list="drainfaults" autocomplete="off" placeholder="such as S1.30-75 stuck closed"
          .value=${this.kept.suspect ?? ''} @change=${(e: Event) => this.keep({ suspect: (e.target as HTMLInputElement).value.trim() || undefined })} /></label>
        <datalist id="drainfaults">${circuit.faults.map((f) => html`<option value=${f.phrase}></option>`)}</datalist>
        ${seen.problems.map((p) => html`<p class="wrong">${p.what}. ${p.mend.length > 0 ? `Near: ${p.mend.slice(0, 3).join(', ')}` : ''}</p>`)}
        ${card ? html`<button @click=${() => this.keep({ suspect: undefined })}>Let it go</button>` : nothing}
      </section>
      ${this.others(card, suspects)}
      ${this.next(seen)}`;
  }

  private card(card: DrainCard) {
    const list = (title: string, lines: readonly string[]) =>
      lines.length === 0 ? nothing : html`<h3>${title}</h3><ul class="bullets">${lines.map((l) => html`<li>${l}</li>`)}</ul>`;
    return html`<div class="titled"><h2 class="title">${card.fault}</h2><span class="big">${ring(card.probability, 56)}<b>${card.percent}</b></span></div>
      <p>${card.text}</p>
      ${list('If true, then', card.ifTrue)} ${list('You would notice', card.notices)} ${card.verdict === 'open' ? list('It falls if', card.fallsIf) : nothing}
      ${
        card.held.length > 0
          ? html`<h3>Held against what was read</h3><ul class="bullets">${card.held.map((h) => html`<li class=${h.fits ? '' : 'off'}>${h.phrase}${h.predicted === '' ? '' : `: it would be ${h.predicted}`}, ${h.fits ? 'fits' : 'does not fit'}</li>`)}</ul>`
          : nothing
      }`;
  }

  private others(card: DrainCard | undefined, suspects: DrainSeen['view']['suspects']) {
    const all = card ? card.rivals.map((r) => ({ probability: r.probability, faults: r.faults, text: r.text })) : suspects;
    if (all.length === 0) return nothing;
    return html`<section><h2>${card ? 'Others that fit so far' : 'Who could it be'}</h2>
      <ul class="others">${all.map(
        (s) =>
          html`<li><button class="suspect" ?disabled=${s.faults === 'no fault' || s.faults.includes(' + ')} @click=${() => this.keep({ suspect: s.faults })}>${ring(s.probability)}<b class="share">${percent(s.probability)}</b><span><b>${s.faults}</b> ${s.text}</span></button></li>`,
      )}</ul></section>`;
  }

  private next(seen: DrainSeen) {
    const { plan } = seen.view;
    if (plan.length === 0) return nothing;
    const [first, ...rest] = plan;
    return html`<section class="next"><p class="over"><b>Next reading</b><span class="quiet">${first!.minutes} min</span></p>
      <h2 class="title">${first!.reading}</h2><p>Expect ${first!.expect}.</p>
      ${first!.cautions.map((c) => html`<p class="caution"><b>Caution</b> ${c[0]!.toUpperCase()}${c.slice(1)}.</p>`)}
      ${this.planField(first!.reading)}
      ${
        rest.length > 0
          ? html`<details><summary>The rest of the plan</summary><ol class="plan">${rest.map(
              (s) => html`<li><b>${s.reading}</b> <span>expect ${s.expect}; ${s.minutes} min</span></li>`,
            )}</ol></details>`
          : nothing
      }</section>`;
  }

  /** A field or words for a planned reading, by its phrase with the figure left out. */
  private planField(reading: string) {
    const look = /^(.*: \S+) works or not$/.exec(reading);
    if (look)
      return html`<div class="row">${['works', 'dead', 'weak'].map((w) => html`<button @click=${() => this.note(`${look[1]} ${w}`)}>${w}</button>`)}</div>`;
    const unit = /… (mV|mA)/.exec(reading)?.[1];
    if (unit === undefined) return nothing;
    return html`<form class="cable" @submit=${(e: Event) => this.enter(e, (v) => reading.replace('…', `${v}`))}><label>Read, ${unit}<input type="text" inputmode="decimal" autocomplete="off" /></label><button class="main" type="submit">I read it: enter</button></form>`;
  }

  private async enter(e: Event, phrase: (value: number) => string): Promise<void> {
    e.preventDefault();
    const form = e.target as HTMLFormElement;
    const field = form.querySelector('input')!;
    const value = Number(
      field.value
        .trim()
        .replace(',', '.')
        .replace(/\s*mA$|\s*mV$/i, ''),
    );
    if (field.value.trim() === '' || !Number.isFinite(value)) {
      this.wrong = 'Enter the figure that the meter shows, such as 186.';
      return;
    }
    this.wrong = '';
    const { job } = this.session;
    const read = await causeDesk.ask('phrase', { circuit: circuitTextOf(job, this.answers.circuit?.text ?? ''), text: phrase(value) });
    const problem = read.problems.find((p) => p.severity === 'error');
    if (problem) this.wrong = `${problem.what}. ${problem.why}`;
    else {
      form.reset();
      for (const f of read.findings) this.note(f);
    }
  }

  private note(phrase: string): void {
    const { findings } = this.session.job.notes;
    const place = (f: string) => f.replace(/: -?[\d.]+ \S+ /, ': ');
    // The same place read again: the new figure stands.
    const others = /: -?[\d.]/.test(phrase) ? findings.filter((f) => place(f) !== place(phrase)) : findings;
    say(this, { do: 'notes', notes: { findings: [...others, phrase] } });
  }
  private takeBack(phrase: string): void {
    say(this, { do: 'notes', notes: { findings: this.session.job.notes.findings.filter((f) => f !== phrase) } });
  }
  private setAmbient(text: string): void {
    const value = Number(text.replace(',', '.'));
    this.keep({ ambient: Number.isFinite(value) && text.trim() !== '' ? Math.min(60, Math.max(-40, value)) : undefined });
  }
  private get kept(): Kept {
    return (this.session.job.more['drain'] ?? {}) as Kept;
  }
  private keep(more: Kept): void {
    say(this, { do: 'more', name: 'drain', value: { ...this.kept, ...more } });
  }
}

const verdictWord = ({ verdict }: DrainCard): string => (verdict === 'open' ? 'still open' : verdict);

const feedsShort = (feeds: string): string => {
  const all = feeds.split(', ').filter((f) => f !== '');
  return all.length <= 3 ? feeds : `${all.slice(0, 2).join(', ')} and ${all.length - 2} more`;
};
