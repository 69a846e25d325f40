import { html, LitElement, nothing, type PropertyValues } from 'lit';
import type { Step } from '../../src/circuit/edit/steps.ts';
import { controls } from '../looks/controls.ts';
import type { EditCalls, KindForm } from './editCalls.ts';
import { askEdit } from './editDesk.ts';
import { formStyles } from './formStyles.ts';

export type FormName = 'part' | 'wire' | 'key' | 'change' | 'fit' | 'skeleton';
type Ends = EditCalls['ends']['gives'];

/** Sizes that are sold, mm². */
const areas = ['0.5', '0.75', '1', '1.5', '2.5', '4', '6', '10', '16', '25', '35'];
const colours = 'BK BN RD OG YE GN BU VT GY WH PK TQ'.split(' ');

/**
 * The guided way to a circuit: a part with the wires at its terminals, a single wire, a change. Every form writes steps
 * into the same text.
 *
 * @fires steps - detail: { steps: Step[], said: string }
 * @fires whole - detail: a text that takes the place of the file (a skeleton)
 * @fires fitted - detail: the text with fitted figures
 * Keys: all fields are native; Enter submits, and the form is ready for the next.
 */
export class GuidedForms extends LitElement {
  static override properties = {
    form: { type: String },
    text: { attribute: false },
    kinds: { state: true },
    ends: { state: true },
    kind: { state: true },
    terminals: { state: true },
    skeletons: { state: true },
    skeleton: { state: true },
  };
  declare form: FormName;
  declare text: string;
  declare kinds: readonly KindForm[];
  declare ends: Ends;
  declare kind: string;
  declare terminals: readonly string[];
  declare skeletons: EditCalls['skeletons']['gives'];
  declare skeleton: string;

  constructor() {
    super();
    this.form = 'part';
    this.text = '';
    this.kinds = [];
    this.ends = { ends: [], ids: [], next: {} };
    this.kind = '';
    this.terminals = [];
    this.skeletons = [];
    this.skeleton = '';
  }

  static override styles = [controls, formStyles];

  override connectedCallback(): void {
    super.connectedCallback();
    void askEdit('kinds', undefined).then((kinds) => {
      this.kinds = kinds;
    });
    void askEdit('skeletons', undefined).then((skeletons) => {
      this.skeletons = skeletons;
      this.skeleton = skeletons[0]?.name ?? '';
    });
  }

