import { html } from 'lit';
import type { Calls } from '../calls.ts';
import { wish } from '../say.ts';
import { problemList } from './problemList.ts';

/** A file that cannot be drawn: what is wrong with it, and its text with those lines marked. */
export function brokenFile(of: HTMLElement, read: Calls['circuit']['gives']) {
  return html`<div class="broken">
    <section><h2>This circuit cannot be drawn yet</h2>${problemList(read.problems)}
      <div class="row"><button @click=${() => wish(of, 'library')}>Open another circuit</button></div></section>
    <pre tabindex="0" aria-label="Text of the circuit file">${read.text.split('\n').map((text, k) => {
      const marked = read.problems.some((p) => p.line === k + 1);
      return html`<span class=${marked ? 'marked' : ''}><i>${k + 1}</i>${text}\n</span>`;
    })}</pre>
  </div>`;
}
