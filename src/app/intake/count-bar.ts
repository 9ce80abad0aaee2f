import { css, html, nothing, type TemplateResult } from "lit";
import type { SourceReport } from "../../worker/intake/intake-messages.ts";
import { counted, readableCount } from "../words.ts";

/** Features of one or more sources. `read = used + aside + leftOut`. */
export interface Counts {
  readonly read: number;
  readonly used: number;
  readonly aside: number;
  readonly leftOut: number;
}

/** The counts of some sources together. */
export function countsOf(sources: readonly SourceReport[]): Counts {
  const sum = (of: (source: SourceReport) => number) => sources.reduce((total, source) => total + of(source), 0);
  const leftOut = sum((source) => source.leftOut);
  return {
    read: sum((source) => source.read),
    used: sum((source) => source.used),
    aside: sum((source) => source.setAside) - leftOut,
    leftOut,
  };
}

/** `482 read: 479 used, 2 set aside, 1 left out by the filter`. */
export function countsText({ read, used, aside, leftOut }: Counts): string {
  const parts = [`${readableCount(used)} used`];
  parts.push(`${aside === 0 ? "none" : readableCount(aside)} set aside`);
  if (leftOut > 0) parts.push(`${readableCount(leftOut)} left out by the filter`);
  return `${readableCount(read)} read: ${parts.join(", ")}`;
}

/** One bar as long as what was read: used in ink, set aside crossed out, left out hollow. Its figures stand beside it. */
export function countBar(counts: Counts): TemplateResult | typeof nothing {
  if (counts.read === 0) return nothing;
  // A share too small to see is drawn as wide as a hair, so that one tree in ten thousand does not vanish.
  const part = (name: string, count: number) =>
    count === 0 ? nothing : html`<span class=${name} .style=${`flex: ${count} 1 0; min-width: 3px`}></span>`;
  return html`<span class="count-bar" aria-hidden="true">
    ${part("used", counts.used)}${part("aside", counts.aside)}${part("left-out", counts.leftOut)}
  </span>`;
}

/** `3 files`. */
export const filesText = (count: number): string => counted(count, "file");

export const countBarStyles = css`
  .count-bar {
    display: flex;
    width: 100%;
    height: 9px;
    border: 1px solid var(--ink);
  }
  .count-bar .used {
    background: var(--ink);
  }
  .count-bar .aside {
    background: repeating-linear-gradient(135deg, var(--warn) 0 2px, var(--paper) 2px 4px);
    border-left: 1px solid var(--ink);
  }
  .count-bar .left-out {
    background: var(--paper);
    border-left: 1px solid var(--ink);
  }
`;
