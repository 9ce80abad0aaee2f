import { css } from "lit";

/** The short names that {@link controlStyles} and the tools use, from the plugin's own tokens, and the panel's box. */
export const zonesPanelStyles = css`
  :host {
    --ground: var(--boughline-ground);
    --paper: var(--boughline-paper);
    --paper-2: color-mix(in srgb, var(--boughline-paper), var(--boughline-ink) 7%);
    --ink: var(--boughline-ink);
    --ink-2: var(--boughline-quiet);
    --rule: var(--boughline-hairline);
    --edge: var(--boughline-ink);
    --focus: var(--boughline-focus);
    --warn: #8a3a0c;
    --urgency-now: var(--boughline-urgency-now);
    --urgency-next-window: var(--boughline-urgency-next-window);
    --urgency-this-cycle: var(--boughline-urgency-this-cycle);
    --urgency-watch: var(--boughline-urgency-watch);
    pointer-events: auto;
  }
  :host([theme="dark"]) {
    --edge: var(--boughline-quiet);
    --warn: #f0b37d;
    color-scheme: dark;
  }
  .root {
    width: 360px;
    max-width: calc(100vw - 20px);
    margin: 0;
    padding: 0;
    border: 1px solid var(--edge);
    background: var(--paper);
  }
  .fold {
    width: 100%;
    min-height: 40px;
    padding: 0 16px;
    font-weight: 600;
  }
  .fold::after {
    float: right;
    content: "+";
  }
  .fold[aria-expanded="true"]::after {
    content: "–";
  }
  .body {
    max-height: min(70vh, var(--boughline-zones-height, 640px));
    border-top: 1px solid var(--edge);
    overflow: auto;
  }
  .none {
    padding: 12px 16px;
  }
  .none[hidden] {
    display: none;
  }
  .bar,
  .order {
    display: flex;
    gap: 18px;
    align-items: baseline;
  }
  .bar {
    padding: 10px 16px;
    border-bottom: 1px solid var(--rule);
  }
  .bar button:first-child,
  .order h3 {
    flex: 1;
    margin: 0;
  }
  .bar button:disabled {
    opacity: 0.45;
    cursor: default;
  }
  .zone,
  .tree {
    padding: 12px 16px;
  }
  .tree {
    padding-bottom: 0;
    border-bottom: 1px solid var(--rule);
  }
  .order {
    margin-top: 14px;
    padding-top: 10px;
    border-top: 1px solid var(--rule);
  }
`;
