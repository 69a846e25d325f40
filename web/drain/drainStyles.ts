import { css } from 'lit';

/** Result and bar over curve and fuse table; hypothesis, rivals and next reading on the right. */
export const drainStyles = css`
  :host {
    display: block;
    height: 100%;
    min-height: 0;
  }
  .wait,
  .foot {
    padding: 12px 24px;
  }
  .drain {
    display: grid;
    grid-template-columns: minmax(0, 1fr) 426px;
    grid-template-rows: minmax(0, 1fr);
    height: 100%;
  }
  .left {
    background: var(--sheet);
    border-right: 2px solid var(--ink);
    overflow: auto;
    min-height: 0;
    min-width: 0;
  }
  .right {
    overflow: auto;
    min-height: 0;
  }
  .status {
    padding: 4px 24px;
  }
  .result {
    padding: 12px 44px 12px 44px;
    display: grid;
    gap: 8px;
    border-bottom: 2px solid var(--ink);
  }
  .headline {
    display: flex;
    flex-wrap: wrap;
    gap: 12px 24px;
    justify-content: space-between;
    align-items: start;
  }
  .headline > div {
    flex: 1 1 300px;
  }
  .sentence {
    font-size: 34px;
    line-height: 1.15;
    font-weight: 700;
  }
  .meaning {
    font-size: 18px;
  }
  .cable {
    display: flex;
    gap: 8px;
    align-items: end;
  }
  .cable input {
    width: 120px;
    height: 54px;
    font-size: 24px;
    font-weight: 700;
    border: 2px solid var(--ink);
    display: block;
  }
  .cable button {
    min-height: 54px;
  }
  .wrong {
    color: var(--tag);
    font-weight: 600;
  }
  dl {
    display: grid;
    grid-template-columns: 100px minmax(0, 1fr);
    gap: 4px 8px;
  }
  dt {
    font-weight: 700;
  }
  .back {
    min-height: 28px;
    padding: 0 8px;
    font-size: 14px;
    margin-left: 12px;
  }
  .pair {
    display: grid;
    grid-template-columns: minmax(0, 14fr) minmax(0, 11fr);
  }
  .pair > section {
    padding: 12px 16px 12px 20px;
    display: grid;
    gap: 8px;
    align-content: start;
  }
  .pair > section + section {
    border-left: 1px solid var(--edge);
  }
  .ambient {
    display: flex;
    gap: 8px;
    align-items: center;
  }
  .ambient input {
    width: 72px;
  }
  table {
    border-collapse: collapse;
    width: 100%;
    line-height: 1.15;
  }
  th,
  td {
    text-align: left;
    padding: 2px 8px 2px 0;
    border-bottom: 1px solid var(--rule);
    font-weight: 500;
    height: 46px;
  }
  tbody th {
    font-weight: 700;
    white-space: nowrap;
  }
  thead th {
    height: 30px;
    border-bottom: 2px solid var(--ink);
  }
  .fusebox {
    overflow-x: auto;
  }
  .fusebox input {
    width: 76px;
  }
  .tells th {
    box-shadow: inset 6px 0 var(--tag);
    padding-left: 12px;
  }
  .more {
    border-top: 2px solid var(--ink);
    padding: 12px 24px;
    display: grid;
    gap: 8px;
  }
  .more ol {
    margin: 0;
    padding-left: 24px;
  }
  .more ol li {
    padding: 4px 0;
  }
  .mind {
    display: block;
    color: var(--caution);
    font-weight: 600;
  }
  .button {
    display: inline-flex;
    align-items: center;
    width: fit-content;
    position: relative;
  }
  .button:focus-within {
    outline: 3px solid var(--hand);
    outline-offset: 2px;
  }
  .right section {
    padding: 12px 20px;
    display: grid;
    gap: 8px;
    border-bottom: 1px solid var(--rule);
  }
  .hypothesis,
  .right section.next {
    background: var(--sheet);
  }
  .right .hypothesis {
    border-bottom: 2px solid var(--ink);
  }
  .over {
    display: flex;
    justify-content: space-between;
    font-size: 15px;
  }
  .over b {
    color: var(--hand);
  }
  .titled {
    display: flex;
    gap: 12px;
    justify-content: space-between;
  }
  .title {
    font-size: 27px;
    line-height: 1.15;
    overflow-wrap: anywhere;
  }
  .next .title {
    font-size: 22px;
  }
  .big {
    display: grid;
    justify-items: center;
    font-size: 18px;
    white-space: nowrap;
  }
  .bullets {
    list-style: disc;
    padding-left: 20px;
  }
  .bullets .off {
    color: var(--tag);
    font-weight: 600;
  }
  .suspect {
    display: grid;
    grid-template-columns: 32px 72px minmax(0, 1fr);
    gap: 10px;
    align-items: center;
    width: 100%;
    text-align: left;
    border: 0;
    border-bottom: 1px solid var(--rule);
    border-radius: 0;
    background: none;
    padding: 2px 0;
    font-weight: 500;
    line-height: 1.15;
  }
  .share {
    text-align: right;
    font-size: 18px;
    white-space: nowrap;
  }
  .ring .disc {
    fill: var(--halo);
  }
  .ring .thin {
    fill: none;
    stroke: var(--halo);
    stroke-width: 1.2;
  }
  .ring .arc {
    fill: none;
    stroke: var(--halo);
    stroke-width: 5;
  }
  .plan {
    margin: 0;
    padding-left: 24px;
  }
  .plan span {
    display: block;
  }
  @media (max-width: 1199.9px) {
    .drain {
      display: block;
      height: auto;
    }
    .left {
      border-right: 0;
      border-bottom: 2px solid var(--ink);
    }
  }
  @media (max-width: 899.9px) {
    .result {
      padding: 12px 16px;
    }
    .sentence {
      font-size: 27px;
    }
    .pair {
      grid-template-columns: minmax(0, 1fr);
    }
    .pair > section {
      padding: 12px 16px;
    }
    .pair > section + section {
      border-left: 0;
      border-top: 2px solid var(--ink);
    }
    .more {
      padding: 12px 16px;
    }
    .right section {
      padding: 12px 16px;
    }
    dl {
      grid-template-columns: 84px minmax(0, 1fr);
    }
  }
  @media print {
    .right,
    .cable,
    .more,
    .readings button,
    details,
    .ambient {
      display: none;
    }
    .drain,
    .left {
      display: block;
      overflow: visible;
      border: 0;
    }
    .result {
      padding: 0 0 4mm;
    }
    th,
    td {
      height: 7mm;
      font-size: 9pt;
    }
  }
`;
