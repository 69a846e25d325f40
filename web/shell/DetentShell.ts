import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import type { Desk } from '../Desk.ts';
import { later } from '../later.ts';
import { controls } from '../looks/controls.ts';
import type { Wish } from '../say.ts';
import type { Message } from '../session/update.ts';
import { openFile, saveCircuit, saveJob, saveText } from './files.ts';
import { changeTheme, shownTheme, systemDark } from './theme.ts';
import { type ViewEntry, viewList } from './viewList.ts';

/**
 * Bar, views and dialogs around one desk.
 * Keys: Ctrl+Z undo, Ctrl+Shift+Z or Ctrl+Y redo, ? the sheet of keys.
 */
export class DetentShell extends LitElement {
  static override properties = { desk: { attribute: false } };
  declare desk: Desk | undefined;
  private unlisten: (() => void) | undefined;
  private dialog: 'library' | 'jobs' | 'help' | 'menu' | undefined;

  static override styles = [
    controls,
    css`
      :host {
        display: grid;
        grid-template-rows: auto 1fr;
        grid-template-columns: minmax(0, 1fr); /* a long title is cut short, it does not widen the page */
        height: 100dvh;
      }
      header {
        display: flex;
        align-items: stretch;
        gap: 16px;
        height: 56px;
        padding: 0 20px;
        background: var(--sheet);
        border-bottom: 2px solid var(--ink);
      }
      .mark {
        display: flex;
        align-items: center;
        gap: 8px;
        font-size: 24px;
        line-height: 1;
        font-weight: 700;
      }
      .mark svg {
        width: 32px;
        height: 32px;
      }
      .mark path {
        fill: none;
        stroke: var(--ink);
        stroke-width: 2.4;
      }
      .mark .notch {
        fill: var(--ink);
      }
      .job {
        align-self: center;
        text-align: left;
        line-height: 1.15;
        min-width: 0;
        max-width: 300px;
        padding: 4px 8px;
        font-size: 15px;
      }
      .job b,
      .job .small {
        display: block;
        overflow: hidden;
        text-overflow: ellipsis;
        white-space: nowrap;
      }
      nav {
        display: flex;
        gap: 12px;
        margin: 0 auto 0 12px;
      }
      nav button {
        font-size: 18px;
        font-weight: 500;
        border: 0;
        border-radius: 0;
        background: none;
        padding: 0 10px;
        white-space: nowrap;
      }
      nav button[aria-current='page'] {
        font-weight: 700;
        box-shadow: inset 0 -5px var(--ink);
      }
      .actions {
        display: flex;
        align-items: center;
        gap: 6px;
      }
      .actions button {
        font-size: 15px;
      }
      .foot,
      .menu {
        display: none;
      }
      main {
        min-height: 0;
        min-width: 0;
        overflow: auto;
      }
      main > * {
        height: 100%;
      }
      .fetching {
        display: grid;
        gap: 12px;
        align-content: start;
        justify-items: start;
        padding: 20px;
      }
      dialog {
        border: 2px solid var(--ink);
        border-radius: 0;
        background: var(--paper);
        color: var(--ink);
        width: min(720px, calc(100vw - 24px));
        max-height: calc(100dvh - 48px);
        padding: 0;
      }
      dialog::backdrop {
        background: light-dark(rgb(21 32 43 / 40%), rgb(0 0 0 / 60%));
      }
      .conflict {
        position: sticky;
        bottom: 0;
        z-index: 6;
        display: flex;
        flex-wrap: wrap;
        gap: 12px;
        align-items: center;
        padding: 12px 20px;
        background: var(--tagtint);
        border-top: 2px solid var(--tag);
      }
      .menulist {
        display: grid;
        gap: 8px;
        padding: 16px;
      }
      @media (max-width: 1199.9px) {
        .mark span {
          display: none;
        }
        .job {
          max-width: 200px;
        }
        nav {
          gap: 2px;
        }
        .actions .spare {
          display: none;
        }
        .menu {
          display: block;
        }
      }
      @media (max-width: 899.9px) {
        :host {
          grid-template-rows: auto 1fr auto;
        }
        header {
          height: 52px;
          padding: 0 16px;
          padding-left: max(16px, env(safe-area-inset-left));
        }
        .mark,
        nav.tabs,
        .actions > :not(.menu) {
          display: none;
        }
        .job {
          padding: 0;
          max-width: none;
          flex: 1;
          font-size: 17px;
        }
        .foot {
          display: flex;
          margin: 0;
          gap: 0;
          background: var(--sheet);
          border-top: 2px solid var(--ink);
          padding-bottom: env(safe-area-inset-bottom);
        }
        .foot button {
          flex: 1 1 auto;
          height: 58px;
          padding: 0 2px;
          font-size: 16px;
        }
        .foot button + button {
          border-left: 1px solid var(--rule);
        }
        .foot button[aria-current='page'] {
          background: var(--ink);
          color: var(--sheet);
          box-shadow: none;
        }
      }
      @media print {
        header,
        .foot,
        .conflict {
          display: none;
        }
        :host {
          display: block;
          height: auto;
        }
        main {
          overflow: visible;
        }
      }
    `,
  ];

