import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import type { Chosen } from '../chooser/LibraryChooser.ts';
import { loadChooser } from '../chooser/load.ts';
import type { Desk } from '../Desk.ts';
import { controls } from '../looks/controls.ts';
import { say, wish } from '../say.ts';
import type { KeptJob } from '../session/keep.ts';

/**
 * Jobs on the shelf, circuits of the library, files in and out.
 * @fires done - the panel may close
 */
export class JobsPanel extends LitElement {
  static override properties = { desk: { attribute: false }, kept: { state: true } };
  declare desk: Desk | undefined;
  declare kept: readonly KeptJob[];

  constructor() {
    super();
    this.kept = [];
  }

  static override styles = [
    controls,
    css`
      section {
        padding: 16px 20px;
        border-bottom: 1px solid var(--rule);
        display: grid;
        gap: 8px;
      }
      .head {
        display: flex;
        align-items: center;
        justify-content: space-between;
        gap: 12px;
      }
      li {
        display: flex;
        gap: 6px;
      }
      ul {
        display: grid;
        gap: 6px;
      }
      li > button:first-child {
        flex: 1;
        text-align: left;
      }
      li button span {
        display: block;
        font-weight: 500;
        font-size: 14px;
      }
      label {
        font-weight: 600;
      }
    `,
  ];

  override connectedCallback(): void {
    super.connectedCallback();
    loadChooser();
  }
  override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('desk')) void this.refresh();
  }
  private async refresh(): Promise<void> {
    this.kept = (await this.desk?.jobs()) ?? [];
  }

  override render() {
    const { desk } = this;
    if (!desk) return nothing;
    const { job } = desk;
    const current = job.circuit.from === 'library' ? job.circuit.name : undefined;
    return html`
      <section>
        <div class="head">
          <h2>This job</h2>
          <button @click=${this.done}>Close</button>
        </div>
        <label>Vehicle <input type="text" .value=${job.notes.vehicle} @input=${(e: InputEvent) =>
          say(this, { do: 'notes', notes: { vehicle: (e.target as HTMLInputElement).value }, gesture: 'vehicle' })} /></label>
        <div class="row">
          <button @click=${() => wish(this, 'save-job')}>Save job file</button>
          <button @click=${() => wish(this, 'save-circuit')}>Save circuit file</button>
          <button @click=${() => wish(this, 'open-file')}>Open a file</button>
          <button @click=${() => wish(this, 'copy-link')} ?disabled=${job.circuit.from === 'file'}>Copy link</button>
        </div>
      </section>
      <section>
        <h2>Kept jobs</h2>
        ${this.kept.length === 0 ? html`<p class="quiet">None yet. A job is kept from its first change on.</p>` : nothing}
        <ul>
          ${this.kept.map(
            (kept) => html`<li>
              <button @click=${() => this.take(kept.id)} aria-current=${kept.id === job.id}>
                ${kept.job.notes.vehicle || (kept.job.circuit.from === 'library' ? this.titleOf(kept.job.circuit.name) : kept.job.circuit.name)}
                <span class=${kept.id === job.id ? '' : 'quiet'}>${kept.job.day}${kept.job.notes.complaint === '' ? '' : `, ${kept.job.notes.complaint}`}${
                  kept.job.faults.length === 0 ? '' : `, ${kept.job.faults.join(', ')}`
                }</span>
              </button>
              <button ?disabled=${kept.id === job.id} @click=${() => this.drop(kept.id)} aria-label="Delete the job of ${kept.job.day}">Delete</button>
            </li>`,
          )}
        </ul>
      </section>
      <section>
        <h2>Begin a job with a circuit of the library</h2>
        <detent-library .current=${current} @chosen=${(e: CustomEvent<Chosen>) => this.choose(e.detail)}>
        <!-- Shown until the list with its pictures has arrived. -->
        <ul>
          ${desk.answers.library.map(
            (entry) => html`<li>
              <button @click=${() => this.begin(entry.name)} aria-current=${entry.name === current}>
                ${entry.title}<span class=${entry.name === current ? '' : 'quiet'}>${entry.about}</span>
              </button>
            </li>`,
          )}
        </ul>
        </detent-library>
      </section>
    `;
  }

  private titleOf(name: string): string {
    return this.desk?.answers.library.find((e) => e.name === name)?.title ?? name;
  }
  private begin(name: string): void {
    this.choose({ name });
  }
  /** A story is played on the bench with its fault in; a job is laid on the desk with what was found. */
  private choose({ name, story, job }: Chosen): void {
    const { desk } = this;
    if (!desk) return;
    desk.beginJob({ from: 'library', name });
    if (story) {
      if (story.fault !== '') desk.send({ do: 'faults', faults: [story.fault] });
      desk.send({ do: 'more', name: 'story', value: story.story });
      desk.send({ do: 'look', look: { playing: true } });
    }
    if (job) {
      desk.send({ do: 'notes', notes: job });
      desk.send({ do: 'view', view: 'cause' });
    }
    this.done();
  }
  private take(id: string): void {
    void this.desk?.openJob(id);
    this.done();
  }
  private async drop(id: string): Promise<void> {
    await this.desk?.dropJob(id);
    await this.refresh();
  }
  private done(): void {
    this.dispatchEvent(new CustomEvent('done'));
  }
}
