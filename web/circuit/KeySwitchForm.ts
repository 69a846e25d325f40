import { html, LitElement, nothing } from 'lit';
import type { Step } from '../../src/circuit/edit/steps.ts';
import type { BenchReading, BenchSaid, PositionRow, Unclear } from '../../src/report/circuitEdit/keyTable.ts';
import { controls } from '../looks/controls.ts';
import type { EditCalls } from './editCalls.ts';
import { askEdit } from './editDesk.ts';
import { formStyles } from './formStyles.ts';
import { sizes, textOf } from './GuidedForms.ts';

const usual: readonly PositionRow[] = [
  { name: 'OFF', angle: 0, keyOut: true },
  { name: 'ON', angle: 60 },
  { name: 'START', angle: 90, springsTo: 'ON' },
];

/**
 * A key switch from its position table, or from a bare switch on the bench with a meter: each pair of terminals in
 * each position, one at a time.
 *
 * @fires steps - detail: { steps, said }
 * Keys: J joined, O open, N not sure, Backspace the pair before (while reading on the bench).
 */
export class KeySwitchForm extends LitElement {
  static override properties = {
    ends: { attribute: false },
    rows: { state: true },
    terminals: { state: true },
    joined: { state: true },
    bench: { state: true },
    readings: { state: true },
    unclear: { state: true },
  };
  declare ends: EditCalls['ends']['gives'];
  declare rows: readonly PositionRow[];
  declare terminals: readonly string[];
  /** Terminals marked in a position: joined with each other. */
  declare joined: Readonly<Record<string, readonly string[]>>;
  declare bench: boolean;
  declare readings: readonly BenchReading[];
  declare unclear: readonly Unclear[];

  constructor() {
    super();
    this.rows = usual;
    this.terminals = ['30', '15', '50'];
    this.joined = { ON: ['30', '15'], START: ['30', '15', '50'] };
    this.bench = false;
    this.readings = [];
    this.unclear = [];
  }

  static override styles = [controls, formStyles];

  override render() {
    return html`<form @submit=${this.add}>
      <h3>Key switch</h3>
      <div class="fields">
        <label>Id <input name="id" required autocomplete="off" .defaultValue=${this.ends?.next['S'] ?? 'S1'} /></label>
        <label>Name <input name="name" autocomplete="off" .defaultValue=${'Key switch'} /></label>
        <label>Terminals <input name="terminals" autocomplete="off" .value=${this.terminals.join(', ')} @change=${this.setTerminals} /></label>
      </div>
      <div class="row" role="group" aria-label="How it is known">
        <button type="button" aria-pressed=${!this.bench} @click=${() => {
          this.bench = false;
        }}>A position table</button>
        <button type="button" aria-pressed=${this.bench} @click=${() => {
          this.bench = true;
        }}>A bare switch and a meter</button>
      </div>
      <table>
        <thead><tr><th scope="col">Position</th><th scope="col">Degrees</th><th scope="col">Springs to</th><th scope="col">Key out</th>
          ${this.bench ? nothing : this.terminals.map((t) => html`<th scope="col">${t}</th>`)}<th></th></tr></thead>
        <tbody>${this.rows.map((row, k) => this.row(row, k))}</tbody>
      </table>
      <div class="row"><button type="button" @click=${this.addRow}>One more position</button></div>
      ${this.bench ? this.benchPart() : html`<p class="small quiet">Mark the terminals that are joined with each other in a position.</p>`}
      ${
        this.unclear.length > 0
          ? html`<div class="caution"><b>Not clear:</b><ul>${this.unclear.map((u) => html`<li>${u.position}, ${u.a} to ${u.b}: ${u.why}</li>`)}</ul></div>`
          : nothing
      }
      <fieldset><legend>Wires at its terminals, where they are known</legend>
        <div class="fields">${this.terminals.map((t) => html`<label>${t} to <input name=${`t-${t}`} list="keyends" autocomplete="off" /></label>`)}
          <datalist id="keyends">${this.ends?.ends.map((e) => html`<option value=${e.end}>${e.what}</option>`)}</datalist>
          <label>Area, mm² <input name="area" inputmode="decimal" autocomplete="off" /></label>
          <label>Length, m <input name="length" inputmode="decimal" autocomplete="off" placeholder="unknown" /></label></div></fieldset>
      <div class="row"><button class="main" type="submit">Add the key switch</button></div>
    </form>`;
  }

