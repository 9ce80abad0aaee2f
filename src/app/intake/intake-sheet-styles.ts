import { css } from "lit";

export const intakeSheetStyles = css`
  dialog {
    width: 100vw;
    max-width: none;
    height: 100dvh;
    max-height: none;
    padding: 0;
    border: 0;
    background: var(--paper);
    color: inherit;
  }
  dialog[open] {
    display: grid;
    grid-template:
      "head head" auto
      "side pane" minmax(0, 1fr)
      "foot foot" auto / 348px minmax(0, 1fr);
  }
  dialog::backdrop {
    background: var(--paper);
  }
  header {
    grid-area: head;
    display: flex;
    flex-wrap: wrap;
    gap: 2px 24px;
    align-items: baseline;
    padding: 16px 28px 12px;
    border-bottom: 1.5px solid var(--ink);
  }
  h1 {
    margin: 0;
    font-size: 24px;
    font-weight: 600;
    line-height: 1.2;
  }
  h1:focus {
    outline: none;
  }
  .side {
    grid-area: side;
    padding: 14px 24px 20px 28px;
    border-right: 1px solid var(--ink);
    overflow: auto;
  }
  .pane {
    grid-area: pane;
    padding: 18px 32px 36px;
    overflow: auto;
  }
  .pane:focus-visible {
    outline-offset: -3px;
  }
  nav ul {
    margin: 8px 0 14px;
    border-top: 1px solid var(--rule);
  }
  nav li {
    border-bottom: 1px solid var(--rule);
  }
  .missing {
    padding: 3px 0 4px 15px;
    color: var(--ink-2);
  }
  .missing .name {
    margin-right: 6px;
  }
  .item {
    display: grid;
    gap: 2px;
    width: 100%;
    padding: 5px 10px 7px;
    border-left: 5px solid transparent;
  }
  .item:hover {
    background: var(--paper-2);
  }
  .item[aria-current="true"] {
    border-left-color: var(--ink);
    background: var(--paper-2);
  }
  .item .name {
    font-weight: 600;
  }
  .item .small {
    overflow-wrap: anywhere;
  }
  .pressing {
    color: var(--warn);
  }
  .problem {
    margin: 0 0 14px;
    padding: 8px 12px;
    border-left: 5px solid var(--warn);
    background: var(--paper-2);
    overflow-wrap: anywhere;
  }
  footer {
    grid-area: foot;
  }
  @media (max-width: 980px) {
    dialog[open] {
      display: flex;
      flex-direction: column;
      overflow: auto;
    }
    .side {
      display: contents;
    }
    nav {
      order: 1;
      padding: 12px 20px 0;
    }
    .pane {
      order: 2;
      flex: none;
      padding: 4px 20px 20px;
      overflow: visible;
    }
    settings-form {
      order: 3;
      padding: 16px 20px;
      border-top: 1px solid var(--ink);
    }
    header {
      padding: 14px 20px 10px;
    }
    footer {
      order: 4;
      position: sticky;
      bottom: 0;
      margin-top: auto;
      padding: 10px 20px;
      background: var(--paper);
    }
    footer p {
      flex-basis: 100%;
    }
    nav {
      display: grid;
      grid-template-columns: 300px minmax(0, 1fr);
      gap: 0 24px;
      align-items: start;
    }
    nav .problem {
      grid-column: 1 / 3;
    }
  }
  @media (max-width: 680px) {
    nav {
      display: block;
    }
  }
  @media (max-width: 480px) {
    .missing .small {
      display: none;
    }
    footer .button {
      padding: 0 11px;
    }
  }
`;
