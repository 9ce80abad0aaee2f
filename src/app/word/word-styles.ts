import { css } from "lit";

/** Lines and fields of the sheets that decisions are made and listed in. */
export const wordStyles = css`
  :host {
    display: block;
    padding: 14px 16px 28px;
    overflow: auto;
  }
  h3 {
    margin: 18px 0 6px;
    font-size: 15px;
  }
  p {
    margin-top: 6px;
  }
  .spaced {
    margin-top: 10px;
  }
  ul {
    margin: 0;
    padding: 0;
    list-style: none;
  }
  li {
    padding: 10px 0;
    border-top: 1px solid var(--rule);
  }
  label {
    display: block;
    margin-top: 10px;
    font-size: 13px;
    color: var(--ink-2);
  }
  label > input:not([type="radio"]),
  label > select,
  label > textarea {
    display: block;
    box-sizing: border-box;
    width: 100%;
    margin-top: 3px;
    color: var(--ink);
  }
  textarea {
    padding: 6px 8px;
    border: 1px solid var(--ink);
    background: var(--paper, transparent);
    font: inherit;
    resize: vertical;
  }
  .chips,
  .row {
    display: flex;
    flex-wrap: wrap;
    gap: 6px 8px;
    margin-top: 8px;
  }
  .two {
    display: grid;
    grid-template-columns: 1fr 1fr;
    gap: 0 12px;
  }
  label.option {
    display: grid;
    grid-template-columns: 22px 1fr;
    align-items: start;
    margin: 0;
    padding: 10px 0;
    border-top: 1px solid var(--rule);
    font-size: 14px;
    color: var(--ink);
  }
  label.option input {
    width: 16px;
    height: 16px;
    min-height: 0;
    margin: 2px 0 0;
    accent-color: var(--ink);
  }
  .limit,
  [role="alert"] {
    color: var(--warn);
    font-weight: 600;
  }
  .row.act {
    margin-top: 16px;
  }
`;
