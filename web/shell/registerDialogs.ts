import { define } from '../define.ts';
import { JobsPanel } from './JobsPanel.ts';
import { KeysSheet } from './KeysSheet.ts';

export function registerDialogs(): void {
  define({ 'detent-jobs': JobsPanel, 'detent-keys': KeysSheet });
}
