import { css, html, LitElement, nothing } from 'lit';
import type { CircuitSeen } from '../calls.ts';
import type { PhraseRead } from '../causeCalls.ts';
import { controls } from '../looks/controls.ts';
import { say } from '../say.ts';
import type { Meter } from '../session/session.ts';

const units = ['V', 'A', 'Ω'] as const;

/**
 * A reading that was taken: where the leads were (placed on the drawing or typed), in which scene, and the figure.
 * @fires found - detail: canonical finding phrases
 * @fires done
 * @fires say - `meter`
 */
export class ReadingEntry extends LitElement {
  static override properties = {
    meter: { attribute: false },
    circuit: { attribute: false },
    check: { attribute: false },
    scene: { state: true },
    figure: { state: true },
    unit: { state: true },
    wrong: { state: true },
  };
  declare meter: Meter;
  declare circuit: CircuitSeen;
  declare check: (text: string) => Promise<PhraseRead>;
  declare scene: string;
  declare figure: string;
  declare unit: (typeof units)[number];
  declare wrong: string;

  constructor() {
    super();
    this.scene = 'ON';
    this.figure = '';
    this.unit = 'V';
    this.wrong = '';
  }

  static override styles = [
    controls,
    css`
      :host {
        display: block;
        padding: 8px 0;
      }
      form {
        display: grid;
        gap: 8px;
      }
      .lead {
        display: grid;
        grid-template-columns: 34px minmax(0, 1fr) auto;
        gap: 8px;
        align-items: center;
      }
      .letter {
        width: 34px;
        height: 34px;
        border-radius: 50%;
        display: grid;
        place-items: center;
        background: var(--hand);
        color: var(--onhand);
        font-weight: 700;
      }
      .two {
        display: grid;
        grid-template-columns: minmax(0, 1fr) minmax(0, 1fr) 72px;
        gap: 8px;
      }
      .wrong {
        color: var(--tag);
        font-weight: 600;
      }
    `,
  ];

  override render() {
    const { circuit, unit } = this;
    const positions = circuit.key?.positions ?? [];
    const sprung = positions.filter((p) => p.springsTo !== undefined);
    const scenes = [
      ...positions.map((p) => p.name),
      ...sprung.map((p) => `${p.springsTo} after ${p.name}`),
      ...(positions.length > 0 ? ['key out'] : []),
    ];
    return html`<form @submit=${this.enter}>
      ${this.lead('red', 'A', unit === 'A' ? 'wire or terminal' : 'red lead')} ${unit === 'A' ? nothing : this.lead('black', 'B', 'black lead')}
      <div class="two">
        <label>Key, switches<input type="text" list="scenes" ?disabled=${unit === 'Ω'} .value=${unit === 'Ω' ? 'off the vehicle' : this.scene} @input=${(
          e: Event,
        ) => {
          this.scene = (e.target as HTMLInputElement).value;
        }} /></label>
        <label>Read<input type="text" inputmode="decimal" autocomplete="off" .value=${this.figure} @input=${(e: Event) => {
          this.figure = (e.target as HTMLInputElement).value;
        }} /></label>
        <label>in<select @change=${(e: Event) => {
          this.unit = (e.target as HTMLSelectElement).value as (typeof units)[number];
        }}>${units.map((u) => html`<option ?selected=${u === unit}>${u}</option>`)}</select></label>
      </div>
      <p class="wrong" role="alert" ?hidden=${this.wrong === ''}>${this.wrong}</p>
      <div class="row"><button class="main" type="submit">Note the reading</button><button type="button" @click=${() => this.done()}>Done</button></div>
      <datalist id="scenes">${scenes.map((s) => html`<option value=${s}></option>`)}</datalist>
      <datalist id="spots">${this.places().map((p) => html`<option value=${p}></option>`)}</datalist>
    </form>`;
  }

  private lead(lead: 'red' | 'black', letter: string, word: string) {
    const { meter } = this;
    return html`<div class="lead">
      <span class="letter" aria-hidden="true">${letter}</span>
      <input type="text" list="spots" autocomplete="off" aria-label="${letter}, ${word}" placeholder=${word} .value=${meter[lead] ?? ''}
        @change=${(e: Event) => this.type(lead, (e.target as HTMLInputElement).value.trim())} />
      <button type="button" aria-pressed=${meter.placing === lead} @click=${() => say(this, { do: 'meter', meter: { placing: meter.placing === lead ? undefined : lead } })}>
        ${meter.placing === lead ? 'Tap where' : 'Place'}
      </button>
    </div>`;
  }

  private places(): readonly string[] {
    return ['ground', ...this.circuit.parts.filter((p) => !p.isWire).flatMap((p) => p.terminals.map((t) => `${p.id}.${t}`))];
  }
  private type(lead: 'red' | 'black', text: string): void {
    const known = this.places().find((p) => p.toLowerCase() === text.toLowerCase());
    say(this, { do: 'meter', meter: { [lead]: known } });
    if (!known) this.requestUpdate();
  }

  private readonly enter = async (e: Event): Promise<void> => {
    e.preventDefault();
    const { red, black } = this.meter;
    const figure = this.figure.trim().replace(',', '.');
    if (red === undefined) this.wrong = 'Lead A needs a terminal: place it on the drawing or type it, such as S1.15.';
    else if (figure === '') this.wrong = 'Enter the figure that the meter shows.';
    else {
      const to = black === undefined || black === 'ground' ? undefined : black;
      const volts = to === undefined ? `at ${red}` : `from ${red} to ${to}`;
      const text =
        this.unit === 'Ω'
          ? `off the vehicle: ${red} to ${black ?? 'ground'} ${figure === 'open' ? 'open' : `${figure} Ω`}`
          : `${this.scene}: ${figure} ${this.unit} ${this.unit === 'A' ? `at ${red}` : volts}`;
      const answer = await this.check(text);
      const problem = answer.problems.find((p) => p.severity === 'error');
      this.wrong = problem ? `${problem.what}. ${problem.mend[0] === undefined ? '' : `Say, for example: ${problem.mend[0]}`}` : '';
      if (answer.findings.length > 0) {
        this.figure = '';
        this.dispatchEvent(new CustomEvent('found', { detail: answer.findings }));
      }
    }
  };
  private done(): void {
    say(this, { do: 'meter', meter: { placing: undefined, open: false } });
    this.dispatchEvent(new CustomEvent('done'));
  }
}
