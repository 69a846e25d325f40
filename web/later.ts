import { html, type LitElement, type TemplateResult } from 'lit';

/** Elements that are fetched when they are first shown, so that the first load goes without them. */
const fetches = {
  cause: () => import('./find/register.ts').then((m) => m.registerFindView()),
  drain: () => import('./drain/register.ts').then((m) => m.registerDrainView()),
  practise: () => import('./practise/register.ts').then((m) => m.registerPractiseView()),
  sheet: () => import('./sheet/register.ts').then((m) => m.registerSheetView()),
  circuit: () => import('./circuit/register.ts').then((m) => m.registerCircuitView()),
  dialogs: () => import('./shell/registerDialogs.ts').then((m) => m.registerDialogs()),
  tools: () => import('./bench/registerTools.ts').then((m) => m.registerTools()),
} as const;
export type Later = keyof typeof fetches;
const states = new Map<Later, 'under way' | 'here' | 'failed'>();

/**
 * What is drawn with elements that may have to be fetched first; until they are here, or when they cannot be had, words
 * in their place. @param name as the words call it
 */
export function later(host: LitElement, which: Later, name: string, drawn: () => TemplateResult): TemplateResult {
  const state = states.get(which) ?? fetched(host, which);
  if (state === 'here') return drawn();
  if (state === 'under way') return html`<p class="fetching quiet">Opening ${name}...</p>`;
  return html`<div class="fetching" role="alert">
    <p><b>${name} could not be fetched.</b> Nothing is lost, and what was opened before still works.</p>
    <button @click=${() => {
      fetched(host, which);
      host.requestUpdate();
    }}>Try again</button>
  </div>`;
}

function fetched(host: LitElement, which: Later): 'under way' {
  const ended = (as: 'here' | 'failed') => () => {
    states.set(which, as);
    host.requestUpdate();
  };
  states.set(which, 'under way');
  fetches[which]().then(ended('here'), ended('failed'));
  return 'under way';
}
