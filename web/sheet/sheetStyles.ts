import { css } from 'lit';

/** A sheet of A4 on the desk; printed, nothing but the sheet. */
export const sheetStyles = css`
  :host {
    display: block;
    min-height: 100%;
  }
  .wait {
    padding: 24px;
  }
  .desk {
    max-width: 900px;
    margin: 0 auto;
    padding: 12px 16px 24px;
  }
  .bar {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 16px;
    justify-content: space-between;
    align-items: center;
    padding-bottom: 12px;
  }
  .paper {
    background: var(--sheet);
    border: 1px solid var(--edge);
    padding: 28px;
    display: block;
    line-height: 1.25;
  }
  header {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 24px;
    justify-content: space-between;
    border-bottom: 3px solid var(--ink);
    padding-bottom: 8px;
  }
  h1 {
    font-size: 34px;
    line-height: 1;
  }
  .paper h2 {
    font-size: 18px;
    margin: 12px 0 2px;
  }
  .who {
    text-align: right;
    flex: 1 1 320px;
  }
  .who p {
    display: flex;
    flex-wrap: wrap;
    align-items: baseline;
    justify-content: flex-end;
    gap: 0 16px;
  }
  .name {
    font-weight: 700;
    font-size: 18px;
    text-align: right;
  }
  .who input {
    padding: 18px 4px 0; /* the words stand on their line, and so does the label before them */
    border-color: transparent;
    border-bottom-color: var(--edge);
    border-radius: 0;
    background: none;
  }
  .inline {
    display: inline-flex;
    align-items: baseline;
    gap: 4px;
  }
  .inline input {
    width: 130px;
  }
  .top {
    display: grid;
    grid-template-columns: minmax(0, 7fr) minmax(0, 2fr);
    gap: 16px;
    margin-top: 12px;
  }
  .top detent-drawing {
    border: 1px solid var(--ink);
    align-self: start;
  }
  .told h2:first-child {
    margin-top: 0;
  }
  .told,
  .text {
    overflow-wrap: anywhere;
  }
  .drawn {
    color: var(--ink2);
    margin-top: 4px;
  }
  table {
    border-collapse: collapse;
    width: 100%;
  }
  th,
  td {
    text-align: left;
    font-weight: 500;
    border-bottom: 1px solid var(--edge);
    padding: 3px 8px 3px 2px;
  }
  thead th {
    border-bottom: 2px solid var(--ink);
    font-weight: 600;
  }
  .cells td {
    white-space: nowrap;
  }
  .mark {
    vertical-align: -2px;
  }
  .number {
    display: inline-grid;
    place-items: center;
    width: 24px;
    height: 24px;
    border-radius: 50%;
    background: var(--ink);
    color: var(--sheet);
    font-weight: 700;
    -webkit-print-color-adjust: exact;
    print-color-adjust: exact;
  }
  .two {
    display: grid;
    grid-template-columns: minmax(0, 8fr) minmax(0, 5fr);
    gap: 24px;
  }
  .scroll {
    overflow-x: auto;
  }
  .text {
    min-height: 44px;
    border: 1px dashed var(--edge);
    padding: 4px 6px;
    white-space: pre-wrap;
  }
  .sign {
    display: grid;
    grid-template-columns: repeat(3, 1fr);
    gap: 28px;
    margin-top: 44px;
  }
  .sign span {
    border-top: 2px solid var(--ink);
    padding-top: 4px;
  }
  .disclaimer {
    margin-top: 8px;
  }
  @media screen and (max-width: 899.9px) {
    .desk {
      padding: 8px;
    }
    .paper {
      padding: 12px;
    }
    .top,
    .two {
      grid-template-columns: minmax(0, 1fr);
    }
    .who {
      text-align: left;
    }
    .who p {
      justify-content: flex-start;
    }
    .name {
      text-align: left;
    }
  }
  @media print {
    .bar {
      display: none;
    }
    .desk {
      max-width: none;
      padding: 0;
    }
    .paper {
      border: 0;
      padding: 0;
      font-size: 10.5pt;
      line-height: 1.2;
    }
    header {
      border-bottom: 0.4mm solid #000;
      padding-bottom: 2mm;
      flex-wrap: nowrap;
    }
    h1 {
      font-size: 22pt;
    }
    .paper h2 {
      font-size: 12pt;
      margin: 2.4mm 0 0.6mm;
    }
    .who input {
      min-height: 0;
      height: 6mm;
      padding: 0 1mm;
      font-size: 10.5pt;
    }
    .who input::placeholder {
      color: #000;
      opacity: 1;
    }
    .name {
      font-size: 13pt;
    }
    .top {
      grid-template-columns: minmax(0, 7fr) minmax(0, 2fr);
      gap: 4mm;
      margin-top: 2.4mm;
    }
    .top detent-drawing {
      border: 0.2mm solid #000;
    }
    .two {
      grid-template-columns: minmax(0, 8fr) minmax(0, 5fr);
      gap: 5mm;
    }
    .scroll {
      overflow: visible;
    }
    th,
    td {
      padding: 0.6mm 1mm 0.6mm 0;
      border-bottom: 0.2mm solid #777;
    }
    .cells {
      font-size: 9.5pt;
    }
    thead th {
      border-bottom: 0.4mm solid #000;
    }
    .mark {
      width: 8pt;
      height: 8pt;
    }
    .text {
      border: 0;
      padding: 0;
      min-height: 0;
    }
    .sign {
      margin-top: 9mm;
      gap: 8mm;
    }
    .sign span {
      border-top: 0.4mm solid #000;
    }
    .disclaimer {
      margin-top: 2mm;
      font-size: 9.5pt;
    }
  }
`;
