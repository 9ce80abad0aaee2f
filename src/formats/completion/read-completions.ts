import type { Plan } from "../../core/model/plan.ts";
import { parseCompletion } from "../../core/plan/completion/parse-completion.ts";
import type { GivenCompletion } from "../../core/plan/record/record-preview.ts";
import { EMPTY_RECORD, type WorkRecord } from "../../core/plan/record/work-record.ts";
import { UnreadableError } from "../geojson/open-document.ts";
import { byteOrderMarkLength, utf8Text } from "../json/utf8-text.ts";
import { sha256 } from "../sha256.ts";
import { COMPLETION_ALL_BYTES, COMPLETION_FILE_BYTES, COMPLETION_FILES } from "./completion-limits.ts";
import { isZip, unzipCompletions } from "./completion-zip.ts";
import { readCsvCompletion } from "./read-csv-completion.ts";

/** A file that a crew handed in. */
export interface CompletionFile {
  /** Name without its folder. */
  readonly name: string;
  readonly bytes: Uint8Array;
  /** When it was last written, `2027-03-12T14:05:00Z`, for tables that do not say it; null where nobody knows. */
  readonly modifiedAt?: string | null;
}

/** A file that cannot be taken, with the reasons, a sentence each. */
export interface RefusedFile {
  readonly file: string;
  readonly faults: readonly string[];
}

export interface ReadCompletions {
  readonly given: readonly GivenCompletion[];
  readonly refused: readonly RefusedFile[];
  /** Files in zips and columns of tables that were not read, a sentence each. */
  readonly notRead: readonly string[];
}

/**
 * The completions in files that crews handed in: the phone page's JSON, tables written by hand, and zips of several. A file that is damaged, foreign or
 * past a limit is refused with the reason, whole; the others are read. Whether they fit the plan is another question (`previewRecord`). Rows of tables
 * that name no visit are looked up in the plan and in what is recorded of it.
 */
export async function readCompletions(
  files: readonly CompletionFile[],
  plan: Plan,
  record: WorkRecord = EMPTY_RECORD,
): Promise<ReadCompletions> {
  const given: GivenCompletion[] = [];
  const refused: RefusedFile[] = [];
  const notRead: string[] = [];
  let bytesLeft = COMPLETION_ALL_BYTES;
  let filesLeft = COMPLETION_FILES;
  for (const file of files) {
    const inside = partsOf(file);
    if ("faults" in inside) {
      refused.push({ file: file.name, faults: inside.faults });
      continue;
    }
    for (const left of inside.leftAlone) notRead.push(`${file.name}: ${left} is no completion and was left alone.`);
    for (const part of inside.parts) {
      bytesLeft -= part.bytes.length;
      filesLeft -= 1;
      if (bytesLeft < 0 || filesLeft < 0) {
        const limit = bytesLeft < 0 ? `${COMPLETION_ALL_BYTES / 1e6} MB` : `${COMPLETION_FILES} files`;
        refused.push({ file: part.name, faults: [`More than ${limit} are given at once. Record them in parts.`] });
        continue;
      }
      const read = await readPart(part, plan, record);
      if ("faults" in read) refused.push({ file: part.name, faults: read.faults });
      else {
        given.push(...read.given);
        for (const name of read.others) notRead.push(`${part.name}: the column "${name.slice(0, 80)}" is not read.`);
      }
    }
  }
  return { given, refused, notRead };
}

/** The file itself, or the completions in a zip. */
function partsOf(file: CompletionFile): { parts: CompletionFile[]; leftAlone: string[] } | { faults: string[] } {
  const { name, bytes, modifiedAt = null } = file;
  if (bytes.length > COMPLETION_FILE_BYTES) {
    return {
      faults: [
        `The file is ${Math.ceil(bytes.length / 1e6)} MB; completions up to ${COMPLETION_FILE_BYTES / 1e6} MB are read.`,
      ],
    };
  }
  if (!isZip(bytes)) return { parts: [file], leftAlone: [] };
  try {
    const { files, leftAlone } = unzipCompletions(bytes);
    return { parts: files.map((one) => ({ ...one, name: `${name}/${one.name}`, modifiedAt })), leftAlone };
  } catch (error) {
    if (error instanceof UnreadableError) return { faults: [`${error.fault.reason} ${error.fault.whatToDo}`] };
    throw error;
  }
}

async function readPart(
  { name, bytes, modifiedAt = null }: CompletionFile,
  plan: Plan,
  record: WorkRecord,
): Promise<{ given: GivenCompletion[]; others: readonly string[] } | { faults: readonly string[] }> {
  if (bytes.length === 0) return { faults: ["The file is empty."] };
  const digest = await sha256(bytes);
  if (!looksLikeJson(bytes)) {
    const table = readCsvCompletion(bytes, digest, plan, record, modifiedAt);
    if ("faults" in table) return table;
    const checked = table.completions.map((one) => parseCompletion(one));
    const faults = checked.flatMap((one) => ("faults" in one ? one.faults : []));
    if (faults.length > 0) return { faults };
    const given = checked.flatMap((one) => ("completion" in one ? [{ file: name, sha256: digest, ...one }] : []));
    return { given, others: table.others };
  }
  let json: unknown;
  try {
    json = JSON.parse(utf8Text(bytes, byteOrderMarkLength(bytes)));
  } catch (error) {
    const why = error instanceof TypeError ? "it is not UTF-8" : "its JSON is broken or cut short";
    return { faults: [`The file is damaged: ${why}. Ask the crew to send it again.`] };
  }
  const read = parseCompletion(json);
  return "faults" in read ? read : { given: [{ file: name, sha256: digest, completion: read.completion }], others: [] };
}

/** Whether the first character that is no blank opens a JSON value. */
function looksLikeJson(bytes: Uint8Array): boolean {
  let at = byteOrderMarkLength(bytes);
  while (at < bytes.length && (bytes[at] === 0x20 || bytes[at] === 0x09 || bytes[at] === 0x0a || bytes[at] === 0x0d))
    at += 1;
  return bytes[at] === 0x7b || bytes[at] === 0x5b;
}
