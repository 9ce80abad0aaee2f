import { css } from "lit";

export const stripStyles = css`
      :host {
        border-top: 1px solid var(--edge);
        background: var(--paper);
      }
      .strip {
        position: relative;
        padding: 7px 14px 5px;
      }
      .line {
        display: flex;
        align-items: baseline;
        gap: 4px 16px;
        min-height: 22px;
      }
      .line p {
        flex: 1;
        min-width: 0;
        overflow: hidden;
        text-overflow: ellipsis;
        white-space: nowrap;
      }
      .plot {
        position: relative;
        height: 88px;
        margin-top: 4px;
        cursor: crosshair;
        touch-action: pan-y;
        user-select: none;
      }
      svg {
        display: block;
        width: 100%;
        height: 100%;
        overflow: visible;
      }
      text {
        fill: var(--ink-2);
        font-size: 12px;
      }
      .base {
        stroke: var(--ink);
      }
      .guide {
        stroke: var(--rule);
      }
      .outlined {
        stroke: var(--ink);
        stroke-width: 1;
      }
      .now {
        fill: var(--urgency-now);
      }
      .next-window {
        fill: var(--urgency-next-window);
      }
      .this-cycle {
        fill: var(--urgency-this-cycle);
      }
      .watch {
        fill: var(--urgency-watch);
      }
      .faded {
        opacity: 0.3;
      }
      .brush {
        fill: color-mix(in srgb, var(--ink) 9%, transparent);
        stroke: var(--ink);
      }
      .hover {
        fill: color-mix(in srgb, var(--ink) 7%, transparent);
      }
      @media (max-width: 720px) {
        .strip {
          display: grid;
          grid-template-columns: auto minmax(0, 1fr);
          align-items: center;
          gap: 12px;
          padding: 4px 12px;
        }
        .plot {
          height: 34px;
          margin: 0;
        }
        .line {
          flex-direction: column;
          align-items: flex-start;
          gap: 0;
          font-size: 13px;
          line-height: 1.25;
        }
      }
    `;
