import { css, unsafeCSS } from "lit";
import { cssVariables, typeVariables } from "../tokens.ts";

/** Colors and type of every component of the plugin; each carries them itself, so that it needs nothing from its host's page. */
export const themeStyles = css`
  :host {
    all: initial;
    display: block;
    ${unsafeCSS(typeVariables())}
    ${unsafeCSS(cssVariables("light"))}
  }
  :host([theme="dark"]) {
    ${unsafeCSS(cssVariables("dark"))}
  }
  :host([theme="print"]) {
    ${unsafeCSS(cssVariables("print"))}
  }
  @media print {
    :host,
    :host([theme="dark"]) {
      ${unsafeCSS(cssVariables("print"))}
    }
  }
  :host([hidden]) {
    display: none;
  }
  .root {
    color: var(--boughline-ink);
    font: 400 var(--boughline-text) / 1.42 var(--boughline-font);
    font-variant-numeric: tabular-nums;
    overflow-wrap: break-word;
  }
  * {
    box-sizing: border-box;
    margin: 0;
    padding: 0;
  }
  h2 {
    font-size: var(--boughline-text-title);
    font-weight: 600;
    line-height: 1.2;
  }
  h3 {
    margin-bottom: 6px;
    font-size: var(--boughline-text);
    font-weight: 600;
  }
  section {
    margin-top: 14px;
    padding-top: 12px;
    border-top: 1px solid var(--boughline-hairline);
  }
  ul,
  ol {
    list-style: none;
  }
  .small {
    font-size: var(--boughline-text-small);
    line-height: 1.38;
  }
  .quiet {
    color: var(--boughline-quiet);
  }
  table {
    width: 100%;
    border-collapse: collapse;
  }
  th,
  td {
    padding: 3px 10px 3px 0;
    text-align: left;
    vertical-align: baseline;
    font-weight: 400;
  }
  th:last-child,
  td:last-child {
    padding-right: 0;
  }
  thead th {
    color: var(--boughline-quiet);
    font-size: var(--boughline-text-small);
  }
  :focus-visible {
    outline: 2px solid var(--boughline-focus);
    outline-offset: 2px;
  }
`;

/** What only the tree card has. */
export const treeCardStyles = css`
  header {
    display: grid;
    grid-template-columns: auto 1fr;
    gap: 0 8px;
    align-items: center;
  }
  header svg {
    width: 28px;
    height: 28px;
    margin-left: -4px;
  }
  .under {
    grid-column: 2;
  }
  .when {
    display: flex;
    flex-wrap: wrap;
    gap: 2px 10px;
    align-items: baseline;
    margin-top: 8px;
  }
  .tone {
    display: inline-block;
    width: 11px;
    height: 11px;
    margin-right: 6px;
    border: 1px solid var(--boughline-ink);
    vertical-align: -1px;
  }
  .strong {
    font-weight: 600;
  }
  .why {
    margin-top: 8px;
  }
  .refer,
  .cautions {
    margin-top: 10px;
    padding: 2px 0 2px 10px;
    border-left: 3px solid var(--boughline-ink);
  }
  .cautions li + li {
    margin-top: 4px;
  }
  figure svg {
    display: block;
    width: 100%;
    height: auto;
  }
  .section {
    margin: 12px 0 -2px;
  }
  .conflicts {
    display: flow-root;
  }
  .plan {
    float: left;
    width: 112px;
    margin: 0 14px 6px 0;
  }
  /* A conflict stands beside the plan or under it, never half and half. */
  .conflict {
    display: flow-root;
  }
  .conflict + .conflict {
    margin-top: 8px;
  }
  .options tr.note td {
    padding-top: 0;
  }
  .options tbody tr:not(.note) > * {
    border-top: 1px solid var(--boughline-hairline);
  }
  .options .prescribed > * {
    font-weight: 600;
  }
  .options .number {
    white-space: nowrap;
  }
  .visit + .visit {
    margin-top: 12px;
  }
  .task {
    margin-top: 6px;
    padding-left: 10px;
    border-left: 1px solid var(--boughline-hairline);
  }
  .task .small {
    margin-top: 2px;
  }
  .cut {
    margin-top: 10px;
    padding-top: 6px;
    border-top: 1px solid var(--boughline-ink);
  }
  .cut figcaption,
  h4 {
    font-size: var(--boughline-text);
    font-weight: 600;
  }
  .cuts h4 {
    margin-top: 8px;
  }
  .rules li {
    margin-top: 3px;
    padding-left: 12px;
    text-indent: -12px;
  }
  .rules li::before {
    content: "";
    display: inline-block;
    width: 5px;
    height: 5px;
    margin-right: 7px;
    background: var(--boughline-ink);
    vertical-align: 2px;
  }
  .rules + p {
    margin-top: 8px;
  }
  details > summary {
    cursor: pointer;
    font-weight: 600;
  }
  dl {
    display: grid;
    grid-template-columns: minmax(80px, max-content) 1fr;
    gap: 2px 12px;
    margin-top: 6px;
  }
  dd {
    overflow-wrap: anywhere;
  }
  fieldset {
    margin: 10px 0 0;
    padding: 8px 0 0;
    border: 0;
    border-top: 1px solid var(--boughline-hairline);
  }
  legend {
    float: left;
    width: 100%;
    padding: 0;
    font-weight: 600;
  }
  fieldset label {
    display: flex;
    gap: 8px;
    align-items: center;
    min-height: 28px;
    overflow-wrap: anywhere;
  }
  fieldset input {
    flex: none;
    width: 16px;
    height: 16px;
    margin: 0;
    accent-color: var(--boughline-ink);
  }
  :host {
    container-type: inline-size;
  }
  /* Where there is room the drawing stays beside the text that explains it. */
  @container (min-width: 640px) {
    .root {
      display: grid;
      grid-template-columns: minmax(0, 340px) minmax(0, 1fr);
      gap: 0 32px;
      align-items: start;
    }
    .lead {
      position: sticky;
      top: 0;
    }
    .rest > section:first-child {
      margin-top: 0;
      padding-top: 0;
      border-top: 0;
    }
  }
`;
