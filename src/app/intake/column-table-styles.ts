import { css } from "lit";

export const columnTableStyles = css`
  table {
    width: 100%;
    border-collapse: collapse;
  }
  th {
    font-weight: 400;
    text-align: left;
  }
  thead th {
    padding: 4px 12px 4px 0;
    border-bottom: 1.5px solid var(--ink);
    font-size: 12.5px;
    color: var(--ink-2);
    white-space: nowrap;
  }
  tbody th,
  td {
    padding: 7px 12px 7px 0;
    border-bottom: 1px solid var(--rule);
    vertical-align: top;
  }
  tbody th {
    padding-top: 12px;
    font-weight: 600;
    min-width: 128px;
  }
  td:last-child,
  th:last-child {
    padding-right: 0;
  }
  td select {
    width: 100%;
    min-width: 76px;
  }
  td:nth-child(2) select {
    min-width: 150px;
    max-width: 220px;
  }
  .zero select {
    min-width: 116px;
  }
  .samples {
    padding-top: 12px;
    min-width: 140px;
    max-width: 260px;
    overflow-wrap: anywhere;
  }
  .sure {
    padding-top: 12px;
    min-width: 180px;
  }
  .sure p:first-child {
    white-space: nowrap;
  }
  .unit,
  .empty {
    white-space: nowrap;
  }
  .empty {
    padding-top: 12px;
    min-width: 72px;
  }
  .empty .bar {
    display: block;
    width: 56px;
    height: 5px;
    margin-top: 4px;
    border: 1px solid var(--ink-2);
  }
  .empty .bar span {
    display: block;
    height: 100%;
    background: repeating-linear-gradient(135deg, var(--ink-2) 0 1px, transparent 1px 3px);
  }
  .none {
    display: block;
    padding-top: 5px;
  }
  .mark {
    width: 14px;
    height: 14px;
    margin-right: 3px;
    vertical-align: -2px;
  }
  .mark circle,
  .mark path {
    fill: none;
    stroke: var(--ink);
    stroke-width: 1.4;
  }
  .mark .full {
    fill: var(--ink);
  }
  .doubtful .sure p:first-child {
    color: var(--warn);
    font-weight: 600;
  }
  .add select {
    width: auto;
    margin-right: 10px;
  }
  .add th {
    font-weight: 400;
  }
  .unused {
    margin-top: 14px;
  }
  summary {
    width: fit-content;
    cursor: pointer;
  }
  .unused p {
    margin: 6px 0;
  }
  .unused ul {
    columns: 3 220px;
    column-gap: 24px;
  }
  .unused li {
    display: flex;
    gap: 10px;
    justify-content: space-between;
    padding: 3px 0;
    border-bottom: 1px solid var(--rule);
    break-inside: avoid;
    overflow-wrap: anywhere;
  }
  .unused .small {
    text-align: right;
  }
  @media (max-width: 860px) {
    table,
    tbody {
      display: block;
    }
    thead {
      position: absolute;
      width: 1px;
      height: 1px;
      overflow: hidden;
      clip-path: inset(50%);
    }
    tr {
      display: grid;
      grid-template-columns: minmax(0, 1fr) 124px;
      gap: 6px 10px;
      padding: 12px 0;
      border-bottom: 1px solid var(--rule);
    }
    tbody th,
    td {
      padding: 0;
      border: 0;
      min-width: 0;
      max-width: none;
    }
    tbody th,
    .samples,
    .sure,
    .add td {
      grid-column: 1 / 3;
    }
    td:nth-child(2) select {
      max-width: none;
      min-width: 0;
    }
    .empty {
      display: flex;
      gap: 8px;
      align-items: center;
    }
    .empty > span:first-child::after {
      content: " empty";
    }
    .empty .bar {
      margin: 0;
    }
    .zero .small:not(.none) {
      display: block;
    }
    .zero:not(:has(.none))::before {
      content: "A 0 means";
      display: block;
      margin-bottom: 2px;
      font-size: 12.5px;
      color: var(--ink-2);
    }
    .none {
      display: none;
    }
    .samples,
    .sure,
    .empty,
    .unit:has(.none),
    .zero:has(.none) {
      padding: 0;
    }
  }
`;