  private row(row: PositionRow, k: number) {
    const change = (part: Partial<PositionRow>) => {
      this.rows = this.rows.map((r, j) => (j === k ? { ...r, ...part } : r));
    };
    const of = (e: Event) => (e.target as HTMLInputElement).value.trim();
    return html`<tr>
      <td><input aria-label=${`Name of position ${k + 1}`} .value=${row.name} @change=${(e: Event) => change({ name: of(e) })} /></td>
      <td><input aria-label=${`Degrees of ${row.name}`} inputmode="decimal" .value=${String(row.angle)} @change=${(e: Event) => change({ angle: Number(of(e).replace(',', '.').replace('°', '')) || 0 })} /></td>
      <td><input aria-label=${`${row.name} springs to`} .value=${row.springsTo ?? ''} @change=${(e: Event) => change({ springsTo: of(e) || undefined })} /></td>
      <td><input type="checkbox" aria-label=${`Key out at ${row.name}`} .checked=${row.keyOut ?? false} @change=${(e: Event) => change({ keyOut: (e.target as HTMLInputElement).checked })} /></td>
      ${
        this.bench
          ? nothing
          : this.terminals.map(
              (t) =>
                html`<td><input type="checkbox" aria-label=${`${t} joined at ${row.name}`} .checked=${(this.joined[row.name] ?? []).includes(t)} @change=${(e: Event) => this.mark(row.name, t, (e.target as HTMLInputElement).checked)} /></td>`,
            )
      }
      <td><button type="button" aria-label=${`Strike out ${row.name}`} @click=${() => {
        this.rows = this.rows.filter((_, j) => j !== k);
      }}>Strike out</button></td>
    </tr>`;
  }

  private mark(position: string, terminal: string, isJoined: boolean): void {
    const now = this.joined[position] ?? [];
    this.joined = { ...this.joined, [position]: isJoined ? [...now, terminal] : now.filter((t) => t !== terminal) };
  }

  private setTerminals = (e: Event): void => {
    this.terminals = [...new Set((e.target as HTMLInputElement).value.split(/[\s,;]+/).filter((t) => t !== ''))];
    this.readings = [];
  };

  private addRow = (): void => {
    const last = this.rows.at(-1);
    this.rows = [...this.rows, { name: `P${this.rows.length + 1}`, angle: (last?.angle ?? -30) + 30 }];
  };

  /** Every pair of terminals in every position, in the order in which a person turns the switch. */
  private get plan(): readonly { readonly position: string; readonly a: string; readonly b: string }[] {
    return this.rows.flatMap(({ name }) =>
      this.terminals.flatMap((a, k) => this.terminals.slice(k + 1).map((b) => ({ position: name, a, b }))),
    );
  }

  private benchPart() {
    const { plan, readings } = this;
    const next = plan[readings.length];
    const say = (said: BenchSaid) => () => this.read(said);
    return html`<div class="bench" tabindex="0" role="group" aria-label="Reading the bare switch" @keydown=${this.benchKeys}>
      <p role="status"><b>${next ? `Turn to ${next.position}; leads on ${next.a} and ${next.b}` : 'All pairs are read.'}</b></p>
      <p class="small quiet">Reading ${Math.min(readings.length + 1, plan.length)} of ${plan.length}. Keys: J joined, O open, N not sure, Backspace one back.</p>
      <div class="row">
        <button type="button" ?disabled=${!next} @click=${say('joined')}>Joined</button>
        <button type="button" ?disabled=${!next} @click=${say('open')}>Open</button>
        <button type="button" ?disabled=${!next} @click=${say('not sure')}>Not sure</button>
        <button type="button" ?disabled=${readings.length === 0} @click=${this.back}>One back</button>
      </div>
    </div>`;
  }

  private benchKeys = (e: KeyboardEvent): void => {
    const said = ({ j: 'joined', o: 'open', n: 'not sure' } as const)[e.key.toLowerCase() as 'j' | 'o' | 'n'];
    if (said && this.plan[this.readings.length]) this.read(said);
    else if (e.key === 'Backspace') this.back();
    else return;
    e.preventDefault();
  };

  private read(said: BenchSaid): void {
    this.readings = [...this.readings, { ...this.plan[this.readings.length]!, said }];
    void askEdit('key', { rows: this.rows, terminals: this.terminals, readings: this.readings }).then(({ unclear }) => {
      this.unclear = this.plan[this.readings.length] ? [] : unclear;
    });
  }

  private back = (): void => {
    this.readings = this.readings.slice(0, -1);
    this.unclear = [];
  };

  private add = async (e: SubmitEvent): Promise<void> => {
    e.preventDefault();
    const data = new FormData(e.target as HTMLFormElement);
    const { rows, terminals, readings } = this;
    const joined = Object.fromEntries(rows.map((r) => [r.name, [this.joined[r.name] ?? []]]));
    const { held, unclear } = await askEdit('key', this.bench ? { rows, terminals, readings } : { rows, joined });
    this.unclear = unclear;
    const id = textOf(data, 'id');
    const { kind, ...rest } = held;
    const named = { kind, ...(textOf(data, 'name') !== '' && { name: textOf(data, 'name') }), ...rest };
    const wires = terminals.flatMap((t): Step[] => {
      const to = textOf(data, `t-${t}`);
      return to === '' ? [] : [{ do: 'wire', wire: { from: `${id}.${t}`, to, ...sizes(data) } }];
    });
    const said = `${id} added${unclear.length > 0 ? `, ${unclear.length} pairs are not clear` : ''}`;
    this.dispatchEvent(new CustomEvent('steps', { detail: { steps: [{ do: 'part', id, held: named }, ...wires], said } }));
  };
}
