import type { Usage } from "./run-process.ts";

/** The runs of one contender. */
export interface Measured {
  readonly name: string;
  readonly runs: readonly Usage[];
  /** Factor from what was run to the whole city; 1 but for a subset. */
  readonly times: number;
  readonly checksum: string;
}

/** A contender's figures in milliseconds and megabytes; user and system time are those of the run with the least user time. */
export interface Figures {
  readonly name: string;
  readonly runs: number;
  readonly wallMinMs: number;
  readonly wallMedianMs: number;
  readonly userMinMs: number;
  readonly userMedianMs: number;
  readonly systemMs: number;
  readonly residentMB: number | null;
  readonly isExtrapolated: boolean;
  readonly checksum: string;
}

export function figuresOf({ name, runs, times, checksum }: Measured): Figures {
  const sorted = (of: (usage: Usage) => number): number[] => runs.map(of).sort((one, other) => one - other);
  const walls = sorted(({ wallMs }) => wallMs);
  const users = sorted(({ userMs }) => userMs);
  const middle = Math.floor(runs.length / 2);
  const least = runs.reduce((best, one) => (one.userMs < best.userMs ? one : best));
  const scaled = (ms: number): number => Math.round(ms * times);
  return {
    name,
    runs: runs.length,
    wallMinMs: scaled(walls[0]!),
    wallMedianMs: scaled(walls[middle]!),
    userMinMs: scaled(users[0]!),
    userMedianMs: scaled(users[middle]!),
    systemMs: scaled(least.systemMs),
    residentMB: least.residentMB === null ? null : Math.round(least.residentMB),
    isExtrapolated: times !== 1,
    checksum,
  };
}

/** A Markdown table; the ratio is of least user times to the first row's. */
export function markdownTable(rows: readonly Figures[], compared: string): string {
  const base = rows.find(({ name }) => name === compared)?.userMinMs ?? Number.NaN;
  const body = rows.map((row) => [
    row.isExtrapolated ? `${row.name}, extrapolated` : row.name,
    seconds(row.userMinMs),
    seconds(row.userMedianMs),
    seconds(row.systemMs),
    seconds(row.wallMinMs),
    seconds(row.wallMedianMs),
    row.residentMB === null ? "" : String(row.residentMB),
    (row.userMinMs / base).toFixed(2),
  ]);
  const head = ["", "user min s", "user median s", "system s", "wall min s", "wall median s", "resident MB", "ratio"];
  const width = head.map((text, at) => Math.max(text.length, 2, ...body.map((cells) => cells[at]!.length)));
  const line = (cells: readonly string[]): string =>
    `| ${cells.map((cell, at) => (at === 0 ? cell.padEnd(width[at]!) : cell.padStart(width[at]!))).join(" | ")} |`;
  const rule = `| ${width.map((length, at) => (at === 0 ? "-".repeat(length) : `${"-".repeat(length - 1)}:`)).join(" | ")} |`;
  return [line(head), rule, ...body.map(line)].join("\n");
}

const seconds = (ms: number): string => (ms / 1000).toFixed(ms < 10_000 ? 2 : 1);
