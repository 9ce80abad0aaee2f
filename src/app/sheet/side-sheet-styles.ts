import { css } from "lit";

/** How the column beside the map is laid out. */
export const sideSheetStyles = css`
  :host {
    display: flex;
    flex-direction: column;
    border-left: 1px solid var(--edge);
    background: var(--paper);
  }
  nav {
    display: flex;
    flex: none;
    flex-wrap: wrap;
    gap: 0 12px;
    padding: 0 16px;
    border-bottom: 1px solid var(--edge);
  }
  nav button {
    flex: none;
    min-height: 40px;
    border-bottom: 3px solid transparent;
    color: var(--ink-2);
  }
  nav button:hover {
    color: var(--ink);
  }
  nav button[aria-current="page"] {
    border-bottom-color: var(--ink);
    color: var(--ink);
    font-weight: 600;
  }
  nav button:focus-visible {
    outline-offset: -3px;
  }
  .back {
    display: flex;
    flex: none;
    justify-content: space-between;
    gap: 16px;
    padding: 0 16px;
    border-bottom: 1px solid var(--edge);
  }
  .back button {
    flex: none;
    min-height: 42px;
    font-weight: 600;
  }
  .back .zone {
    flex: 0 1 auto;
    overflow: hidden;
    font-weight: 400;
    text-overflow: ellipsis;
    white-space: nowrap;
  }
  .view {
    flex: 1;
    min-height: 0;
  }
  section.view {
    display: flex;
    flex-direction: column;
  }
  tree-list {
    flex: 1 1 128px;
    min-height: 128px;
  }
  filter-chips {
    flex: 0 1 auto;
    min-height: 56px;
    overflow: auto;
  }
  .pages {
    display: flex;
    flex: none;
    flex-wrap: wrap;
    gap: 8px;
    padding: 10px 0;
  }
  .back ~ .pages {
    border-top: 1px solid var(--edge);
    padding-inline: 16px;
  }
  .padded {
    padding: 14px 16px;
    overflow: auto;
  }
  @media (max-width: 720px), (max-width: 980px) and (orientation: portrait) {
    :host {
      border-left: 0;
      border-top: 1px solid var(--edge);
    }
  }
  @media (max-width: 720px) {
    nav {
      flex-wrap: nowrap;
      overflow-x: auto;
    }
    nav,
    .back,
    .padded {
      padding-inline: 12px;
    }
  }
`;
