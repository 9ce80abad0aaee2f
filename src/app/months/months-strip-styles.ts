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
        flex-wrap: wrap;
        gap: 2px 18px;
        min-height: 22px;
      }
      .line p {
        flex: 1 1 200px;
        min-width: 0;
        overflow: hidden;
        text-overflow: ellipsis;
        white-space: nowrap;
      }
      .key {
        display: flex;
        flex-wrap: wrap;
        gap: 0 14px;
        font-size: 13px;
        color: var(--ink-2);
      }
      .key li,
      .key button {
        display: flex;
        gap: 5px;
        align-items: center;
        white-space: nowrap;
      }
      .key button:hover {
        color: var(--ink);
      }
      .key button[aria-pressed="true"] {
        color: var(--ink);
        font-weight: 600;
      }
      .key .off {
        text-decoration: line-through;
      }
      .key .off i {
        opacity: 0.3;
      }
      .stage {
        position: relative;
        margin-top: 4px;
      }
      .key i {
        width: 11px;
        height: 11px;
        border: 1px solid var(--ink);
      }
      .line button {
        flex: none;
      }
      .plot {
        position: relative;
        height: 88px;
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
        background: var(--urgency-now);
      }
      .next-window {
        fill: var(--urgency-next-window);
        background: var(--urgency-next-window);
      }
      .this-cycle {
        fill: var(--urgency-this-cycle);
        background: var(--urgency-this-cycle);
      }
      .watch {
        fill: var(--urgency-watch);
        background: var(--urgency-watch);
      }
      .ground,
      .hatch-ground {
        fill: var(--paper);
        background: var(--paper);
      }
      .aerial {
        fill: color-mix(in srgb, var(--ink) 38%, var(--paper));
        background: color-mix(in srgb, var(--ink) 38%, var(--paper));
      }
      .line-clearance {
        fill: url("#hatch");
        background: repeating-linear-gradient(135deg, var(--paper) 0 2px, var(--ink) 2px 3px);
      }
      .hatch-line {
        stroke: var(--ink);
        stroke-width: 1.1;
      }
      .utility {
        fill: var(--ink);
        background: var(--ink);
      }
      .return {
        fill: color-mix(in srgb, var(--ink) 22%, var(--paper));
        background: color-mix(in srgb, var(--ink) 22%, var(--paper));
      }
      .training {
        fill: color-mix(in srgb, var(--ink) 14%, var(--paper));
        background: color-mix(in srgb, var(--ink) 14%, var(--paper));
      }
      .growth {
        fill: color-mix(in srgb, var(--ink) 7%, var(--paper));
        background: color-mix(in srgb, var(--ink) 7%, var(--paper));
      }
      .outlined.return,
      .outlined.training,
      .outlined.growth {
        stroke: var(--ink-2);
        stroke-width: 0.6;
      }
      .pale {
        opacity: 0.4;
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
          /* As wide as its longest sentence, so that the bars do not move under the finger. */
          grid-template-columns: 136px minmax(0, 1fr);
          align-items: center;
          gap: 12px;
          padding: 4px 12px;
        }
        .stage {
          margin: 0;
        }
        .plot {
          height: 36px;
        }
        .line {
          display: block;
          font-size: 13px;
          line-height: 1.25;
        }
        .line p {
          white-space: normal;
        }
        .key,
        .split {
          display: none;
        }
      }
    `;
