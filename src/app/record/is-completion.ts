import { COMPLETION_ALL_BYTES } from "../../formats/completion/completion-limits.ts";
import { isZip, unzipCompletions } from "../../formats/completion/completion-zip.ts";
import { findColumns } from "../../formats/completion/csv-columns.ts";

/** Bytes of a file's beginning that tell what it is. */
const LOOK_BYTES = 4096;
const MARK = '"boughline-completion"';

/**
 * Whether a file is a crew's report by its beginning: the phone page's JSON, a zip that holds one, or a table with a column `outcome` or `visit`
 * of its own beside the tree. Whether it can be used is another question.
 */
export async function isCompletion(name: string, blob: Blob): Promise<boolean> {
  const lower = name.toLowerCase();
  if (lower.endsWith(".json")) return (await blob.slice(0, LOOK_BYTES).text()).includes(MARK);
  if (lower.endsWith(".csv") || lower.endsWith(".tsv")) return isTable(await blob.slice(0, LOOK_BYTES).text());
  return lower.endsWith(".zip") && blob.size <= COMPLETION_ALL_BYTES && (await isZipOfReports(blob));
}

function isTable(text: string): boolean {
  const [head = ""] = text.replace(/^﻿/, "").split(/[\r\n]/, 1);
  const names = head.split(/[,;\t|]/).map((name) => name.replaceAll('"', "").trim().toLowerCase());
  const { columns } = findColumns(names);
  // An inventory may well have a status and a date; `outcome` and `visit` are words of ours.
  const isOurs = names.includes("outcome") || names.includes("visit");
  return isOurs && columns.has("outcome") && columns.has("date") && (columns.has("tree") || columns.has("visit"));
}

async function isZipOfReports(blob: Blob): Promise<boolean> {
  const bytes = new Uint8Array(await blob.arrayBuffer());
  if (!isZip(bytes)) return false;
  try {
    return unzipCompletions(bytes).files.some((file) =>
      new TextDecoder().decode(file.bytes.subarray(0, LOOK_BYTES)).includes(MARK),
    );
  } catch {
    return false;
  }
}
