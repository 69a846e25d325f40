import { css, html, LitElement, nothing } from 'lit';
import type { ReadingText } from '../../src/report/readingText.ts';
import type { CircuitSeen } from '../calls.ts';
import { controls } from '../looks/controls.ts';
import { say } from '../say.ts';
import type { Meter } from '../session/session.ts';

const instruments: readonly (readonly [Meter['instrument'], string])[] = [
  ['volts', 'Volts'],
  ['test lamp', 'Test lamp'],
  ['ohms', 'Ohms'],
  ['clamp', 'Clamp'],
  ['amperes', 'Amps'],
  ['jumper', 'Jumper'],
];

/**
 * The meter: which instrument, where its leads are, what it shows.
 * @fires say - `meter`
 * @fires bridged - detail: [red, black]; the jumper is put on or taken off
 */
export class MeterPanel extends LitElement {
  static override properties = {
    meter: { attribute: false },
    reading: { attribute: false },
    circuit: { attribute: false },
    bridges: { attribute: false },
  };
  declare meter: Meter;
  declare reading: ReadingText | undefined;
  declare circuit: CircuitSeen;
  declare bridges: readonly (readonly [string, string])[];

  static override styles = [
    controls,
    css`
      :host {
        display: block;
        background: light-dark(var(--ink), var(--band));
        color: light-dark(var(--sheet), var(--ink));
        padding: 12px 20px 16px;
      }
      .head {
        display: flex;
        justify-content: space-between;
        align-items: center;
      }
      .kinds {
        display: grid;
        grid-template-columns: repeat(6, auto);
        gap: 6px;
        margin: 8px 0;
      }
      .kinds button {
        padding: 4px 6px;
      }
      button:not([aria-pressed='true'], .main) {
        background: none;
        color: inherit;
        border-color: currentColor;
      }
      button[aria-pressed='true'] {
        background: light-dark(var(--sheet), var(--ink));
        color: light-dark(var(--ink), var(--sheet));
        border-color: currentColor;
      }
      .display {
        background: #dde3dc;
        color: #15202b;
        border-radius: 3px;
        padding: 6px 16px;
        min-height: 104px;
        display: flex;
        align-items: baseline;
        justify-content: flex-end;
        gap: 14px;
        font-size: 84px;
        line-height: 1.1;
        font-weight: 600;
        overflow: hidden;
      }
      .display.word {
        font-size: 56px;
      }
      .display small {
        font-size: 24px;
        font-weight: 500;
      }
      .note {
        min-height: 22px;
        font-size: 15px;
        margin: 6px 0;
      }
      .lead {
        display: grid;
        grid-template-columns: 34px 1fr auto;
        gap: 8px;
        align-items: center;
        margin-top: 6px;
      }
      .letter {
        width: 34px;
        height: 34px;
        border-radius: 50%;
        display: grid;
        place-items: center;
        background: light-dark(#fff, var(--hand));
        color: light-dark(var(--ink), var(--onhand));
        font-weight: 700;
      }
      :focus-visible {
        outline-color: light-dark(#7fcdd6, var(--hand));
      }
      @media (max-width: 899.9px) {
        .kinds {
          grid-template-columns: repeat(3, 1fr);
        }
      }
    `,
  ];

  override render() {
    const { meter, reading } = this;
    const one = meter.instrument === 'clamp' || meter.instrument === 'amperes';
    const bridged = this.bridges.some(([a, b]) => a === meter.red && b === meter.black);
    const shown = reading ?? { figure: '- - -', unit: '', note: '', refused: true };
    return html`
      <div class="head"><h2>Meter</h2><button @click=${() => this.set({ open: false, placing: undefined })}>Put away</button></div>
      <div class="kinds" role="group" aria-label="Instrument">
        ${instruments.map(([name, word]) => html`<button aria-pressed=${meter.instrument === name} @click=${() => this.set({ instrument: name })}>${word}</button>`)}
      </div>
      <div class="display ${/[a-z-]/.test(shown.figure) && !/\d/.test(shown.figure) ? 'word' : ''}" role="status" aria-label="Reading">
        <span>${shown.figure}</span>${shown.unit === '' ? nothing : html`<small>${shown.unit}</small>`}
      </div>
      <p class="note">${shown.note}</p>
      ${this.lead('red', 'A', one ? 'wire, fuse or terminal' : 'red lead')} ${one ? nothing : this.lead('black', 'B', 'black lead')}
      ${
        meter.instrument === 'jumper'
          ? html`<div class="row lead"><button class="wide" ?disabled=${!meter.red || !meter.black} aria-pressed=${bridged} @click=${this.bridge}>${bridged ? 'Take the jumper off' : 'Bridge'}</button></div>`
          : nothing
      }
      <datalist id="places">${this.places(one).map((p) => html`<option value=${p}></option>`)}</datalist>
    `;
  }

  private lead(lead: 'red' | 'black', letter: string, word: string) {
    const { meter } = this;
    return html`<div class="lead">
      <span class="letter" aria-hidden="true">${letter}</span>
      <input type="text" list="places" autocomplete="off" aria-label="${letter}, ${word}" placeholder=${word} .value=${meter[lead] ?? ''}
        @change=${(e: Event) => this.type(lead, (e.target as HTMLInputElement).value.trim())} />
      <button aria-pressed=${meter.placing === lead} @click=${() => this.set({ placing: meter.placing === lead ? undefined : lead })}>
        ${meter.placing === lead ? 'Click where' : 'Place'}
      </button>
    </div>`;
  }

  private places(one: boolean): readonly string[] {
    const terminals = this.circuit.parts.filter((p) => !p.isWire).flatMap((p) => p.terminals.map((t) => `${p.id}.${t}`));
    return one ? [...this.circuit.parts.map((p) => p.id), ...terminals] : ['ground', ...terminals];
  }

  private type(lead: 'red' | 'black', text: string): void {
    const known = this.places(true)
      .concat('ground', 'block')
      .find((p) => p.toLowerCase() === text.toLowerCase());
    if (text === '' || known) this.set({ [lead]: known });
    else this.requestUpdate();
  }
  private set(meter: Partial<Meter>): void {
    say(this, { do: 'meter', meter });
  }
  private readonly bridge = (): void => {
    const { red, black } = this.meter;
    if (red && black) this.dispatchEvent(new CustomEvent('bridged', { detail: [red, black] }));
  };
}
