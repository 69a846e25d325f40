import { css } from 'lit';

/** Grid of the bench: drawing and table left, key column right; under 1200 px the column goes below, under 900 px one part at a time. */
export const benchStyles = css`
  :host {
    display: block;
    min-height: 0;
    height: 100%;
  }
  .wait {
    padding: 24px;
  }
  .bench {
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
    overflow: hidden;
    display: grid;
    grid-template-rows: auto minmax(0, 1fr) auto;
    grid-template-columns: minmax(0, 1fr);
  }
  .scenebar {
    display: flex;
    align-items: center;
    justify-content: space-between;
    gap: 12px;
    min-height: 32px;
    padding: 4px 16px 4px 18px;
  }
  .line {
    font-size: 17px;
    line-height: 1.2;
  }
  .happened {
    margin-left: 8px;
  }
  .show {
    display: flex;
    flex: none;
  }
  .show button {
    border-radius: 0;
    margin-left: -1px;
    min-width: 84px;
  }
  .show button:first-child {
    border-radius: 3px 0 0 3px;
  }
  .show button:last-child {
    border-radius: 0 3px 3px 0;
  }
  .tablebox {
    overflow: auto;
    border-top: 2px solid var(--ink);
    max-height: 42dvh;
    scrollbar-gutter: stable;
  }
  .right {
    display: grid;
    grid-template-rows: minmax(0, 1fr) auto;
    min-height: 0;
    background: var(--paper);
  }
  .column {
    overflow: auto;
    min-height: 0;
    scrollbar-gutter: stable;
  }
  .right section {
    padding: 12px 20px;
    border-bottom: 1px solid var(--rule);
    display: grid;
    gap: 8px;
  }
  .right section[hidden] {
    display: none;
  }
  .big {
    font-size: 24px;
    font-weight: 700;
    margin-right: 8px;
  }
  .key h2 .quiet,
  .note {
    font-size: 15px;
    font-weight: 500;
  }
  .note {
    margin-left: 8px;
  }
  .differs {
    color: var(--tag);
  }
  .phone {
    display: none;
  }
  .differlist li {
    display: grid;
    grid-template-columns: 1fr 108px 84px;
    align-items: center;
    min-height: 46px;
    font-size: 17px;
    padding: 0 8px 0 16px;
    background: var(--tagtint);
    border-left: 8px solid var(--tag);
    border-bottom: 1px solid var(--rule);
  }
  .differlist .verdict {
    display: flex;
    gap: 6px;
    align-items: center;
    color: var(--tag);
    font-weight: 700;
  }
  .right section.legend {
    border-top: 1px solid var(--rule);
    border-bottom: 0;
    padding: 8px 20px;
  }
  .pair {
    display: grid;
    grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
    grid-template-rows: minmax(0, 1fr) auto;
    min-height: 0;
  }
  .pair figure {
    display: grid;
    grid-template-rows: auto minmax(0, 1fr);
    min-height: 0;
    min-width: 0;
  }
  .pair figure + figure {
    border-left: 2px solid var(--ink);
  }
  figcaption {
    min-height: 54px;
    padding: 6px 16px;
    line-height: 1.2;
  }
  .differing {
    grid-column: 1 / -1;
    padding: 8px 16px;
    border-top: 1px solid var(--rule);
  }
  .words li {
    padding: 6px 0;
    border-top: 1px solid var(--rule);
    font-size: 15px;
  }
  .broken {
    display: grid;
    grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
    gap: 20px;
    padding: 20px;
  }
  .problems {
    display: grid;
    gap: 12px;
    margin: 12px 0;
  }
  .problems li {
    border-left: 8px solid var(--tag);
    padding-left: 12px;
  }
  .problems li.warning {
    border-color: var(--caution);
  }
  pre {
    margin: 0;
    overflow: auto;
    background: var(--sheet);
    border: 1px solid var(--rule);
    font-size: 14px;
    line-height: 1.4;
    max-height: calc(100dvh - 120px);
  }
  pre i {
    display: inline-block;
    width: 40px;
    padding-right: 12px;
    text-align: right;
    color: var(--ink2);
    font-style: normal;
  }
  pre .marked {
    display: block;
    background: var(--tagtint);
    font-weight: 700;
  }
  @media (max-width: 1199.9px) {
    .bench {
      display: block;
      height: auto;
    }
    .left {
      border-right: 0;
      border-bottom: 2px solid var(--ink);
      grid-template-rows: auto auto auto;
    }
    .left detent-drawing {
      height: 60dvh;
    }
    .right {
      display: block;
    }
    .column {
      columns: 2;
      column-gap: 0;
      overflow: visible;
    }
    .right section {
      break-inside: avoid;
    }
  }
  @media (max-width: 899.9px) {
    .bench {
      display: grid;
      grid-template-columns: minmax(0, 1fr);
      grid-template-rows: auto minmax(0, 1fr);
      height: 100%;
    }
    .parts {
      display: flex;
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
    .desk {
      display: none;
    }
    .phone {
      display: block;
      margin: 0 -16px;
    }
    .right {
      overflow: auto;
      background: var(--sheet);
    }
    .column {
      columns: 1;
      display: flex;
      flex-direction: column;
    }
    .right section {
      padding: 12px 16px;
    }
    .scenebar {
      display: block;
      padding: 8px 16px;
    }
    .show {
      margin-top: 8px;
    }
    .show button {
      flex: 1;
    }
    [data-panel='key'] .left,
    [data-panel='drawing'] .right,
    [data-panel='table'] .right,
    [data-panel='table'] detent-drawing,
    [data-panel='table'] detent-way,
    [data-panel='table'] .pair,
    [data-panel='drawing'] .tablebox {
      display: none;
    }
    .left {
      border: 0;
    }
    .left detent-drawing {
      height: auto;
    }
    .tablebox {
      max-height: none;
      grid-row: 2;
      scrollbar-gutter: auto;
      scroll-padding-left: 164px;
    }
    .broken {
      grid-template-columns: minmax(0, 1fr);
      padding: 16px;
    }
  }
  @media print {
    .right,
    .parts,
    .show {
      display: none;
    }
    .bench,
    .left {
      display: block;
      overflow: visible;
      height: auto;
      border: 0;
    }
    .scenebar {
      padding: 0 0 2mm;
    }
    .tablebox {
      max-height: none;
      overflow: visible;
    }
  }
`;
