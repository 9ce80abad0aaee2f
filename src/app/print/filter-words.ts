import { CONFLICT_KINDS, CREWS, URGENCIES } from "../../core/model/terms.ts";
import type { TreeFilter } from "../tree-filter.ts";
import { readableMonth, WORDS } from "../words.ts";

/** What a filter leaves, in words for paper: `now or watch, Roadway, on Chapel Street`; null where it leaves everything. */
export function filterWords(filter: TreeFilter): string | null {
  const oneOf = <T extends string>(all: readonly T[], chosen: ReadonlySet<T>, words: Readonly<Record<T, string>>) =>
    all
      .filter((one) => chosen.has(one))
      .map((one) => words[one])
      .join(" or ");
  const { months } = filter;
  const parts = [
    oneOf(URGENCIES, filter.urgencies, WORDS.urgency),
    oneOf(CONFLICT_KINDS, filter.kinds, WORDS.kind),
    oneOf(CREWS, filter.crews, WORDS.crew),
    filter.text === "" ? "" : `"${filter.text}"`,
    filter.species ?? "",
    filter.street === null ? "" : `on ${filter.street}`,
    filter.zoneId === null ? "" : `in zone ${filter.zoneId}`,
    filter.due === null ? "" : filter.due === "overdue" ? "overdue" : `due within ${filter.due} days`,
    filter.owner == null ? "" : `owned by ${filter.owner}`,
    filter.protectedOnly === true ? "protected" : "",
    filter.chosen?.words ?? "",
    months === null
      ? ""
      : months.from === months.to
        ? `due in ${readableMonth(months.from)}`
        : `due ${readableMonth(months.from)} to ${readableMonth(months.to)}`,
  ].filter((part) => part !== "");
  return parts.length === 0 ? null : parts.join(", ");
}
