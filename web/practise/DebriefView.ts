import { css, html, LitElement, nothing, svg } from 'lit';
import { classSheetText, withLine } from '../../src/practice/classSheet.ts';
import { controls } from '../looks/controls.ts';
import { practiceShelf } from './practiceShelf.ts';
import type { DebriefSeen } from './practiseCalls.ts';
import { saveText } from './saveText.ts';

/** Typed once a visit; kept nowhere. */
let lastName = '';

/**
 * How the search went, beside the technician's way.
 * @fires again, next
 */
export class DebriefView extends LitElement {
  static override properties = { seen: { attribute: false }, title: { type: String }, told: { state: true } };
  declare seen: DebriefSeen;
  declare title: string;
  declare told: string;

  constructor() {
    super();
    this.told = '';
  }

  static override styles = [
    controls,
    css`
      :host {
        display: grid;
        grid-template-columns: minmax(0, 1fr) 426px;
        height: 100%;
      }
      .left {
        background: var(--sheet);
        border-right: 2px solid var(--ink);
        overflow: auto;
        padding: 20px 28px;
        display: grid;
        gap: 12px;
        align-content: start;
      }
      h2 {
        font-size: 30px;
      }
      svg {
        width: 100%;
        height: auto;
        max-width: 980px;
      }
      text {
        fill: var(--ink2);
        font-size: 15px;
      }
      .grid {
        stroke: var(--rule);
      }
      .axis {
        stroke: var(--ink);
        stroke-width: 2;
      }
      .yours {
        fill: none;
        stroke: var(--ink);
        stroke-width: 4;
      }
      .technician {
        fill: none;
        stroke: var(--hand);
        stroke-width: 4;
        stroke-dasharray: 12 7;
      }
      .wasted {
        stroke: var(--tag);
        stroke-width: 6;
      }
      .tell {
        fill: var(--tag);
        font-weight: 700;
      }
      .best {
        fill: var(--hand);
        font-weight: 700;
      }
      .own {
        fill: var(--ink);
        font-weight: 700;
      }
      .dot {
        fill: var(--ink);
      }
      .no {
        fill: var(--sheet);
        font-weight: 700;
        text-anchor: middle;
      }
      table {
        border-collapse: collapse;
        width: 100%;
      }
      td,
      th {
        text-align: left;
        vertical-align: top;
        padding: 8px 10px 8px 0;
        border-top: 1px solid var(--rule);
      }
      tr.redundant td,
      tr.redundant th {
        background: var(--tagtint);
      }
      .right {
        overflow: auto;
        background: var(--paper);
      }
      .right section {
        padding: 16px 24px;
        border-bottom: 1px solid var(--rule);
        display: grid;
        gap: 8px;
      }
      .line {
        display: grid;
        gap: 8px;
      }
      .marks td:last-child,
      .marks th:last-child {
        text-align: right;
        white-space: nowrap;
        font-weight: 700;
        padding-right: 0;
      }
      .sum td {
        border-top: 2px solid var(--ink);
        font-size: 20px;
        font-weight: 700;
      }
      .chart {
        overflow-x: auto;
        min-width: 0;
      }
      .right ol {
        padding-left: 22px;
      }
      @media (max-width: 599.9px) {
        .chart svg {
          min-width: 720px;
        }
        .left {
          padding: 16px 18px;
        }
        h2 {
          font-size: 24px;
        }
      }
      @media (max-width: 1199.9px) {
        :host {
          grid-template-columns: minmax(0, 1fr);
          height: auto;
        }
        .left {
          border-right: 0;
        }
      }
      @media print {
        :host {
          display: block;
          height: auto;
        }
        .left,
        .right {
          overflow: visible;
          border: 0;
        }
        .buttons {
          display: none !important;
        }
      }
    `,
  ];

