import { html, LitElement, nothing } from 'lit';
import { usualTools } from '../../src/diagnose/candidates.ts';
import type { JobSheet } from '../../src/report/jobSheet.ts';
import type { SheetFilled } from '../../src/report/jobSheetHtml.ts';
import { verdictMark } from '../bench/verdictMark.ts';
import { type CauseAnswer, causeDesk } from '../CauseDesk.ts';
import type { Answers } from '../Desk.ts';
import { circuitTextOf } from '../find/FindView.ts';
import { controls } from '../looks/controls.ts';
import { say } from '../say.ts';
import type { Session } from '../session/session.ts';
import { saveText } from '../shell/files.ts';
import { sheetStyles } from './sheetStyles.ts';

type Kept = Partial<Omit<SheetFilled, 'day'>>;
type Field = keyof Kept;

/**
 * The job on one sheet of A4: what was complained of, asked, read, found, done, and what the customer is told. Texts
 * can be changed on the sheet; they are kept with the job.
 * @fires say
 */
export class SheetView extends LitElement {
  static override properties = { session: { attribute: false }, answers: { attribute: false } };
  declare session: Session;
  declare answers: Answers;
  private unlisten: (() => void) | undefined;

  static override styles = [controls, sheetStyles];

  override connectedCallback(): void {
    super.connectedCallback();
    this.unlisten = causeDesk.listen(() => this.requestUpdate());
  }
  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.unlisten?.();
  }

  override render() {
    const read = this.answers.circuit;
    if (!read?.circuit) return html`<p class="wait">${read ? 'This circuit has problems; see the bench.' : 'Reading the circuit...'}</p>`;
    const asked = this.want(read.text);
    const sheet = asked.gives;
    return html`<div class="desk">
      <nav class="bar" aria-label="Job sheet">
        <p>${asked.isWaiting ? html`working out... <button class="low" @click=${() => causeDesk.stop()}>Stop</button>` : asked.stopped ? html`Stopped. <button class="low" @click=${() => causeDesk.again('sheet')}>Work it out</button>` : (asked.failure ?? 'One page of A4. Tap a text to change it.')}</p>
        <div class="row"><button class="main" ?disabled=${!sheet} @click=${() => print()}>Print</button><button ?disabled=${!sheet} @click=${() => sheet && this.download(sheet)}>Save as HTML</button></div>
      </nav>
      ${sheet ? this.sheet(sheet) : nothing}
    </div>`;
  }

  private want(text: string): CauseAnswer<'sheet'> {
    const { job } = this.session;
    const tools = (job.more['find'] as { tools?: typeof usualTools } | undefined)?.tools ?? usualTools;
    const { notes } = job;
    const key = JSON.stringify([text, notes, tools]);
    const asked = causeDesk.want('sheet', key, { circuit: circuitTextOf(job, text), notes, tools });
    return asked.of.startsWith(JSON.stringify([text]).slice(0, -1)) ? asked : { ...asked, gives: undefined };
  }

  private filled(sheet: JobSheet): SheetFilled {
    const kept = this.kept;
    return {
      day: dayText(this.session.job.day),
      registration: kept.registration ?? '',
      odometer: kept.odometer ?? '',
      technician: kept.technician ?? '',
      done: kept.done ?? sheet.done,
      why: kept.why ?? sheet.why,
      customer: kept.customer ?? sheet.customer,
    };
  }

  private sheet(sheet: JobSheet) {
    const filled = this.filled(sheet);
    const { notes } = this.session.job;
    return html`<article class="paper" aria-label="Job sheet">
      <header>
        <div><h1>Job sheet</h1><p>Detent, sheet 1 of 1</p></div>
        <div class="who">
          <label class="unseen" for="vehicle">Vehicle</label><input id="vehicle" class="name" type="text" .value=${notes.vehicle} placeholder=${sheet.title} @change=${(
            e: Event,
          ) => say(this, { do: 'notes', notes: { vehicle: (e.target as HTMLInputElement).value } })} />
          <p>${this.line('odometer', 'Odometer', filled.odometer)} ${this.line('registration', 'Registration', filled.registration)}</p>
          <p>Date ${filled.day} ${this.line('technician', 'Technician', filled.technician)}</p>
        </div>
      </header>
      <div class="top">
        <detent-drawing neutral paper .layout=${sheet.layout} .circuit=${this.answers.circuit!.circuit} .line=${`Wiring of the tracks that the cause touches. ${sheet.cause.fault}`} .marks=${sheet.marks}></detent-drawing>
        <div class="told">
          <h2>Complaint</h2><p>${sheet.complaint || 'None written down yet.'}</p>
          <h2>Asked first</h2>${sheet.asked.length === 0 ? html`<p>Nothing yet.</p>` : sheet.asked.map((a) => html`<p>${a}</p>`)}
          <h2>${sheet.cause.title}</h2><p><b>${sheet.cause.fault}</b> ${sheet.cause.text}</p>
          <p class="drawn">${sheet.drawn}</p>
        </div>
      </div>
      <h2>Readings</h2>
      ${
        sheet.readings.length === 0
          ? html`<p>None taken yet: what was seen only, no meter.</p>`
          : html`<div class="scroll" tabindex="0" role="group" aria-label="Readings"><table class="readings"><thead><tr><th scope="col">at</th><th scope="col">where and how</th><th scope="col">good</th><th scope="col">read</th><th scope="col">tells</th></tr></thead>
            <tbody>${sheet.readings.map((r) => html`<tr><td><span class="number">${r.number}</span></td><td>${r.where}</td><td>${r.good}</td><td><b>${r.read}</b></td><td>${r.tells}</td></tr>`)}</tbody></table></div>`
      }
      <div class="two">
        <div><h2>${sheet.table.title}</h2>
          <div class="scroll" tabindex="0" role="group" aria-label=${sheet.table.title}><table class="cells"><thead><tr><th scope="col">load</th>${sheet.table.positions.map((p) => html`<th scope="col">${p}</th>`)}</tr></thead>
            <tbody>${sheet.table.rows.map((r) => html`<tr><th scope="row">${r.name}</th>${r.cells.map((c) => html`<td>${c.word === 'off' ? '–' : html`${verdictMark(c.mark)} ${c.word}`}</td>`)}</tr>`)}</tbody></table></div>
          <p>${sheet.table.said}</p></div>
        <div>${this.block('done', 'Done', filled.done)} ${this.block('why', 'Why it failed', filled.why)} ${this.block('customer', 'For the customer', filled.customer)}</div>
      </div>
      <div class="sign"><span>Technician</span><span>Checked by</span><span>Customer</span></div>
      <p class="disclaimer">${sheet.disclaimer}</p>
    </article>`;
  }

  private line(field: Field, word: string, value: string) {
    return html`<label class="inline">${word} <input type="text" .value=${value} @change=${(e: Event) => this.keep(field, (e.target as HTMLInputElement).value)} /></label>`;
  }

  /** A text that is changed in place; what a person wrote stays, whatever is worked out later. */
  private block(field: Field, title: string, value: string) {
    return html`<h2 id="h-${field}">${title}</h2><p class="text" contenteditable="plaintext-only" role="textbox" aria-multiline="true" aria-labelledby="h-${field}" tabindex="0"
      .textContent=${value} @blur=${(e: Event) => {
        const text = ((e.target as HTMLElement).textContent ?? '').trim();
        if (text !== value) this.keep(field, text);
      }}></p>`;
  }

  private async download(sheet: JobSheet): Promise<void> {
    const text = await causeDesk.ask('html', { sheet, filled: this.filled(sheet) });
    saveText(`job-sheet-${this.session.job.day}.html`, text);
  }

  private get kept(): Kept {
    return (this.session.job.more['sheet'] ?? {}) as Kept;
  }
  private keep(field: Field, value: string): void {
    say(this, { do: 'more', name: 'sheet', value: { ...this.kept, [field]: value } });
  }
}

const dayText = (day: string): string => {
  const [year, month, date] = day.split('-').map(Number);
  const names = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
  return `${date} ${names[(month ?? 1) - 1]} ${year}`;
};
