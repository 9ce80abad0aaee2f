import { html } from "lit";
import { readableHours, readableMonth } from "../words.ts";
import type { MonthBar } from "./month-bars.ts";
import { partHours, type Split, splitParts } from "./month-split.ts";

/** What the bars show as a table for screen readers; months without work are left out. */
export function monthsTable(bars: readonly MonthBar[], split: Split) {
  return html`<div class="unseen">
    <table>
      <caption>
        Work hours by month and ${split}; months without work are left out
      </caption>
      <thead>
        <tr>
          <th scope="col">Month</th>
          <th scope="col">Visits</th>
          ${splitParts(split).map(({ word }) => html`<th scope="col">${word}</th>`)}
          <th scope="col">All</th>
        </tr>
      </thead>
      <tbody>
        ${bars
          .filter((bar) => bar.visits > 0)
          .map(
            (bar) =>
              html`<tr>
                <th scope="row">${readableMonth(bar.month)}</th>
                <td>${bar.visits}</td>
                ${splitParts(split).map(({ key }) => html`<td>${readableHours(partHours(bar, key))}</td>`)}
                <td>${readableHours(bar.hours)}</td>
              </tr>`,
          )}
      </tbody>
    </table>
  </div>`;
}