  override render() {
    const d = this.seen;
    return html`<div class="left">
        <h2 tabindex="-1">${d.verdict}</h2>
        <p>${d.hidden}</p>
        <div class="chart" tabindex="0" role="group" aria-label="Suspects left against minutes">${this.chart()}</div>
        <table>
          <caption class="unseen">Every step, what it read and what it was worth</caption>
          <thead><tr><th scope="col">No.</th><th scope="col">at</th><th scope="col">done</th><th scope="col">read</th><th scope="col">left</th><th scope="col">worth</th></tr></thead>
          <tbody>${d.steps.map((s) => html`<tr class=${s.redundant ? 'redundant' : ''}><td>${s.number}</td><td>${s.at}</td><th scope="row">${s.did}</th><td>${s.read}</td><td>${s.left}</td><td>${s.worth}</td></tr>`)}</tbody>
        </table>
      </div>
      <aside class="right" aria-label="Marks">
        <section>
          <h3>Marks</h3>
          <table class="marks"><tbody>
            ${d.marks.map((m) => html`<tr><td>${m.about}</td><td>${m.points} of ${m.of}</td></tr>`)}
            ${d.hints > 0 ? html`<tr><td>Hints</td><td>−${d.hints}</td></tr>` : nothing}
            <tr class="sum"><td>Together</td><td>${d.total} of 100</td></tr>
          </tbody></table>
          ${d.stopped ? html`<p class="caution"><b>Stopped.</b> An unsafe act ends the marks; above is what they would have been.</p>` : nothing}
          ${d.notes.map((n) => html`<p>${n}</p>`)}
        </section>
        ${d.misconceptions.map((m) => html`<section><h3>Keep this</h3><p>What was done fits the belief "${m.belief}": ${m.condition}.</p><p>Try: ${m.task}.</p><p class="small quiet">Source: ${m.source}</p></section>`)}
        <section><h3>How the technician went</h3><p>${d.way}</p><ol>${d.technician.map((b) => html`<li>${b}</li>`)}</ol></section>
        <section class="buttons"><div class="row"><button class="main" @click=${() => this.dispatchEvent(new CustomEvent('next'))}>Next exercise</button></div><div class="row">
          <button @click=${() => saveText('debrief.md', d.sheet, 'text/markdown')}>Save the sheet</button>
          <button @click=${() => print()}>Print</button>
          <button @click=${() => this.dispatchEvent(new CustomEvent('again'))}>Another level</button>
        </div></section>
        <section class="buttons"><h3>For the class sheet</h3>
          <form class="line" @submit=${(e: Event) => void this.line(e)}><label>Your name<input type="text" name="name" autocomplete="name" maxlength="80" .value=${lastName} /></label>
            <div class="row"><button value="save">Save my line as a file</button><button value="here">Put it on this machine's sheet</button></div></form>
          <p role="status">${this.told}</p>
        </section>
      </aside>`;
  }

  private chart() {
    const { chart: c, rivals, steps } = this.seen;
    const words = `Suspects left against minutes. You: from ${rivals} to ${steps.at(-1)?.left ?? rivals}.`;
    return html`<svg viewBox="0 -8 ${c.width} ${c.height + 8}" role="img" aria-label=${words}>
      ${c.lines.map((l) => svg`<line class="grid" x1=${c.box.left} x2=${c.box.right} y1=${l.y} y2=${l.y}></line><text x=${c.box.left - 10} y=${l.y + 5} text-anchor="end">${l.left}</text>`)}
      <line class="axis" x1=${c.box.left} x2=${c.box.right} y1=${c.box.bottom} y2=${c.box.bottom}></line>
      ${c.ticks.map((t) => svg`<text x=${t.x} y=${c.box.bottom + 20} text-anchor="middle">${t.minute}</text>`)}
      <text x=${c.box.left} y=${c.height - 8}>suspects left (each line down halves them)</text><text x=${c.box.right} y=${c.height - 8} text-anchor="end">minutes</text>
      <path class="technician" d=${c.technician}></path><path class="yours" d=${c.yours}></path>
      ${c.wasted.map((w) => svg`<line class="wasted" x1=${w.x1} x2=${w.x2} y1=${w.y} y2=${w.y}></line><text class="tell" x=${w.x1 + 16} y=${w.y - 10}>${Math.max(1, Math.round(w.minutes))} min that told nothing</text>`)}
      ${c.points.map((p) => svg`<circle class="dot" cx=${p.x} cy=${p.y} r="11"></circle><text class="no" x=${p.x} y=${p.y + 5}>${p.number}</text>`)}
      <text x=${c.ends.technician[0] + 4} y=${c.ends.technician[1] - 16} class="best" text-anchor="end">technician</text>
      <text x=${c.ends.yours[0] + 14} y=${c.ends.yours[1] - 12} class="own">you</text>
    </svg>`;
  }

  /** One line of CSV for the instructor, or straight onto the sheet where both use this machine. */
  private async line(e: Event): Promise<void> {
    e.preventDefault();
    const form = e.target as HTMLFormElement;
    lastName = String(new FormData(form).get('name')).trim();
    if (lastName === '') {
      this.told = 'Write your name first.';
      form.querySelector('input')?.focus();
      return;
    }
    const row = { ...this.seen.row, name: lastName };
    if (((e as SubmitEvent).submitter as HTMLButtonElement | null)?.value === 'here') {
      const shelf = await practiceShelf();
      await shelf.keepSheet(withLine(await shelf.sheet(), row));
      this.told = 'The line is on the class sheet of this machine, under "For instructors".';
    } else {
      saveText(`${lastName.replace(/[^\p{L}\p{N}]+/gu, '-')}.csv`, classSheetText([row]), 'text/csv');
      this.told = 'Saved; give the file to your instructor.';
    }
  }

  override firstUpdated(): void {
    this.renderRoot.querySelector('h2')?.focus();
  }
}
