import { html, type TemplateResult } from 'lit';
import { haloRing } from '../bench/drawnMarks.ts';

/** The halo of the drawing, small, before a per cent in a list. */
export const ring = (share: number, size = 32): TemplateResult =>
  html`<svg class="ring" width=${size} height=${size} viewBox="0 0 36 36" aria-hidden="true">${haloRing(18, 18, 14, share)}</svg>`;

export const percent = (p: number): string => (p > 0.995 ? 'over 99 %' : p < 0.01 ? 'under 1 %' : `${Math.round(100 * p)} %`);