  override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('text')) return;
    const { text } = this;
    void askEdit('ends', { text }).then((ends) => {
      if (this.text === text) this.ends = ends;
    });
  }

  override render() {
    return html`
      <datalist id="ends">${this.ends.ends.map((e) => html`<option value=${e.end}>${e.what}</option>`)}</datalist>
      <datalist id="ids">${this.ends.ids.map((e) => html`<option value=${e.id}>${e.what}</option>`)}</datalist>
      <datalist id="kinds">${this.kinds.map((k) => html`<option value=${k.kind}>${k.about}</option>`)}</datalist>
      <datalist id="areas">${areas.map((a) => html`<option value=${a}></option>`)}</datalist>
      <datalist id="colours">${colours.map((c) => html`<option value=${c}></option>`)}</datalist>
      ${this.form === 'part' ? this.partForm() : nothing} ${this.form === 'wire' ? this.wireForm() : nothing}
      ${this.form === 'key' ? html`<detent-key-form .ends=${this.ends} @steps=${(e: CustomEvent) => this.pass(e)}></detent-key-form>` : nothing}
      ${this.form === 'fit' ? html`<detent-fit .text=${this.text} @whole=${(e: CustomEvent<string>) => this.dispatchEvent(new CustomEvent('fitted', { detail: e.detail }))}></detent-fit>` : nothing}
      ${this.form === 'change' ? this.changeForms() : nothing} ${this.form === 'skeleton' ? this.skeletonForm() : nothing}
    `;
  }

  private pass(e: CustomEvent): void {
    e.stopPropagation();
    this.dispatchEvent(new CustomEvent('steps', { detail: e.detail }));
  }

  private partForm() {
    const kind = this.kinds.find((k) => k.kind === this.kind);
    const required = Object.entries(kind?.required ?? {});
    const others = kind?.parameters.filter((p) => !Object.hasOwn(kind.required, p.name)) ?? [];
    // What a kind lists first is what people know of it.
    const [often, rest] = [others.slice(0, 2), others.slice(2)];
    const field = (p: (typeof others)[number]) => {
      // Where only some words are taken, they are offered.
      const words = p.written === 'yes or no' ? ['yes', 'no'] : /^[\w-]+(, [\w-]+)+$/.test(p.written) ? p.written.split(', ') : [];
      return html`<label title=${p.about}>${p.name} <input name=${`p-${p.name}`} autocomplete="off" list=${`words-${p.name}`} placeholder=${p.default ?? p.written} /></label>
        <datalist id=${`words-${p.name}`}>${words.map((word) => html`<option value=${word}></option>`)}</datalist>`;
    };
    return html`<form @submit=${this.addPart} @change=${this.askTerminals}>
      <h3>Add a part</h3>
      <div class="fields">
        <label>Kind <input name="kind" list="kinds" required autocomplete="off" .value=${this.kind} @input=${this.chooseKind} aria-describedby="about" /></label>
        <label>Id <input name="id" required autocomplete="off" /></label>
        <label>Name <input name="name" autocomplete="off" /></label>
        ${required.map(([name, example]) => html`<label>${name} <input name=${`p-${name}`} required autocomplete="off" .defaultValue=${example} /></label>`)}
        ${often.map(field)}
      </div>
      <p class="small quiet" id="about">${kind ? kind.about : 'Type what it is: battery, lamp, relay. A box of which only the current is known is an unknown-load.'}</p>
      ${
        this.terminals.length > 0
          ? html`<fieldset>
              <legend>Wires at its terminals, where they are known</legend>
              <div class="fields">
                ${this.terminals.map((t) => html`<label>${t} to <input name=${`t-${t}`} list="ends" autocomplete="off" /></label>`)}
                ${this.wireFields()}
              </div>
            </fieldset>`
          : nothing
      }
      ${
        rest.length > 0
          ? html`<details>
              <summary>What else may be said of it</summary>
              <div class="fields">${rest.map(field)}</div>
            </details>`
          : nothing
      }
      <div class="row"><button class="main" type="submit">Add the part</button></div>
    </form>`;
  }

  private wireFields() {
    return html`<label>Area, mm² <input name="area" list="areas" inputmode="decimal" autocomplete="off" /></label>
      <label>Length, m <input name="length" inputmode="decimal" autocomplete="off" placeholder="unknown" /></label>
      <label>Colour <input name="colour" list="colours" autocomplete="off" /></label>`;
  }

  private chooseKind = (e: Event): void => {
    this.kind = (e.target as HTMLInputElement).value.trim();
    const kind = this.kinds.find((k) => k.kind === this.kind);
    if (!kind) {
      this.terminals = [];
      return;
    }
    const id = this.renderRoot.querySelector<HTMLInputElement>('input[name=id]');
    // A splice and a ground point have letters of their own by habit.
    const letter = kind.kind === 'splice' ? 'J' : kind.letter;
    if (id) id.value = this.ends.next[letter] ?? '';
    void this.updateComplete.then(() => this.askTerminals());
  };

  private askTerminals = (): void => {
    const form = this.renderRoot.querySelector('form');
    const { kind } = this;
    if (!form || !this.kinds.some((k) => k.kind === kind)) return;
    void askEdit('terminals', { typed: typedIn(new FormData(form)) }).then((terminals) => {
      if (this.kind === kind) this.terminals = terminals;
    });
  };

  private addPart = async (e: SubmitEvent): Promise<void> => {
    e.preventDefault();
    const form = e.target as HTMLFormElement;
    const data = new FormData(form);
    const id = textOf(data, 'id');
    const held = await askEdit('typed', { typed: typedIn(data) });
    const wires = this.terminals.flatMap((t): Step[] => {
      const to = textOf(data, `t-${t}`);
      const from = this.terminals.length === 1 ? id : `${id}.${t}`;
      return to === '' ? [] : [{ do: 'wire', wire: { from, to, ...sizes(data) } }];
    });
    this.tell(
      [{ do: 'part', id, held }, ...wires],
      `${id} added${wires.length === 0 ? '' : ` with ${wires.length} ${wires.length === 1 ? 'wire' : 'wires'}`}`,
    );
    form.reset();
    this.kind = '';
    this.terminals = [];
    form.querySelector('input')?.focus();
  };

  private wireForm() {
    return html`<form @submit=${this.addWire}>
      <h3>Wire from ... to ...</h3>
      <div class="fields">
        <label>From <input name="from" list="ends" required autocomplete="off" /></label>
        <label>To <input name="to" list="ends" required autocomplete="off" /></label>
        ${this.wireFields()}
        <label>Id <input name="id" autocomplete="off" placeholder=${this.ends.next['W'] ?? 'W1'} /></label>
        <label>Through pins <input name="via" autocomplete="off" placeholder="X2.1" /></label>
      </div>
      <p class="small quiet">A wire without area and length is an ideal joint. Where only one is known, write the other as it is: unknown.</p>
      <div class="row"><button class="main" type="submit">Add the wire</button></div>
    </form>`;
  }

  private addWire = (e: SubmitEvent): void => {
    e.preventDefault();
    const form = e.target as HTMLFormElement;
    const data = new FormData(form);
    const via = textOf(data, 'via')
      .split(/[\s,]+/)
      .filter((p) => p !== '');
    const [from, to, id] = ['from', 'to', 'id'].map((key) => textOf(data, key)) as [string, string, string];
    this.tell([{ do: 'wire', wire: { ...(id !== '' && { id }), from, to, ...sizes(data), via } }], `wire from ${from} to ${to} added`);
    form.reset();
    form.querySelector('input')?.focus();
  };

  private changeForms() {
    const submit = (steps: (data: FormData) => { steps: readonly Step[]; said: string }) => (e: SubmitEvent) => {
      e.preventDefault();
      const form = e.target as HTMLFormElement;
      const { steps: list, said } = steps(new FormData(form));
      this.tell(list, said);
      form.reset();
    };
    const id = html`<label>Part or wire <input name="id" list="ids" required autocomplete="off" /></label>`;
    return html`
      <form @submit=${submit((data) => ({
        steps: [{ do: 'set', id: textOf(data, 'id'), key: textOf(data, 'key'), held: textOf(data, 'held') || undefined }],
        said: `${textOf(data, 'key')} of ${textOf(data, 'id')} written`,
      }))}>
        <h3>Change a figure</h3>
        <div class="fields">${id}<label>Which <input name="key" required autocomplete="off" placeholder="rating" /></label>
          <label>To <input name="held" autocomplete="off" placeholder="empty takes it out" /></label></div>
        <div class="row"><button type="submit">Write it</button></div>
      </form>
      <form @submit=${submit((data) => ({
        steps: [{ do: 'rename', id: textOf(data, 'id'), into: textOf(data, 'into') }],
        said: `${textOf(data, 'id')} is called ${textOf(data, 'into')}`,
      }))}>
        <h3>Rename</h3>
        <div class="fields">${id}<label>Into <input name="into" required autocomplete="off" /></label></div>
        <div class="row"><button type="submit">Rename it</button></div>
      </form>
      <form @submit=${submit((data) => ({ steps: [{ do: 'remove', ids: [textOf(data, 'id')] }], said: `${textOf(data, 'id')} taken out` }))}>
        <h3>Take out</h3>
        <div class="fields">${id}</div>
        <p class="small quiet">A part goes with the wires that end at it.</p>
        <div class="row"><button type="submit">Take it out</button></div>
      </form>
      <form @submit=${submit((data) => ({ steps: engineSteps(data), said: 'engine written' }))}>
        <h3>Engine</h3>
        <div class="fields">
          <label>Cranked by <input name="crank" list="ids" required autocomplete="off" /></label>
          <label>Spark by <input name="spark" list="ids" autocomplete="off" /></label>
          <label>Fuel by <input name="fuel" list="ids" autocomplete="off" /></label>
          <label>Drives <input name="drives" list="ids" autocomplete="off" /></label>
        </div>
        <div class="row"><button type="submit">Write the engine</button></div>
      </form>
      <form @submit=${submit((data) => ({ steps: [{ do: 'head', key: 'title', held: textOf(data, 'title') }], said: 'title written' }))}>
        <h3>Title</h3>
        <div class="fields"><label>Title <input name="title" required autocomplete="off" /></label></div>
        <div class="row"><button type="submit">Write the title</button></div>
      </form>`;
  }

  private skeletonForm() {
    const chosen = this.skeletons.find((s) => s.name === this.skeleton);
    return html`<form @submit=${this.begin}>
      <h3>Begin with a vehicle of its kind</h3>
      <label>Kind of vehicle
        <select name="skeleton" @change=${(e: Event) => {
          this.skeleton = (e.target as HTMLSelectElement).value;
        }}>${this.skeletons.map((s) => html`<option value=${s.name}>${s.title}</option>`)}</select></label>
      <fieldset>
        <legend>Strike out what is not there</legend>
        ${chosen?.groups.map((g) => html`<label class="check"><input type="checkbox" name="has" .value=${g} checked /> ${g}</label>`)}
      </fieldset>
      <p class="small quiet">This takes the place of what stands in the editor; its own undo brings that back.</p>
      <div class="row"><button class="main" type="submit">Begin with it</button>
        <button type="button" @click=${() => this.dispatchEvent(new CustomEvent('whole', { detail: '' }))}>Begin with nothing</button></div>
    </form>`;
  }

  private begin = async (e: SubmitEvent): Promise<void> => {
    e.preventDefault();
    const has = new FormData(e.target as HTMLFormElement).getAll('has');
    const groups = this.skeletons.find((s) => s.name === this.skeleton)?.groups ?? [];
    const text = await askEdit('skeleton', { name: this.skeleton, without: groups.filter((g) => !has.includes(g)) });
    this.dispatchEvent(new CustomEvent('whole', { detail: text }));
  };

  private tell(steps: readonly Step[], said: string): void {
    this.dispatchEvent(new CustomEvent('steps', { detail: { steps, said } }));
  }
}

