import type { Crew, Remedy, Urgency } from "../../core/model/terms.ts";
import { parseIsoDate } from "../../core/units/calendar.ts";

/** A tree as the map's tiles tell of it. */
export interface MarkInView {
  readonly treeId: string;
  readonly urgency: Urgency;
  readonly remedy: Remedy;
  readonly crew: Crew | null;
  /** Due date of the next visit, `YYYY-MM-DD`; null without one. */
  readonly due: string | null;
  readonly overdue: boolean;
  /** Bearing that the mark is turned to, degrees. */
  readonly bearingDeg: number;
  /** Trees that it stands for where the map shows one of several; 1 from close up. */
  readonly stands: number;
}

/** What a list of the trees in view shows. */
export interface ListInView {
  /** The most urgent first, then by due date and id; at most as many as were asked for. */
  readonly marks: readonly MarkInView[];
  /** Marks in view, each tree once. */
  readonly all: number;
  /** Trees that these marks stand for. */
  readonly trees: number;
}

/** The trees of a map's features, each once: features of neighboring tiles can hold the same one. */
export function marksInView(
  features: Iterable<{ readonly properties: Readonly<Record<string, unknown>> }>,
  most: number,
): ListInView {
  const found = new Map<string, { mark: MarkInView; order: number }>();
  for (const { properties } of features) {
    const { tree, urgency, remedy, crew, due, overdue, turn, stands, order } = properties;
    if (typeof tree !== "string" || found.has(tree)) continue;
    const mark = {
      treeId: tree,
      urgency: urgency as Urgency,
      remedy: remedy as Remedy,
      crew: crew === "" ? null : (crew as Crew),
      due: typeof due === "string" ? parseIsoDate(due) : null,
      overdue: overdue === true,
      bearingDeg: typeof turn === "number" ? turn : 0,
      stands: typeof stands === "number" ? stands : 1,
    };
    found.set(tree, { mark, order: typeof order === "number" ? order : 0 });
  }
  const all = [...found.values()];
  const marks = all
    .sort(
      (one, other) =>
        other.order - one.order ||
        compare(one.mark.due ?? "9999", other.mark.due ?? "9999") ||
        compare(one.mark.treeId, other.mark.treeId),
    )
    .slice(0, most)
    .map(({ mark }) => mark);
  return { marks, all: all.length, trees: all.reduce((sum, { mark }) => sum + mark.stands, 0) };
}

const compare = (one: string, other: string): number => (one < other ? -1 : one > other ? 1 : 0);
