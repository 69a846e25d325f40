import { css } from 'lit';

export const circuitStyles = css`
  :host {
    display: block;
    height: 100%;
    min-height: 0;
  }
  .circuit {
    display: grid;
    grid-template-columns: minmax(420px, 1fr) minmax(420px, 1fr);
    height: 100%;
    min-height: 0;
  }
  .left,
  .right {
    display: grid;
    min-height: 0;
    min-width: 0;
  }
  .left {
    grid-template-rows: auto minmax(180px, 1fr) auto;
    border-right: 2px solid var(--ink);
  }
  .right {
    grid-template-rows: auto minmax(0, 1fr) minmax(0, auto);
  }
  .guide {
    max-height: 25vh;
  }
  .guide.open {
    max-height: none;
    height: 44vh;
  }
  .bar {
    padding: 8px 12px;
    border-bottom: 1px solid var(--rule);
    align-items: center;
  }
  .bar > * {
    flex: 0 0 auto;
  }
  .bar .main {
    min-height: 44px;
  }
  .editor {
    min-height: 0;
    overflow: hidden;
    background: var(--sheet);
  }
  .problems {
    max-height: 32vh;
    overflow: auto;
    border-top: 2px solid var(--ink);
    padding: 8px 12px;
    background: var(--paper);
  }
  .problems li {
    padding: 6px 0;
    border-bottom: 1px solid var(--rule);
  }
  .problems .place {
    border: 0;
    background: none;
    min-height: 44px;
    padding: 0 8px 0 0;
    text-align: left;
    text-decoration: underline;
  }
  .drawing {
    display: grid;
    grid-template-rows: auto minmax(0, 1fr);
    grid-template-columns: minmax(0, 1fr);
    min-height: 0;
    overflow: hidden;
    background: var(--sheet);
  }
  .drawing detent-drawing {
    grid-row: 2;
  }
  .stale {
    padding: 4px 12px;
    background: var(--cautiontint);
    color: var(--caution);
    font-weight: 600;
  }
  .guide {
    overflow: auto;
    border-top: 2px solid var(--ink);
    padding: 8px 16px;
  }
  .said {
    padding: 4px 12px;
    color: var(--ink2);
  }
  dialog {
    border: 2px solid var(--ink);
    background: var(--paper);
    color: var(--ink);
    max-width: 720px;
    max-height: 80vh;
  }
  @media (max-width: 1199px) {
    .circuit {
      display: block;
      height: auto;
    }
    .left {
      border-right: 0;
    }
    .editor {
      height: 46vh;
    }
    .drawing {
      order: 2;
      height: 60vh;
      border-top: 2px solid var(--ink);
    }
    .right {
      display: flex;
      flex-direction: column;
    }
    .guide {
      order: 3;
    }
    .guide.open {
      order: 1;
      height: auto;
    }
  }
`;
