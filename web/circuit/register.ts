import { define } from '../define.ts';
import { CircuitView } from './CircuitView.ts';
import { FitForm } from './FitForm.ts';
import { GuidedForms } from './GuidedForms.ts';
import { KeySwitchForm } from './KeySwitchForm.ts';

const tags: Readonly<Record<string, CustomElementConstructor>> = {
  'detent-circuit': CircuitView,
  'detent-guided': GuidedForms,
  'detent-fit': FitForm,
  'detent-key-form': KeySwitchForm,
};

export function registerCircuitView(): void {
  define(tags);
}