  override connectedCallback(): void {
    super.connectedCallback();
    this.addEventListener('say', this.onSay);
    this.addEventListener('wish', this.onWish);
    addEventListener('keydown', this.onKeys);
    systemDark.addEventListener('change', this.anew);
  }
  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.unlisten?.();
    removeEventListener('keydown', this.onKeys);
    systemDark.removeEventListener('change', this.anew);
  }
  override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('desk') || !this.desk) return;
    this.unlisten?.();
    this.unlisten = this.desk.listen(this.anew);
  }

  override render() {
    const { desk } = this;
    if (!desk) return nothing;
    const { session, answers, history } = desk;
    const title = session.job.notes.vehicle || answers.circuit?.circuit?.title || 'No circuit yet';
    const view = viewList.find((v) => v.view === session.view) ?? viewList[0]!;
    return html`
      <header>
        <h1 class="unseen">Detent</h1>
        <div class="mark" aria-hidden="true">
          <svg viewBox="0 0 32 32" aria-hidden="true"><path d="M3 15A17 17 0 0 1 29 15M16 11V27"></path><path class="notch" d="M11.5 4H20.500L16 11Z"></path></svg>
          <span>Detent</span>
        </div>
        <button class="job plain" @click=${() => this.open('jobs')} title="Change job or circuit">
          <span class="unseen">Job: </span><b>${title}</b><span class="small quiet">${this.jobLine()}</span>
        </button>
        <nav class="tabs" aria-label="Views">${this.tabs(false)}</nav>
        <div class="actions">
          <button class="low" ?disabled=${history.past.length === 0} @click=${() => desk.undo()}>Undo</button>
          <button class="low spare" ?disabled=${history.future.length === 0} @click=${() => desk.redo()}>Redo</button>
          <button class="low spare" @click=${() => print()}>Print</button>
          <button class="low spare" @click=${() => this.open('help')}>Keys</button>
          <button class="low" @click=${this.onTheme}>${shownTheme() === 'dark' ? 'Light' : 'Dark'}</button>
          <button class="menu" @click=${() => this.open('menu')}>Menu</button>
        </div>
      </header>
      <main>${this.shown(view, desk)}</main>
      <nav class="foot" aria-label="Views, foot">${this.tabs(true)}</nav>
      <p class="unseen" role="status" aria-live="polite">${desk.announcement}</p>
      ${desk.conflict ? this.conflict(desk) : nothing} ${desk.unkept ? this.unkept(desk, desk.unkept.why) : nothing}
      ${desk.unread.length > 0 ? this.unread(desk) : nothing} ${this.dialogs(desk)}
    `;
  }

  private shown({ view, word, render }: ViewEntry, desk: Desk) {
    return view === 'bench' ? render(desk) : later(this, view, word, () => render(desk));
  }

  private jobLine(): string {
    const job = this.desk?.job;
    if (!job) return '';
    const [, month, day] = job.day.split('-').map(Number);
    const names = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
    const when = `job of ${day} ${names[(month ?? 1) - 1]}`;
    return job.faults.length === 0 ? when : `${when}, ${job.faults.length} hang-tag${job.faults.length === 1 ? '' : 's'}`;
  }

  private tabs(short: boolean) {
    return viewList.map(
      (v) =>
        html`<button aria-current=${this.desk?.session.view === v.view ? 'page' : 'false'} @click=${() => this.desk?.send({ do: 'view', view: v.view })}>${short ? v.short : v.word}</button>`,
    );
  }

  private conflict(desk: Desk) {
    return html`<section class="conflict" role="alertdialog" aria-label="Two tabs changed this job">
      <p><b>Another tab changed this job too.</b> Nothing is lost: choose which stays on this desk.</p>
      <button @click=${() => desk.settle('theirs')}>Take the other tab's</button>
      <button @click=${() => desk.settle('mine as another job')}>Keep mine as another job</button>
    </section>`;
  }

  private unkept(desk: Desk, why: string) {
    return html`<section class="conflict" role="alert" aria-label="Not kept">
      <p><b>This job is not kept:</b> ${why}. Save it as a file before you leave.</p>
      <button @click=${() => void saveJob(desk)}>Save job file</button>
      <button @click=${() => desk.keepAgain()}>${desk.forgets ? 'Go on without' : 'Try again'}</button>
    </section>`;
  }

  private unread(desk: Desk) {
    const many = desk.unread.length;
    const [first] = desk.unread;
    return html`<section class="conflict" role="alert" aria-label="Kept jobs that cannot be shown">
      <p><b>${many === 1 ? first!.what : `${many} kept jobs cannot be shown`}:</b> ${first!.why}. ${first!.mend.join('; ')}.</p>
      <button @click=${() => saveText('kept-jobs.json', desk.unread.map((u) => u.text).join('\n'))}>Save as a file</button>
      <button @click=${() => desk.setAsideUnread()}>Leave it for now</button>
    </section>`;
  }

  private dialogs(desk: Desk) {
    const close = () => this.close();
    switch (this.dialog) {
      case 'library':
      case 'jobs':
        return html`<dialog aria-label="Jobs and circuits" @close=${close}>
          ${later(this, 'dialogs', 'Jobs and circuits', () => html`<detent-jobs .desk=${desk} @done=${close}></detent-jobs>`)}
        </dialog>`;
      case 'help':
        return html`<dialog aria-label="Keys" @close=${close}>${later(this, 'dialogs', 'Keys', () => html`<detent-keys @done=${close}></detent-keys>`)}</dialog>`;
      case 'menu':
        return html`<dialog aria-label="Menu" @close=${close}>
          <div class="menulist">
            ${this.menuEntry('Job and circuit', 'jobs')} ${this.menuEntry('Undo', 'undo', desk.history.past.length > 0)} ${this.menuEntry('Redo', 'redo', desk.history.future.length > 0)}
            ${this.menuEntry('Print', 'print')} ${this.menuEntry(shownTheme() === 'dark' ? 'Light' : 'Dark', 'theme')}
            ${this.menuEntry('Keys', 'help')}
            <button @click=${close}>Close</button>
          </div>
        </dialog>`;
      default:
        return nothing;
    }
  }

  private menuEntry(word: string, wished: Wish, isAble = true) {
    return html`<button ?disabled=${!isAble} @click=${() => {
      this.close();
      this.grant(wished);
    }}>${word}</button>`;
  }

  override updated(): void {
    const dialog = this.renderRoot.querySelector('dialog');
    if (dialog && !dialog.open) dialog.showModal();
  }

  private open(dialog: DetentShell['dialog']): void {
    this.dialog = dialog;
    this.requestUpdate();
  }
  private close(): void {
    this.dialog = undefined;
    this.requestUpdate();
  }

  private readonly anew = (): void => this.requestUpdate();
  private readonly onSay = (e: Event): void => this.desk?.send((e as CustomEvent<Message>).detail);
  private readonly onWish = (e: Event): void => this.grant((e as CustomEvent<Wish>).detail);
  private readonly onTheme = (): void => {
    changeTheme();
    this.anew();
  };

  private grant(wished: Wish): void {
    const { desk } = this;
    if (!desk) return;
    if (wished === 'library' || wished === 'jobs' || wished === 'help') this.open(wished);
    else if (wished === 'undo') desk.undo();
    else if (wished === 'redo') desk.redo();
    else if (wished === 'print') print();
    else if (wished === 'theme') this.onTheme();
    else if (wished === 'save-circuit') saveCircuit(desk);
    else if (wished === 'save-job') void saveJob(desk);
    else if (wished === 'open-file') openFile(desk);
    else if (wished === 'copy-link') void navigator.clipboard.writeText(location.href);
  }

  private readonly onKeys = (e: KeyboardEvent): void => {
    const key = e.key.toLowerCase();
    const writes = e
      .composedPath()
      .some((t) => t instanceof HTMLInputElement || t instanceof HTMLTextAreaElement || t instanceof HTMLSelectElement);
    if ((e.ctrlKey || e.metaKey) && (key === 'z' || key === 'y') && !writes) {
      if (key === 'y' || e.shiftKey) this.desk?.redo();
      else this.desk?.undo();
      e.preventDefault();
    } else if (e.key === '?' && !writes) this.open('help');
  };
}
