import { html, type TemplateResult } from 'lit';
import type { Desk } from '../Desk.ts';
import type { View } from '../session/session.ts';

export type ViewEntry = {
  readonly view: View;
  readonly word: string;
  /** On the foot of a narrow screen. */
  readonly short: string;
  readonly render: (desk: Desk) => TemplateResult;
};

/**
 * The views in the order of their tabs. Each is one element that takes `session` and `answers` down, asks the worker
 * through `ask`, and speaks up by the events `say` and `wish`.
 */
export const viewList: readonly ViewEntry[] = [
  {
    view: 'bench',
    word: 'Bench',
    short: 'Bench',
    render: (desk) =>
      html`<detent-bench .session=${desk.session} .answers=${desk.answers} .ask=${desk.ask.bind(desk)} .told=${desk.announcement}></detent-bench>`,
  },
  {
    view: 'cause',
    word: 'Find the cause',
    short: 'Cause',
    render: (desk) => html`<detent-find .session=${desk.session} .answers=${desk.answers} .ask=${desk.ask.bind(desk)}></detent-find>`,
  },
  {
    view: 'drain',
    word: 'Drain',
    short: 'Drain',
    render: (desk) => html`<detent-drain .session=${desk.session} .answers=${desk.answers}></detent-drain>`,
  },
  {
    view: 'practise',
    word: 'Practise',
    short: 'Practise',
    render: (desk) => html`<detent-practise .session=${desk.session} .answers=${desk.answers}></detent-practise>`,
  },
  {
    view: 'sheet',
    word: 'Job sheet',
    short: 'Sheet',
    render: (desk) => html`<detent-sheet .session=${desk.session} .answers=${desk.answers}></detent-sheet>`,
  },
  {
    view: 'circuit',
    word: 'Circuit',
    short: 'Circuit',
    render: (desk) => html`<detent-circuit .session=${desk.session} .answers=${desk.answers}></detent-circuit>`,
  },
];
