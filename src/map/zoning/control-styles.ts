import { css } from "lit";

/** Controls and type that the page and the zone tools share; colors come from properties that stand around them. */
export const controlStyles = css`
  :host {
    display: block;
    color: var(--ink);
    font: 400 14px / 1.45 "Source Sans 3", system-ui, sans-serif;
    font-variant-numeric: tabular-nums;
  }
  *,
  *::before,
  *::after {
    box-sizing: border-box;
  }
  h2,
  h3,
  p,
  ul,
  ol,
  dl,
  dd,
  figure {
    margin: 0;
    padding: 0;
  }
  ul,
  ol {
    list-style: none;
  }
  h2 {
    font-size: 18px;
    font-weight: 600;
    line-height: 1.25;
  }
  h3 {
    font-size: 14px;
    font-weight: 600;
  }
  .small {
    font-size: 12.5px;
    color: var(--ink-2);
  }
  button,
  select,
  input {
    font: inherit;
    color: inherit;
    letter-spacing: inherit;
  }
  button {
    background: none;
    border: 0;
    padding: 0;
    cursor: pointer;
    text-align: inherit;
  }
  :focus-visible {
    outline: 2px solid var(--focus);
    outline-offset: 2px;
  }
  .button {
    display: inline-flex;
    align-items: center;
    min-height: 34px;
    padding: 0 14px;
    border: 1px solid var(--edge);
    border-radius: 2px;
    background: var(--paper);
    font-weight: 600;
  }
  .button:hover:not(:disabled) {
    background: var(--paper-2);
  }
  .button.main {
    background: var(--ink);
    border-color: var(--ink);
    color: var(--paper);
  }
  .button.main:hover:not(:disabled) {
    background: var(--ink-2);
  }
  .button:disabled {
    opacity: 0.5;
    cursor: default;
  }
  .word {
    text-decoration: underline;
    text-decoration-color: var(--rule);
    text-decoration-thickness: 1.5px;
    text-underline-offset: 3px;
  }
  .word:hover {
    text-decoration-color: var(--ink);
  }
  .chip {
    display: inline-flex;
    align-items: center;
    gap: 6px;
    min-height: 26px;
    padding: 0 9px;
    border: 1px solid var(--rule);
    border-radius: 13px;
    background: var(--paper);
    font-size: 13px;
  }
  .chip:hover {
    border-color: var(--edge);
  }
  .chip[aria-pressed="true"] {
    background: var(--ink);
    border-color: var(--ink);
    color: var(--paper);
  }
  .swatch {
    flex: none;
    width: 11px;
    height: 11px;
    border: 1.25px solid var(--ink);
    border-radius: 50%;
  }
  .chip[aria-pressed="true"] .swatch {
    border-color: var(--paper);
  }
  .swatch.now {
    background: var(--urgency-now);
  }
  .swatch.next-window {
    background: var(--urgency-next-window);
  }
  .swatch.this-cycle {
    background: var(--urgency-this-cycle);
  }
  .swatch.watch {
    background: var(--urgency-watch);
  }
  select,
  input {
    min-height: 32px;
    padding: 0 8px;
    border: 1px solid var(--edge);
    border-radius: 2px;
    background: var(--paper);
    max-width: 100%;
  }
  .unseen {
    position: absolute;
    width: 1px;
    height: 1px;
    overflow: hidden;
    clip-path: inset(50%);
    white-space: nowrap;
  }
  @media (pointer: coarse) {
    .button,
    .chip,
    select,
    input {
      min-height: 40px;
    }
  }
`;
