import { css } from "lit";

/** The line of buttons at the foot of a sheet that fills the page, with room for what went wrong. */
export const dialogFooterStyles = css`
  footer {
    display: flex;
    flex-wrap: wrap;
    gap: 8px;
    align-items: center;
    justify-content: flex-end;
    padding: 12px 28px;
    border-top: 1px solid var(--ink);
  }
  footer p {
    flex: 1 1 240px;
    color: var(--warn);
    font-weight: 600;
    overflow-wrap: anywhere;
  }
  footer p.unseen {
    flex: none;
  }
`;
