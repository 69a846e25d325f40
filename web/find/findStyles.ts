import { css } from 'lit';

/** Grid of the search: drawing over findings and suspects, the next reading on the right; under 900 px one part at a time. */
export const findStyles = css`
  :host {
    display: block;
    height: 100%;
    min-height: 0;
  }
  .wait {
    padding: 24px;
  }
  .find {
    display: grid;
    grid-template-columns: minmax(0, 1fr) 426px;
    grid-template-rows: minmax(0, 1fr);
    height: 100%;
  }
  .parts {
    display: none;
  }
  .left {
    background: var(--sheet);
    border-right: 2px solid var(--ink);
    min-width: 0;
    min-height: 0;
    display: grid;
    grid-template-rows: auto minmax(0, 1fr) fit-content(38%);
    grid-template-columns: minmax(0, 1fr);
  }
  .scenebar {
    display: flex;
    align-items: center;
    gap: 10px;
    padding: 8px 16px 4px 18px;
    font-size: 17px;
  }
  .scenebar input {
    flex: 1;
    border-color: transparent;
    background: none;
    font-size: 17px;
  }
  .scenebar input:hover,
  .scenebar input:focus {
    border-color: var(--edge);
  }
  .below {
    display: grid;
    grid-template-columns: minmax(0, 5fr) minmax(0, 7fr);
    border-top: 2px solid var(--ink);
    min-height: 0;
  }
  .findings,
  .suspects {
    overflow: auto;
    min-height: 0;
    padding: 8px 16px;
    scrollbar-gutter: stable;
  }
  .findings {
    border-right: 1px solid var(--edge);
  }
  .head {
    display: flex;
    flex-wrap: wrap;
    gap: 6px 12px;
    align-items: center;
    justify-content: space-between;
    min-height: 46px;
    border-bottom: 1px solid var(--rule);
  }
  .cleared {
    flex: 1 1 0;
    text-align: right;
    line-height: 1.15;
  }
  .empty {
    padding: 12px 0;
    font-size: 17px;
  }
  .right {
    overflow: auto;
    min-height: 0;
    background: var(--paper);
  }
  detent-next {
    background: var(--sheet);
    border-bottom: 1px solid var(--rule);
  }
  .right section {
    padding: 12px 20px;
    display: grid;
    gap: 8px;
    border-bottom: 1px solid var(--rule);
  }
  .right section.begin {
    background: var(--sheet);
  }
  .right section.status {
    grid-template-columns: 1fr auto;
    align-items: center;
    padding: 4px 20px;
  }
  .over b {
    color: var(--hand);
  }
  .title {
    font-size: 27px;
    line-height: 1.15;
  }
  .differs {
    color: var(--tag);
  }
  .repair li {
    display: grid;
    grid-template-columns: minmax(0, 1fr) auto;
    align-items: center;
    gap: 8px;
    min-height: 44px;
    border-bottom: 1px solid var(--rule);
  }
  .ways {
    width: 100%;
    border-collapse: collapse;
    line-height: 1.2;
  }
  .ways th,
  .ways td {
    text-align: left;
    padding: 3px 8px 3px 0;
  }
  .ways tbody tr:nth-child(odd) > * {
    border-top: 1px solid var(--rule);
  }
  .keyoff {
    display: grid;
    grid-template-columns: minmax(0, 1fr) auto;
    gap: 8px;
    align-items: end;
  }
  @media (max-width: 1199.9px) {
    .find {
      display: block;
      height: auto;
    }
    .left {
      display: block;
      border-right: 0;
    }
    .left detent-drawing,
    .left detent-seen {
      height: 60dvh;
    }
    .right {
      border-top: 2px solid var(--ink);
      overflow: visible;
    }
  }
  @media (max-width: 899.9px) {
    .find {
      display: flex;
      flex-direction: column;
      min-height: 100%;
      background: var(--sheet);
    }
    .parts {
      display: flex;
      flex: none;
      position: sticky;
      top: 0;
      z-index: 4;
      background: var(--sheet);
      border-bottom: 1px solid var(--edge);
    }
    .parts button {
      flex: 1;
      border: 0;
      border-radius: 0;
      min-height: 46px;
      font-size: 17px;
    }
    .parts button + button {
      border-left: 1px solid var(--edge);
    }
    .below {
      display: block;
      border-top: 0;
    }
    .findings {
      border-right: 0;
    }
    .scenebar {
      padding: 4px 16px;
    }
    .left detent-drawing {
      height: 240px;
      border-bottom: 1px solid var(--rule);
    }
    .left detent-seen {
      height: auto;
      max-height: 74dvh;
      border-bottom: 2px solid var(--ink);
    }
    .right {
      border-top: 0;
      background: var(--sheet);
    }
    .right section {
      padding: 12px 16px;
    }
    [data-panel='next'] .findings,
    [data-panel='next'] .suspects,
    [data-panel='next'] .scenebar,
    [data-panel='findings']:not([data-entering='reading']) detent-drawing,
    [data-panel='findings'] .right,
    [data-panel='findings'] .suspects,
    [data-panel='suspects'] .right,
    [data-panel='suspects'] .findings,
    [data-panel='suspects'] .scenebar {
      display: none;
    }
  }
  @media print {
    .right,
    .parts {
      display: none;
    }
    .find,
    .left {
      display: block;
      height: auto;
      border: 0;
    }
    .findings,
    .suspects {
      overflow: visible;
    }
  }
`;
