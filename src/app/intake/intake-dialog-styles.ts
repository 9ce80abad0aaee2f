import { css } from "lit";

export const dialogStyles = css`
      dialog {
        width: min(760px, calc(100vw - 24px));
        max-height: calc(100dvh - 24px);
        padding: 0;
        border: 1px solid var(--edge);
        background: var(--paper);
        color: inherit;
      }
      dialog::backdrop {
        background: var(--veil);
      }
      form {
        display: flex;
        flex-direction: column;
        max-height: calc(100dvh - 26px);
      }
      .body {
        flex: 1;
        min-height: 0;
        padding: 20px 24px;
        overflow: auto;
      }
      .body > * + * {
        margin-top: 12px;
      }
      h2:focus {
        outline: none;
      }
      footer {
        display: flex;
        justify-content: flex-end;
        flex-wrap: wrap;
        gap: 8px;
        align-items: center;
        padding: 12px 24px;
        border-top: 1px solid var(--edge);
      }
      footer p {
        flex: 1 1 220px;
      }
      table {
        width: 100%;
        border-collapse: collapse;
      }
      th {
        padding: 4px 12px 4px 0;
        border-bottom: 1px solid var(--edge);
        font-size: 12.5px;
        font-weight: 400;
        text-align: left;
        color: var(--ink-2);
      }
      td {
        padding: 8px 12px 8px 0;
        border-bottom: 1px solid var(--rule);
        vertical-align: top;
      }
      td:last-child,
      th:last-child {
        padding-right: 0;
      }
      td.name {
        overflow-wrap: anywhere;
      }
      td select {
        width: 176px;
      }
      td input {
        width: 100%;
        min-width: 130px;
      }
      .problem {
        padding: 8px 12px;
        border-left: 5px solid var(--warn);
        background: var(--paper-2);
      }
      .options {
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(160px, 1fr));
        gap: 12px 16px;
      }
      .options label > span {
        display: block;
        margin-bottom: 3px;
      }
      .options input,
      .options select {
        width: 100%;
      }
      @media (max-width: 620px) {
        .body {
          padding: 16px;
        }
        footer {
          padding: 12px 16px;
        }
        thead {
          display: none;
        }
        tr {
          display: grid;
          grid-template-columns: 1fr 1fr;
          gap: 6px 10px;
          padding: 10px 0;
          border-bottom: 1px solid var(--rule);
        }
        td {
          padding: 0;
          border: 0;
        }
        td.name {
          grid-column: 1 / 3;
        }
        td select,
        td input {
          width: 100%;
          min-width: 0;
        }
      }
    `;
