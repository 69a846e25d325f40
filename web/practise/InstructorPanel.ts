import { css, html, LitElement } from 'lit';
import { levels } from '../../src/practice/level.ts';
import type { FaultChoice } from '../calls.ts';
import { controls } from '../looks/controls.ts';
import { askPractise } from './practiseDesk.ts';
import { saveText } from './saveText.ts';

/** Makes an exercise from named faults, or from the hang-tags of the bench, and writes it as a file with the answer sealed. */
export class InstructorPanel extends LitElement {
  static override properties = {
    file: { attribute: false },
    faults: { attribute: false },
    put: { attribute: false },
    told: { state: true },
    busy: { state: true },
  };
  declare file: { readonly text: string; readonly name: string } | undefined;
  declare faults: readonly FaultChoice[];
  /** Hang-tags on the bench. */
  declare put: readonly string[];
  declare told: string;
  declare busy: boolean;

  constructor() {
    super();
    this.told = '';
    this.busy = false;
    this.put = [];
  }

  static override styles = [
    controls,
    css`
      form {
        display: grid;
        gap: 10px;
        max-width: 640px;
        padding: 12px 0;
      }
    `,
  ];

  override render() {
    return html`<form @submit=${(e: Event) => this.make(e)}>
      <p>Name one fault a line, or put hang-tags on the bench first. The simulated technician then tries it; only what can be proved is written.</p>
      <label>Faults<textarea name="faults" rows="2">${this.put.join('\n')}</textarea></label>
      <label>Add one of the list<input type="text" list="all" autocomplete="off" @change=${(e: Event) => this.add(e)} /></label>
      <datalist id="all">${this.faults.map((f) => html`<option value=${f.phrase}>${f.text}</option>`)}</datalist>
      <label>Level<select name="level">${levels.filter((l) => l.number > 2).map((l) => html`<option value=${l.number}>${l.number} ${l.title}</option>`)}</select></label>
      <label>Pass-word, empty for none<input type="text" name="pass" autocomplete="off" /></label>
      <div class="row"><button class="main" ?disabled=${this.busy}>${this.busy ? 'The technician is trying it...' : 'Check and save'}</button></div>
      <p role="status">${this.told}</p>
      <p class="small quiet">The answer is sealed in the file: it cannot be read by looking. It is a seal, not a safe.</p>
    </form>`;
  }

  private add(e: Event): void {
    const field = e.target as HTMLInputElement;
    const area = this.renderRoot.querySelector('textarea')!;
    if (field.value !== '') area.value = [area.value.trim(), field.value].filter((x) => x !== '').join('\n');
    field.value = '';
  }

  private async make(e: Event): Promise<void> {
    e.preventDefault();
    if (!this.file) return;
    const words = new FormData(e.target as HTMLFormElement);
    const faults = String(words.get('faults'))
      .split('\n')
      .map((f) => f.trim())
      .filter((f) => f !== '');
    this.busy = true;
    try {
      const made = await askPractise('hide', {
        ...this.file,
        faults,
        level: Number(words.get('level')),
        seed: 1,
        pass: String(words.get('pass')),
      });
      this.told = made.ok ? made.said : `Not written: ${made.why}.`;
      if (made.ok) saveText('exercise.yaml', made.file, 'application/yaml');
    } finally {
      this.busy = false;
    }
  }
}
