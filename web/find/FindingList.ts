import { css, html, LitElement, nothing } from 'lit';
import { verdictMark } from '../bench/verdictMark.ts';
import type { CircuitSeen } from '../calls.ts';
import type { SearchSeen } from '../causeCalls.ts';
import { controls } from '../looks/controls.ts';
import { findingParts } from './findingParts.ts';

/**
 * What was found so far, one line each; the lines that cannot stand together, and those that prove the cause, say so.
 * @fires take-back - detail: { line: number; phrase: string }
 */
export class FindingList extends LitElement {
  static override properties = { lines: { attribute: false }, search: { attribute: false }, circuit: { attribute: false } };
  /** As noted. */
  declare lines: readonly string[];
  declare search: SearchSeen | undefined;
  declare circuit: CircuitSeen;

  static override styles = [
    controls,
    css`
      :host {
        display: block;
      }
      li {
        display: grid;
        grid-template-columns: minmax(64px, 30%) minmax(0, 1fr) auto auto;
        align-items: center;
        gap: 4px 10px;
        min-height: 46px;
        border-bottom: 1px solid var(--rule);
        padding: 1px 0;
        line-height: 1.15;
      }
      li.clashes {
        border-left: 8px solid var(--tag);
        padding-left: 8px;
        background: var(--tagtint);
      }
      li.proves {
        border-left: 8px solid var(--hand);
        padding-left: 8px;
      }
      .word {
        display: flex;
        gap: 6px;
        align-items: center;
        font-weight: 600;
        white-space: nowrap;
      }
      .note {
        grid-column: 1 / -1;
        font-size: 14px;
        padding-bottom: 4px;
      }
      .clashes .note {
        color: var(--tag);
        font-weight: 700;
      }
      button {
        padding: 4px 8px;
        font-size: 14px;
        font-weight: 500;
        color: var(--ink2);
        text-decoration: underline;
        text-decoration-color: var(--edge);
        text-underline-offset: 3px;
      }
      .clashes button {
        color: var(--ink);
        font-weight: 700;
        border-color: var(--tag);
        text-decoration: none;
      }
      .unread b {
        color: var(--tag);
      }
      .unread {
        grid-template-columns: minmax(0, 1fr) auto;
      }
    `,
  ];

  override render() {
    return html`<ul>${this.lines.map((line, k) => this.line(line, k))}</ul>`;
  }

  private line(text: string, line: number) {
    const read = this.search?.read.find((r) => r.text === text);
    const problem = read?.problems.find((p) => p.severity === 'error');
    if (problem)
      return html`<li class="unread"><span>${text}</span>${this.back(line, text)}
        <p class="note"><b>Not understood.</b> ${problem.what}. ${problem.mend.length > 0 ? html`Say, for example: ${problem.mend[0]}` : nothing}</p></li>`;
    const phrases = read && read.findings.length > 0 ? read.findings : [text];
    return phrases.map((phrase) => this.finding(phrase, line, read?.problems.find((p) => p.what.includes(`\`${phrase}\``))?.what));
  }

  /** @param taken how the line was taken, where that is not as it was written: it came from a file */
  private finding(phrase: string, line: number, taken?: string) {
    const row = this.search?.view.findings.find((f) => f.phrase === phrase);
    const { scene, what, word, mark } = findingParts(phrase, this.circuit);
    const clashes = row?.clashes ?? false;
    const proves = row?.proves ?? false;
    const alone = this.search?.view.verdict.state === 'nothing-fits';
    const note = alone ? 'Nothing modelled explains this one.' : 'Does not stand together with the others marked so.';
    return html`<li class=${clashes ? 'clashes' : proves ? 'proves' : ''}>
      <b>${scene}</b><span>${what}</span><span class="word">${verdictMark(mark)} ${word}</span>${this.back(line, phrase, clashes)}
      ${clashes ? html`<p class="note">${note}</p>` : proves ? html`<p class="note"><b>Proof:</b> it would have been otherwise for every rival.</p>` : nothing}
      ${taken === undefined ? nothing : html`<p class="note">${taken}.</p>`}
    </li>`;
  }

  private back(line: number, phrase: string, doubt = false) {
    return html`<button class=${doubt ? '' : 'plain'} aria-label="${doubt ? 'Doubt it' : 'Take back'}: ${phrase}" @click=${() =>
      this.dispatchEvent(new CustomEvent('take-back', { detail: { line, phrase } }))}>${doubt ? 'Doubt it' : 'Take back'}</button>`;
  }
}
