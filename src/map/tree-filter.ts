import type { ExpressionSpecification, FilterSpecification } from "maplibre-gl";
import type { TreeFilter } from "./options.ts";

/** The filter as a style expression over the marks' members, beside a layer's own; undefined where neither asks anything. */
export function filterExpression(
  own: FilterSpecification | undefined,
  filter: TreeFilter | null,
): FilterSpecification | undefined {
  const asked = filter === null ? [] : conditions(filter);
  if (asked.length === 0) return own;
  return ["all", ...(own === undefined ? [] : [own]), ...asked] as FilterSpecification;
}

function conditions(filter: TreeFilter): ExpressionSpecification[] {
  const all: ExpressionSpecification[] = [];
  const oneOf = (member: string, values: readonly string[] | undefined) => {
    if (values !== undefined) all.push(["in", ["get", member], ["literal", [...values]]]);
  };
  oneOf("urgency", filter.urgencies);
  oneOf("remedy", filter.remedies);
  oneOf("crew", filter.crews);
  oneOf("zone", filter.zoneIds);
  if (filter.treeIds !== undefined) all.push(isOneOf("tree", filter.treeIds));
  if (filter.kinds !== undefined)
    all.push(["any", ...filter.kinds.map((kind): ExpressionSpecification => ["in", `,${kind},`, ["get", "kinds"]])]);
  // ISO dates compare as text; a tree without a visit has none and falls outside every range.
  if (filter.dueFrom !== undefined) all.push([">=", ["get", "due"], filter.dueFrom]);
  if (filter.dueTo !== undefined) all.push(["!=", ["get", "due"], ""], ["<=", ["get", "due"], filter.dueTo]);
  if (filter.overdueOnly === true) all.push(["get", "overdue"]);
  return all;
}

/** Whether a member is one of many values. A match looks a label up at once, where `in` would walk the list for every tree. */
function isOneOf(member: string, values: readonly string[]): ExpressionSpecification {
  const labels = [...new Set(values)];
  if (labels.length === 0) return false as unknown as ExpressionSpecification;
  return ["match", ["get", member], labels, true, false] as unknown as ExpressionSpecification;
}
