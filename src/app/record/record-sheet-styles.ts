import { css } from "lit";

export const recordSheetStyles = css`
  dialog {
    width: min(780px, 100vw);
    max-width: none;
    height: min(900px, 100dvh);
    max-height: none;
    padding: 0;
    border: 1px solid var(--edge);
    background: var(--paper);
    color: inherit;
  }
  dialog[open] {
    display: grid;
    grid-template-rows: auto minmax(0, 1fr) auto;
  }
  dialog::backdrop {
    background: var(--veil);
  }
  header {
    padding: 18px 28px 14px;
    border-bottom: 1.5px solid var(--ink);
  }
  h1 {
    margin: 0 0 4px;
    font-size: 24px;
    font-weight: 600;
    line-height: 1.2;
  }
  h1:focus {
    outline: none;
  }
  .body {
    padding: 4px 28px 28px;
    overflow: auto;
    overflow-wrap: anywhere;
  }
  .body:focus-visible {
    outline-offset: -3px;
  }
  section {
    margin-top: 18px;
  }
  h2 {
    display: flex;
    justify-content: space-between;
    padding-bottom: 4px;
    border-bottom: 1px solid var(--ink);
  }
  h2 .count {
    font-weight: 400;
    color: var(--ink-2);
  }
  .name {
    font-weight: 600;
  }
  .id {
    font-weight: 400;
    color: var(--ink-2);
  }
  .files li {
    padding: 6px 12px 8px;
    border-left: 5px solid var(--rule);
    background: var(--paper-2);
  }
  .files li + li {
    margin-top: 6px;
  }
  .files .refused {
    border-left-color: var(--warn);
  }
  .visits li {
    display: grid;
    grid-template-columns: 26px minmax(0, 1fr);
    gap: 10px;
    padding: 8px 0;
    border-bottom: 1px solid var(--rule);
  }
  .visits li > div:only-child {
    grid-column: 1 / 3;
  }
  .note {
    padding-left: 10px;
    border-left: 2px solid var(--rule);
  }
  .against {
    color: var(--warn);
  }
  .choice {
    display: inline-flex;
    gap: 8px;
    align-items: center;
    margin-top: 4px;
    font-weight: 600;
    cursor: pointer;
  }
  .choice input {
    width: 18px;
    height: 18px;
    min-height: 0;
    accent-color: var(--ink);
  }
  @media (max-width: 680px) {
    header,
    .body,
    footer {
      padding-inline: 16px;
    }
    footer p {
      flex-basis: 100%;
    }
    footer .button {
      padding: 0 11px;
    }
  }
`;
