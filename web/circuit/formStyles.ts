import { css } from 'lit';

export const formStyles = css`
  form {
    display: grid;
    gap: 12px;
    padding: 12px 0 16px;
    border-bottom: 1px solid var(--rule);
  }
  .fields {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(150px, 1fr));
    gap: 8px 12px;
  }
  label {
    display: grid;
    gap: 4px;
    font-size: 14px;
  }
  input:not([type='checkbox']),
  select {
    width: 100%;
  }
  .check {
    display: flex;
    gap: 8px;
    align-items: center;
    min-height: 44px;
    font-size: 16px;
  }
  legend {
    font-weight: 700;
    padding: 0 0 4px;
  }
  table {
    border-collapse: collapse;
    width: 100%;
  }
  th {
    text-align: left;
    font-size: 14px;
  }
  td {
    padding: 2px 6px 2px 0;
  }
  .bench {
    border: 2px solid var(--hand);
    padding: 12px;
    display: grid;
    gap: 8px;
  }
`;
