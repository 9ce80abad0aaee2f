import type { Figures } from "./bench-table.ts";

/** Rows that goals and the code that measures both name. */
export const FLOOR = "JSON.parse of the files and JSON.stringify of the trees";
export const NATIVE_GEOS = "join: GEOS native, STRtree and distance, shapes ready";
export const POSTGIS = "join: PostGIS, query alone, tables loaded and indexed";
export const OWN_JOIN = "join: ours, projecting and index included";
export const PROJECTING = "join: projecting alone, as ours does";
export const enrichName = (threads: string): string => `boughline enrich, all stages and files, threads: ${threads}`;

/** A goal with what was measured; `measured` is a ratio of least user times, or of clocks where threads are compared. */
export interface GoalRow {
  readonly goal: string;
  readonly most: number;
  readonly measured: number;
}

interface Goal {
  readonly goal: string;
  /** The most that it may be: a ratio, or seconds where nothing is compared. */
  readonly most: number;
  readonly of: (ms: (name: string) => number, wallMs: (name: string) => number) => number;
}

const GOALS: readonly Goal[] = [
  {
    goal: "enrich on one thread beside the first row, user time",
    most: 0.7,
    of: (ms) => ms(enrichName("1")) / ms(FLOOR),
  },
  {
    goal: "enrich on two threads beside the first row, clock",
    most: 0.5,
    of: (_, wallMs) => wallMs(enrichName("2")) / wallMs(FLOOR),
  },
  {
    goal: "our join without its projecting beside native GEOS",
    most: 1,
    of: (ms) => (ms(OWN_JOIN) - ms(PROJECTING)) / ms(NATIVE_GEOS),
  },
  { goal: "our join, projecting included, beside PostGIS's query", most: 0.1, of: (ms) => ms(OWN_JOIN) / ms(POSTGIS) },
  {
    goal: "zones beside reading the trees from bytes and columns",
    most: 5,
    of: (ms) =>
      ms("zone: all visits") / (ms("read: our reader, every feature checked") + ms("read: trees from columns")),
  },
  { goal: "a packet, seconds of user time", most: 1, of: (ms) => ms("packet:") / 1000 },
];

/** The goals for which all rows were measured; a name is found by its beginning. */
export function goalRows(figures: readonly Figures[]): GoalRow[] {
  const found = (name: string): Figures | undefined => figures.find((row) => row.name.startsWith(name));
  return GOALS.map(({ goal, most, of }) => ({
    ...{ goal, most },
    measured: of(
      (name) => found(name)?.userMinMs ?? Number.NaN,
      (name) => found(name)?.wallMinMs ?? Number.NaN,
    ),
  })).filter(({ measured }) => Number.isFinite(measured));
}

/** A Markdown table of goals; what is missed says by how much. */
export function goalTable(rows: readonly GoalRow[]): string {
  const cells = rows.map(({ goal, most, measured }) => [
    goal,
    most.toFixed(2),
    measured.toFixed(2),
    measured <= most ? "met" : `missed ${(measured / most).toFixed(1)}x`,
  ]);
  const all = [["", "at most", "measured", ""], ...cells];
  const width = [0, 1, 2, 3].map((at) => Math.max(2, ...all.map((row) => row[at]!.length)));
  const line = (row: readonly string[]): string =>
    `| ${row.map((cell, at) => (at % 3 === 0 ? cell.padEnd(width[at]!) : cell.padStart(width[at]!))).join(" | ")} |`;
  const rule = `| ${width.map((length, at) => (at % 3 === 0 ? "-".repeat(length) : `${"-".repeat(length - 1)}:`)).join(" | ")} |`;
  return [line(all[0]!), rule, ...all.slice(1).map(line)].join("\n");
}
