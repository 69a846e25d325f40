import { css } from 'lit';

/** The sheet to fill in: phrase on top, the words for the cell in hand, the table scrolling under its head. */
export const seenSheetStyles = css`
  :host {
    display: grid;
    grid-template-rows: auto auto auto auto minmax(0, 1fr);
    grid-template-columns: minmax(0, 1fr);
    gap: 8px;
    min-height: 0;
    padding: 8px 16px;
    background: var(--sheet);
  }
  .head {
    display: flex;
    justify-content: space-between;
    align-items: center;
  }
  .phrase {
    display: grid;
    grid-template-columns: minmax(0, 1fr) auto;
    gap: 8px;
    align-items: end;
  }
  .phrase input {
    height: 54px;
    font-size: 20px;
    border: 2px solid var(--ink);
  }
  .wrong b {
    color: var(--tag);
  }
  .near {
    display: flex;
    flex-wrap: wrap;
    gap: 6px;
    margin-top: 6px;
  }
  .words {
    display: flex;
    flex-wrap: wrap;
    gap: 6px 16px;
    align-items: center;
    min-height: 52px;
    padding: 4px 8px;
    background: var(--band);
  }
  .words button {
    padding: 4px 10px;
  }
  .words .mark {
    vertical-align: -2px;
  }
  .tablebox {
    overflow: auto;
    min-height: 0;
    border-top: 2px solid var(--ink);
  }
  table {
    border-collapse: separate;
    border-spacing: 0;
    line-height: 1.05;
    min-width: 100%;
  }
  th {
    font-weight: 600;
    text-align: left;
    padding: 4px 8px;
    border-bottom: 1px solid var(--rule);
    background: var(--sheet);
  }
  thead th {
    position: sticky;
    top: 0;
    z-index: 2;
    text-align: center;
    font-size: 16px;
    font-weight: 700;
  }
  thead th:first-child {
    font-size: 13px;
    font-weight: 500;
    left: 0;
    z-index: 3;
  }
  tbody th {
    position: sticky;
    left: 0;
    z-index: 1;
    min-width: 132px;
    max-width: 200px;
  }
  small {
    font-size: 14px;
    font-weight: 500;
    color: var(--ink2);
  }
  td {
    padding: 0;
    border-bottom: 1px solid var(--rule);
    border-left: 1px solid var(--rule);
  }
  td button {
    display: flex;
    gap: 5px;
    align-items: center;
    justify-content: center;
    width: 100%;
    min-width: 76px;
    min-height: 44px;
    border: 0;
    border-radius: 0;
    background: none;
    padding: 2px 4px;
    font-size: 15px;
  }
  td button[aria-pressed='true'] {
    background: var(--handtint);
    color: var(--ink);
    box-shadow: inset 0 0 0 3px var(--hand);
  }
  td button .quiet {
    font-weight: 500;
  }
  td.bad button {
    color: var(--tag);
    font-weight: 700;
  }
  td.bad {
    background: var(--tagtint);
  }
  td.weak {
    background: var(--cautiontint);
  }
  @media (max-width: 899.9px) {
    :host {
      padding: 8px 16px;
    }
    tbody th {
      min-width: 112px;
      max-width: 120px;
    }
    td button {
      min-width: 64px;
    }
  }
`;
