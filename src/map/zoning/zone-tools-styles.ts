import { css } from "lit";

export const zoneToolsStyles = css`
  section {
    margin-top: 14px;
    padding: 10px 0 2px;
    border-top: 1px solid var(--rule);
  }
  .fields {
    display: grid;
    grid-template-columns: repeat(2, minmax(0, 1fr));
    gap: 8px 14px;
  }
  .fields label {
    display: grid;
    gap: 2px;
  }
  .fields label > span {
    font-size: 12.5px;
    color: var(--ink-2);
  }
  .fields select,
  .fields input[type="date"] {
    width: 100%;
  }
  .fields .lock {
    display: flex;
    grid-column: 1 / 3;
    gap: 8px;
    align-items: center;
  }
  .lock input {
    width: 18px;
    height: 18px;
    min-height: 0;
    accent-color: var(--ink);
  }
  .tools {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 16px;
    align-items: center;
    margin-top: 12px;
  }
  .menu {
    min-height: 28px;
    max-width: 170px;
    padding: 0 4px;
    border-color: var(--rule);
    font-size: 13px;
  }
  form {
    display: flex;
    gap: 8px;
    margin-top: 10px;
  }
  form label {
    flex: 1;
  }
  form input {
    width: 100%;
  }
  .sure {
    display: flex;
    flex-wrap: wrap;
    gap: 6px 14px;
    align-items: center;
    margin-top: 10px;
    padding: 9px 12px;
    border-left: 5px solid var(--warn);
    background: var(--paper-2);
  }
  .sure p {
    flex-basis: 100%;
  }
`;
