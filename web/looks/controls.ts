import { css } from 'lit';

/** What all elements have in common: buttons, fields, headings, focus. Flat; structure is rules of 1 and 2 px. */
export const controls = css`
  :host {
    box-sizing: border-box;
  }
  *,
  *::before,
  *::after {
    box-sizing: border-box;
  }
  [hidden] {
    display: none !important;
  }
  h1,
  h2,
  h3,
  p,
  ul,
  ol,
  dl,
  dd,
  figure,
  fieldset {
    margin: 0;
    padding: 0;
  }
  fieldset {
    border: 0;
    min-width: 0;
  }
  ul {
    list-style: none;
  }
  h2 {
    font-size: 19px;
    line-height: 1.15;
    font-weight: 700;
  }
  h3 {
    font-size: 16px;
    line-height: 1.15;
    font-weight: 700;
  }
  .quiet {
    color: var(--ink2);
  }
  .small {
    font-size: 14px;
  }
  button,
  select,
  input,
  textarea,
  .button {
    font: inherit;
    font-variant-numeric: inherit;
    color: var(--ink);
    background: var(--sheet);
    border: 1px solid var(--edge);
    border-radius: 3px;
    min-height: 44px;
    padding: 4px 12px;
  }
  .button {
    display: inline-flex;
    align-items: center;
  }
  button,
  .button {
    font-weight: 600;
    cursor: pointer;
    touch-action: manipulation;
    -webkit-user-select: none;
    user-select: none;
  }
  button:hover:not(:disabled):not([aria-pressed='true']) {
    border-color: var(--ink);
  }
  button[aria-pressed='true'],
  button[aria-current='true'] {
    background: var(--ink);
    border-color: var(--ink);
    color: var(--sheet);
    forced-color-adjust: none;
  }
  @media (forced-colors: active) {
    button[aria-pressed='true'],
    button[aria-current='true'] {
      background: Highlight;
      border-color: Highlight;
      color: HighlightText;
    }
  }
  button:disabled {
    color: var(--ink2);
    border-style: dashed;
    cursor: default;
  }
  button.main {
    background: var(--hand);
    border-color: var(--hand);
    color: var(--onhand);
    min-height: 56px;
  }
  button.plain {
    border-color: transparent;
    background: none;
  }
  button.low {
    min-height: 36px;
  }
  input[type='text'],
  input[type='search'],
  textarea {
    width: 100%;
    border-color: var(--edge);
  }
  ::placeholder {
    color: var(--ink2);
    opacity: 1;
  }
  input[type='range'] {
    padding: 0;
    width: 100%;
    accent-color: var(--hand);
  }
  input[type='checkbox'] {
    min-height: 24px;
    width: 24px;
    margin: 0;
    accent-color: var(--hand);
  }
  label {
    display: block;
  }
  a {
    color: var(--hand);
  }
  :focus-visible {
    outline: 3px solid var(--hand);
    outline-offset: 2px;
  }
  .row {
    display: flex;
    flex-wrap: wrap;
    gap: 6px;
  }
  .row > button {
    flex: 1 1 auto;
  }
  summary:not(.button) {
    display: flex;
    align-items: center;
    gap: 8px;
    min-height: 44px;
    font-weight: 600;
    cursor: pointer;
    list-style: none;
  }
  summary::-webkit-details-marker {
    display: none;
  }
  /* What opens says so, and whether it is open. */
  summary:not(.button)::before {
    content: '+' / '';
    flex: none;
    width: 20px;
    text-align: center;
    font-size: 20px;
    border: 1px solid var(--edge);
    border-radius: 3px;
    line-height: 20px;
  }
  details[open] > summary:not(.button)::before {
    content: '−' / '';
  }
  .caution {
    background: var(--cautiontint);
    border: 1px solid var(--caution);
    border-radius: 3px;
    padding: 8px 12px;
    font-size: 15px;
  }
  .caution b {
    color: var(--caution);
  }
  .unseen {
    position: absolute;
    width: 1px;
    height: 1px;
    overflow: hidden;
    clip-path: inset(50%);
    white-space: nowrap;
  }
`;
