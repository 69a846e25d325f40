import { html } from 'lit';
import type { Problem } from '../../src/circuit/problem.ts';

/** Problems of a file: place, fact, cost, mends. */
export function problemList(problems: readonly Problem[]) {
  return html`<ul class="problems">
    ${problems.map(
      (p) => html`<li class=${p.severity}>
        <p class="small quiet">${p.file}:${p.line}:${p.column}, ${p.severity}</p>
        <p><b>${p.what}</b></p>
        <p>${p.why}</p>
        ${p.mend.map((m) => html`<p class="small">Mend: ${m}</p>`)}
      </li>`,
    )}
  </ul>`;
}
