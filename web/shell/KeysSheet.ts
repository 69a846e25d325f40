import { css, html, LitElement } from 'lit';
import { controls } from '../looks/controls.ts';

const keys: readonly (readonly [string, readonly (readonly [string, string])[]])[] = [
  [
    'Everywhere',
    [
      ['Tab', 'next control'],
      ['Ctrl Z', 'undo'],
      ['Ctrl Shift Z', 'redo'],
      ['?', 'this sheet'],
      ['Esc', 'close a dialog or the list of faults'],
    ],
  ],
  [
    'Key chart',
    [
      ['Arrows', '1° on or back; with Shift 5°'],
      ['Page Up, Page Down', 'next detent'],
      ['Home, End', 'first and last position'],
      ['Esc', 'let go: the spring returns the key'],
      ['Space on START', 'holds it as long as the key is down'],
    ],
  ],
  [
    'Drawing',
    [
      ['Arrows', 'from part to part'],
      ['Enter', 'choose: its feed and return stand out'],
      ['F', 'to the list of its faults'],
      ['A, B', 'red or black lead to the next terminal of the part'],
      ['+, −, 0', 'zoom in, out, whole drawing'],
      ['/', 'search'],
    ],
  ],
  [
    'Table',
    [
      ['Arrows', 'from cell to cell'],
      ['Enter', 'turn the key there and choose the load'],
    ],
  ],
  [
    'What was seen',
    [
      ['Arrows', 'from cell to cell'],
      ['W, D, K, C', 'works, dead, weak, comes and goes'],
      ['Delete', 'not seen'],
    ],
  ],
];

/** Every key of the program on one sheet. @fires done */
export class KeysSheet extends LitElement {
  static override styles = [
    controls,
    css`
      :host {
        display: block;
        padding: 16px 20px;
      }
      .head {
        display: flex;
        justify-content: space-between;
        align-items: center;
      }
      .sheets {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(280px, 1fr));
        gap: 16px 32px;
        margin-top: 12px;
      }
      dl {
        display: grid;
        grid-template-columns: 118px 1fr;
        gap: 4px 12px;
        margin-top: 6px;
      }
      dt {
        font-weight: 700;
      }
    `,
  ];
  override render() {
    return html`<div class="head">
        <h2>Keys</h2>
        <button @click=${() => this.dispatchEvent(new CustomEvent('done'))}>Close</button>
      </div>
      <div class="sheets">
        ${keys.map(([where, list]) => html`<section><h3>${where}</h3><dl>${list.map(([key, does]) => html`<dt>${key}</dt><dd>${does}</dd>`)}</dl></section>`)}
      </div>`;
  }
}
