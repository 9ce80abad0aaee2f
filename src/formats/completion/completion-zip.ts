import { ReadingTime } from "../geojson/reading-time.ts";
import { damaged, unreadableFile } from "../read/unreadable-file.ts";
import { newBudget } from "../read/zip/inflate-bounded.ts";
import { unpackEntry, type ZipEntry, zipEntries } from "../read/zip/zip-entries.ts";
import { COMPLETION_FILE_BYTES, COMPLETION_ZIP } from "./completion-limits.ts";

/** A local header before an entry's bytes is at least this long (APPNOTE 4.3.7). */
const LOCAL_HEADER_BYTES = 30;
const DRIVE = /^[A-Za-z]:/;

/** A file out of a zip of completions. */
export interface ZippedFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Whether bytes begin as a zip does. */
export const isZip = (bytes: Uint8Array): boolean =>
  bytes[0] === 0x50 && bytes[1] === 0x4b && (bytes[2] === 3 || bytes[2] === 5) && (bytes[3] === 4 || bytes[3] === 6);

/**
 * The JSON and CSV files of a zip, unpacked into memory within the limits; others, such as photos, are left alone and named. Throws
 * UnreadableError for a damaged zip, one past a limit, two entries of one name, entries that overlap and paths that lead out of it.
 */
export function unzipCompletions(bytes: Uint8Array): { files: ZippedFile[]; leftAlone: string[] } {
  const entries = zipEntries(bytes, COMPLETION_ZIP);
  checkNames(entries);
  checkPlaces(entries);
  const budget = newBudget(COMPLETION_ZIP, new ReadingTime());
  const files: ZippedFile[] = [];
  const leftAlone: string[] = [];
  for (const entry of entries) {
    if (!/\.(json|csv)$/i.test(entry.name)) {
      leftAlone.push(entry.name);
      continue;
    }
    if (entry.bytes > COMPLETION_FILE_BYTES) {
      throw unreadableFile(
        "too-large",
        `${entry.name.slice(0, 120)} in the zip is larger than ${COMPLETION_FILE_BYTES / 1e6} MB.`,
        "Split it.",
      );
    }
    files.push({ name: entry.name, bytes: unpackEntry(bytes, entry, budget, COMPLETION_ZIP) });
  }
  if (files.length === 0) {
    throw unreadableFile(
      "nothing-in-zip",
      "The zip holds no completion: no .json or .csv file.",
      "Zip the files that the phone page saved.",
    );
  }
  return { files, leftAlone };
}

function checkNames(entries: readonly ZipEntry[]): void {
  const taken = new Set<string>();
  for (const { path } of entries) {
    const parts = path.split("/");
    if (path.startsWith("/") || DRIVE.test(path) || parts.includes("..") || path.includes("\0")) {
      throw unreadableFile("unsafe-zip", "The zip has an entry whose path leads out of it.", "Zip the files anew.");
    }
    const key = path.toLowerCase();
    if (taken.has(key))
      throw unreadableFile("unsafe-zip", `The zip has two entries named ${path.slice(0, 120)}.`, "Zip the files anew.");
    taken.add(key);
  }
}

/** No two entries share bytes: a bomb packs one stream under many names. */
function checkPlaces(entries: readonly ZipEntry[]): void {
  const inOrder = [...entries].sort((a, b) => a.headerAt - b.headerAt);
  for (let at = 1; at < inOrder.length; at += 1) {
    const before = inOrder[at - 1]!;
    if (inOrder[at]!.headerAt < before.headerAt + LOCAL_HEADER_BYTES + before.packedBytes) {
      throw damaged("zip", "its entries overlap");
    }
  }
}
