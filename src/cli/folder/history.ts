import { open, readFile, truncate } from "node:fs/promises";
import { join } from "node:path";
import { writeAll } from "./write-durably.ts";

export const HISTORY = "history.jsonl";

/** One line of a plan folder's history: which revision came to be, of which plan, by what. */
export interface HistoryLine {
  readonly revision: number;
  readonly plan: string;
  readonly as_of: string;
  /** What made the revision, for example `enrich`, `zone`, `record`. */
  readonly event: string;
  /** Revision that an `enrich` carried on; absent where it made a plan by itself. */
  readonly previous?: number;
  /** Reports that `record` took; absent for other events. */
  readonly reports?: readonly HistoryReport[];
}

/** A file that was recorded. */
export interface HistoryReport {
  readonly file: string;
  readonly sha256: string;
  readonly report: string;
  readonly zone: string;
}

/** The readable lines of a folder's history and its length in bytes. */
export interface History {
  readonly lines: readonly HistoryLine[];
  readonly lengthBytes: number;
}

/** Reads a folder's history; an absent one is empty. Lines that are no history lines are kept in the file and passed over here. */
export async function readHistory(dir: string): Promise<History> {
  let bytes: Uint8Array;
  try {
    bytes = await readFile(join(dir, HISTORY));
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "ENOENT") throw error;
    return { lines: [], lengthBytes: 0 };
  }
  const lines = new TextDecoder().decode(bytes).split("\n").map(parseLine);
  return { lines: lines.filter((line) => line !== null), lengthBytes: bytes.length };
}

/** Appends a line to a folder's history and flushes it. */
export async function appendHistory(dir: string, line: HistoryLine): Promise<void> {
  const file = await open(join(dir, HISTORY), "a");
  try {
    await writeAll(file, new TextEncoder().encode(`${JSON.stringify(line)}\n`));
    await file.sync();
  } finally {
    await file.close();
  }
}

/** Takes back what was appended behind the first `lengthBytes` bytes; an absent history stays absent. */
export async function cutHistory(dir: string, lengthBytes: number): Promise<void> {
  try {
    await truncate(join(dir, HISTORY), lengthBytes);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "ENOENT") throw error;
  }
}

function parseLine(text: string): HistoryLine | null {
  try {
    const value = JSON.parse(text) as Partial<HistoryLine> | null;
    if (typeof value?.revision !== "number") return null;
    const { revision, plan = "unknown", as_of = "unknown", event = "unknown" } = value;
    return { revision, plan: String(plan), as_of: String(as_of), event: String(event) };
  } catch {
    return null;
  }
}