export const textOf = (data: FormData, name: string): string => {
  const held = data.get(name);
  return typeof held === 'string' ? held.trim() : '';
};

/** The fields of a part: its kind, name and parameters. */
function typedIn(data: FormData): Record<string, string> {
  const typed: Record<string, string> = { kind: textOf(data, 'kind') };
  if (textOf(data, 'name') !== '') typed['name'] = textOf(data, 'name');
  for (const key of data.keys()) if (key.startsWith('p-')) typed[key.slice(2)] = textOf(data, key);
  return typed;
}

/** A bare number gets the unit of its field; where only one of the two is known, the other is unknown. */
export function sizes(data: FormData): { area?: string; length?: string; colour?: string } {
  const withUnit = (text: string, unit: string) => (/^\d+([.,]\d+)?$/.test(text) ? `${text.replace(',', '.')} ${unit}` : text);
  const [area, length, colour] = [withUnit(textOf(data, 'area'), 'mm²'), withUnit(textOf(data, 'length'), 'm'), textOf(data, 'colour')];
  return {
    ...(area !== '' && { area }),
    ...(length !== '' ? { length } : area !== '' && { length: 'unknown' }),
    ...(colour !== '' && { colour }),
  };
}

function engineSteps(data: FormData): readonly Step[] {
  const list = (key: string) =>
    textOf(data, key)
      .split(/[\s,]+/)
      .filter((id) => id !== '');
  return [
    { do: 'head', key: 'engine', held: { crank: textOf(data, 'crank'), spark: list('spark'), fuel: list('fuel'), drives: list('drives') } },
  ];
}
