import { html, LitElement, nothing } from 'lit';
import { quantityText } from '../../src/circuit/quantity.ts';
import { type AskedOf, asking } from '../askWorker.ts';
import { controls } from '../looks/controls.ts';
import type { FitCalls } from './fitCalls.ts';
import FitWorker from './fitWorker.ts?worker';
import { formStyles } from './formStyles.ts';

let worker: AskedOf<FitCalls> | undefined;

/**
 * Readings on the healthy vehicle, and the circuit's figures brought closer to them, each within its range.
 * @fires whole - detail: the text with the fitted figures
 */
export class FitForm extends LitElement {
  static override properties = { text: { attribute: false }, found: { state: true }, busy: { state: true } };
  declare text: string;
  declare found: FitCalls['fit']['gives'] | undefined;
  declare busy: boolean;

  constructor() {
    super();
    this.text = '';
    this.busy = false;
  }

  static override styles = [controls, formStyles];

  override render() {
    return html`<form @submit=${this.fit}>
      <h3>Fit to readings on the healthy vehicle</h3>
      <label>Readings, one to a line
        <textarea name="readings" rows="5" required placeholder="key out: 12.5 V at G1.+&#10;START: 10.4 V at G1.+&#10;ON, S5 on: 5.2 A at M2.1"></textarea></label>
      <div class="row"><button class="main" type="submit" ?disabled=${this.busy}>${this.busy ? 'Fitting...' : 'Fit'}</button></div>
      ${this.found ? this.result(this.found) : nothing}
    </form>`;
  }

  private fit = async (e: SubmitEvent): Promise<void> => {
    e.preventDefault();
    const typed = String(new FormData(e.target as HTMLFormElement).get('readings') ?? '');
    const phrases = typed.split('\n').map((line) => line.trim());
    this.busy = true;
    worker ??= asking<FitCalls>(new FitWorker());
    try {
      this.found = await worker.ask('fit', { text: this.text, phrases: phrases.filter((line) => line !== '') });
    } finally {
      this.busy = false;
    }
  };

  private result({ problems, readings, figures, disagree, text }: FitCalls['fit']['gives']) {
    if (problems.length > 0) return html`<ul>${problems.map((p) => html`<li><b>${p.what}</b> ${p.mend.join('; ')}</li>`)}</ul>`;
    const unit = (of: 'volts' | 'amperes') => (of === 'volts' ? 'voltage' : 'current');
    const shown = (value: number | null, of: 'volts' | 'amperes') => (value === null ? 'nothing' : quantityText(value, unit(of)));
    const moved = figures?.filter((f) => Math.abs(f.after - f.before) > 1e-3 * (f.most - f.least)) ?? [];
    return html`
      <p role="status"><b>${
        readings?.every((r) => r.agrees)
          ? 'All readings agree.'
          : (disagree?.length ?? 0) > 0
            ? `They do not agree. Without any one of these the others fit; read it again: ${disagree?.join('; ')}`
            : 'They do not agree, and no single one is to blame: look at scene, terminals and the circuit.'
      }</b></p>
      <table><thead><tr><th scope="col">Reading</th><th scope="col">Before</th><th scope="col">After</th></tr></thead>
        <tbody>${readings?.map((r) => html`<tr><td>${r.phrase}${r.agrees ? '' : ', does not agree'}</td><td>${shown(r.before, r.of)}</td><td>${shown(r.after, r.of)}</td></tr>`)}</tbody></table>
      <table><thead><tr><th scope="col">Figure</th><th scope="col">Before</th><th scope="col">After</th><th scope="col">Range</th></tr></thead>
        <tbody>${moved.map(
          (
            f,
          ) => html`<tr><td>${f.part} ${f.parameter}</td><td>${quantityText(f.before, f.dimension)}</td><td>${quantityText(f.after, f.dimension)}</td>
            <td>${quantityText(f.least, f.dimension, 3)} to ${quantityText(f.most, f.dimension, 3)}${f.atLimit ? ', at its end' : ''}</td></tr>`,
        )}</tbody></table>
      <div class="row"><button type="button" ?disabled=${moved.length === 0} @click=${() => this.dispatchEvent(new CustomEvent('whole', { detail: text ?? this.text }))}>Write the figures</button></div>`;
  }
}
