import { css } from "lit";

/** Looks of the budget's page. */
export const budgetStyles = css`
  :host {
    padding: 14px 16px 24px;
    overflow: auto;
  }
  h2 + p,
  .block {
    margin-top: 10px;
  }
  .asked {
    display: grid;
    grid-template-columns: minmax(0, 1fr) auto auto;
    align-items: center;
    gap: 4px 10px;
    margin-top: 12px;
  }
  .asked label {
    grid-column: 1 / -1;
    font-weight: 600;
  }
  input[type="range"] {
    min-height: 28px;
    padding: 0;
    border: 0;
    accent-color: var(--ink);
  }
  input[type="number"] {
    width: 86px;
    text-align: right;
  }
  svg {
    display: block;
    width: 100%;
    max-width: 460px;
    margin-top: 10px;
    overflow: visible;
  }
  svg text {
    fill: var(--ink-2);
    font-size: 11.5px;
  }
  svg .name {
    fill: var(--ink);
  }
  svg .grid {
    stroke: var(--rule);
  }
  svg path {
    fill: none;
    stroke: var(--ink);
    stroke-width: 2;
    stroke-linejoin: round;
  }
  svg .oldest {
    stroke-width: 1.5;
    stroke-dasharray: 5 4;
  }
  svg .at {
    stroke: var(--urgency-next-window);
    stroke-width: 2;
  }
  table {
    width: 100%;
    margin-top: 10px;
    border-collapse: collapse;
    font-size: 13px;
  }
  th {
    padding: 2px 0 2px 6px;
    border-bottom: 1px solid var(--edge);
    font-weight: 600;
    text-align: right;
  }
  td {
    padding: 3px 0 3px 6px;
    border-bottom: 1px solid var(--rule);
    text-align: right;
  }
  th:first-child,
  td:first-child {
    padding-left: 0;
    text-align: left;
  }
  .warn {
    margin-top: 10px;
    padding-left: 9px;
    border-left: 4px solid var(--urgency-now);
  }
  .row {
    display: flex;
    flex-wrap: wrap;
    gap: 8px;
    margin-top: 12px;
  }
  details {
    margin-top: 14px;
  }
  summary {
    font-weight: 600;
    cursor: pointer;
  }
`;
