import { css, html, LitElement } from 'lit';
import type { CircuitSeen } from '../calls.ts';
import { controls } from '../looks/controls.ts';
import { say } from '../say.ts';

/**
 * What is switched on by hand. A switch with two settings is a button; one with more is a list.
 * @fires say - `hand`
 */
export class HandSettings extends LitElement {
  static override properties = { switches: { attribute: false }, hand: { attribute: false } };
  declare switches: CircuitSeen['switches'];
  declare hand: Readonly<Record<string, string>>;

  constructor() {
    super();
    this.switches = [];
    this.hand = {};
  }

  static override styles = [
    controls,
    css`
      .switches {
        display: flex;
        flex-wrap: wrap;
        gap: 6px;
      }
      label {
        display: flex;
        align-items: center;
        gap: 6px;
        border: 1px solid var(--edge);
        border-radius: 3px;
        background: var(--sheet);
        padding-left: 12px;
        font-weight: 600;
      }
      label.set {
        background: var(--ink);
        color: var(--sheet);
        border-color: var(--ink);
      }
      select {
        min-width: 48px;
        border: 0;
        border-left: 1px solid var(--edge);
        border-radius: 0 2px 2px 0;
        min-height: 44px;
        padding: 0 6px;
      }
    `,
  ];

  override render() {
    return html`<div class="switches">${this.switches.map((s) => {
      const rest = s.settings[0]!;
      const now = this.hand[s.id] ?? rest;
      if (s.settings.length === 2)
        return html`<button aria-pressed=${now !== rest} title="${s.id}, ${now}" @click=${() => this.set(s.id, now === rest ? s.settings[1] : undefined)}>${this.word(s, now)}</button>`;
      return html`<label class=${now === rest ? '' : 'set'} title=${s.id}>${s.name}
        <select @change=${(e: Event) => this.set(s.id, (e.target as HTMLSelectElement).value)}>
          ${s.settings.map((setting) => html`<option value=${setting} ?selected=${setting === now}>${setting}</option>`)}
        </select></label>`;
    })}</div>`;
  }

  /** A plain on and off needs no word; any other setting is told by its own. */
  private word(s: CircuitSeen['switches'][number], now: string): string {
    return s.settings[1] === 'on' ? s.name : `${s.name}: ${now}`;
  }

  private set(part: string, setting: string | undefined): void {
    const rest = this.switches.find((s) => s.id === part)?.settings[0];
    say(this, { do: 'hand', part, setting: setting === rest ? undefined : setting });
  }
}
