import { css } from 'lit';

/** The apprentice's desk: drawing above, log and actions below, meter, key and hints on the right; one column when narrow. */
export const practiseStyles = css`
  :host {
    display: block;
    height: 100%;
    min-height: 0;
  }
  .wait {
    padding: 24px;
    display: grid;
    gap: 12px;
    max-width: 1180px;
    height: 100%;
    overflow: auto;
    align-content: start;
  }
  .part {
    display: grid;
    gap: 10px;
    border-top: 2px solid var(--ink);
    padding-top: 12px;
  }
  .under {
    align-items: center;
    gap: 12px;
  }
  .under > button {
    flex: 0 0 auto;
  }
  ol.given {
    padding: 0;
    list-style: none;
  }
  ol.given li {
    display: grid;
    grid-template-columns: minmax(0, 1fr) auto;
    gap: 10px;
    align-items: center;
    border-top: 1px solid var(--rule);
    padding: 6px 0;
  }
  .desk {
    display: grid;
    grid-template-columns: minmax(0, 1fr) 426px;
    grid-template-rows: minmax(0, 1fr);
    height: 100%;
  }
  .left {
    background: var(--sheet);
    border-right: 2px solid var(--ink);
    display: grid;
    grid-template-rows: auto minmax(220px, 1fr) auto;
    grid-template-columns: minmax(0, 1fr);
    min-height: 0;
    min-width: 0;
  }
  .line {
    padding: 10px 18px 6px;
    font-size: 17px;
    line-height: 1.25;
  }
  .below {
    display: grid;
    grid-template-columns: minmax(0, 3fr) minmax(0, 2fr);
    border-top: 2px solid var(--ink);
    height: 35dvh;
    min-height: 270px;
  }
  .below > section {
    padding: 10px 18px;
    overflow: auto;
    min-height: 0;
  }
  .below > section + section {
    border-left: 1px solid var(--rule);
  }
  .head {
    display: flex;
    justify-content: space-between;
    align-items: baseline;
    gap: 12px;
    margin-bottom: 8px;
  }
  .busy button {
    min-height: 24px;
    padding: 0 10px;
  }
  .log {
    width: 100%;
    border-collapse: collapse;
    font-size: 15px;
  }
  .log td,
  .log th {
    text-align: left;
    vertical-align: top;
    padding: 6px 8px 6px 0;
    border-top: 1px solid var(--rule);
  }
  .log th {
    min-width: 92px;
    max-width: 190px;
  }
  .log .last > * {
    background: var(--handtint);
  }
  .log .trap > * {
    background: var(--tagtint);
  }
  .log .figure {
    font-weight: 700;
    white-space: nowrap;
  }
  .log .cost {
    text-align: right;
    color: var(--ink2);
    white-space: nowrap;
  }
  form.do {
    display: grid;
    gap: 8px;
  }
  .doing label,
  .typed label {
    display: grid;
    gap: 6px;
  }
  .doing {
    grid-template-columns: minmax(0, 4fr) minmax(0, 5fr) auto;
    align-items: end;
    margin-bottom: 8px;
  }
  .doing select {
    width: 100%;
  }
  .doing .main,
  .fields .main {
    min-height: 44px;
  }
  label.button {
    display: inline-grid;
    place-content: center;
  }
  .part .row > button {
    flex: 0 1 auto;
  }
  .right {
    overflow: auto;
    min-height: 0;
    background: var(--paper);
    scrollbar-gutter: stable;
  }
  .right section {
    padding: 12px 20px;
    border-bottom: 1px solid var(--rule);
    display: grid;
    gap: 8px;
  }
  .meter {
    background: light-dark(var(--ink), var(--band));
    color: light-dark(var(--sheet), var(--ink));
  }
  .meter button:not([aria-pressed='true'], .main) {
    background: none;
    color: inherit;
    border-color: currentColor;
  }
  .meter button[aria-pressed='true'] {
    background: light-dark(var(--sheet), var(--ink));
    color: light-dark(var(--ink), var(--sheet));
  }
  .meter :focus-visible {
    outline-color: light-dark(#7fcdd6, var(--hand));
  }
  .kinds {
    display: grid;
    grid-template-columns: repeat(5, auto);
    gap: 6px;
  }
  .kinds button {
    padding: 4px 2px;
  }
  .display {
    background: #dde3dc;
    color: #15202b;
    border-radius: 3px;
    min-height: 96px;
    padding: 4px 16px;
    display: flex;
    align-items: center;
    justify-content: flex-end;
    font-size: 56px;
    font-weight: 600;
    overflow: hidden;
    text-align: right;
    line-height: 1.05;
  }
  .display.far {
    font-size: 84px;
  }
  .lead {
    display: grid;
    grid-template-columns: 34px 1fr;
    gap: 8px;
    align-items: center;
  }
  .letter {
    width: 34px;
    height: 34px;
    border-radius: 50%;
    display: grid;
    place-items: center;
    background: light-dark(#fff, var(--hand));
    color: light-dark(var(--ink), var(--onhand));
    font-weight: 700;
  }
  .hint {
    color: var(--hand);
    font-weight: 700;
  }
  .set {
    display: grid;
    gap: 12px;
  }
  .fields {
    display: flex;
    flex-wrap: wrap;
    gap: 12px;
    align-items: end;
  }
  .fields label {
    display: grid;
    gap: 4px;
    font-weight: 600;
  }
  @media (max-width: 1199.9px) {
    .desk {
      grid-template-columns: minmax(0, 1fr);
      grid-template-rows: auto;
      height: auto;
    }
    .left {
      border-right: 0;
      grid-template-rows: auto 420px auto;
    }
    .below {
      height: auto;
    }
    .right {
      overflow: visible;
      scrollbar-gutter: auto;
    }
  }
  @media (max-width: 899.9px) {
    .below {
      grid-template-columns: minmax(0, 1fr);
    }
    .below > section + section {
      border-left: 0;
      border-top: 1px solid var(--rule);
    }
    .left {
      grid-template-rows: auto 320px auto;
    }
    .doing {
      grid-template-columns: minmax(0, 1fr);
    }
    .log tr {
      display: grid;
      grid-template-columns: 44px minmax(0, 1fr) auto auto;
      gap: 0 8px;
      border-top: 1px solid var(--rule);
      padding: 6px 0;
    }
    .log td,
    .log th {
      border: 0;
      padding: 0;
      max-width: none;
    }
    .log td:nth-child(3) {
      grid-area: 2 / 2 / 3 / 5;
    }
    .log .last {
      background: var(--handtint);
    }
  }
`;
