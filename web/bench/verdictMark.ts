import { svg } from 'lit';
import type { Mark } from '../../src/report/positionRows.ts';

/** The five marks of a verdict, 15 px, in the colour of the text beside them. */
export function verdictMark(mark: Mark) {
  if (mark === 'none') return svg``;
  return svg`<svg class="mark" width="15" height="15" viewBox="-7.5 -7.5 15 15" aria-hidden="true" fill="none" stroke="currentColor" stroke-width="1.8">${shapes[mark]}</svg>`;
}

const shapes: Readonly<Record<Exclude<Mark, 'none'>, ReturnType<typeof svg>>> = {
  full: svg`<circle r="5.6" fill="currentColor" stroke="none"></circle>`,
  half: svg`<circle r="5"></circle><path d="M-5 0A5 5 0 0 0 5 0Z" fill="currentColor" stroke="none"></path>`,
  struck: svg`<circle r="4.8"></circle><path d="M-5.500 5.500L5.500 -5.500"></path>`,
  hooked: svg`<circle cx="1.500" cy="-1.500" r="4.600" fill="currentColor" stroke="none"></circle><path d="M-1 1.500L-6 6.500V1.500"></path>`,
  dash: svg`<path d="M-4 0H4"></path>`,
};
