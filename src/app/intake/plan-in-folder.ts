/** What a folder holds, as far as it tells a plan folder: its own files and folders by name. */
export interface FolderEntries<File, Folder> {
  readonly files: ReadonlyMap<string, File>;
  readonly folders: ReadonlyMap<string, Folder>;
}

/** Whether a folder is a plan folder: it has revisions, and a pointer to one of them or a history. */
export const isPlanFolder = ({ files, folders }: FolderEntries<unknown, unknown>): boolean =>
  folders.has("revisions") && (files.has("history.jsonl") || files.has("current") || folders.has("current"));

/**
 * Number of a plan folder's current revision, from the text of its pointer (null where the pointer is a link, which browsers do not show as one) and of its
 * history, among the revisions that are there; null for none. Files of two revisions must never be mixed, so there is exactly one answer.
 */
export function currentOf(pointer: string | null, history: string | null, revisions: readonly string[]): number | null {
  const there = new Set(revisions.filter((name) => /^[1-9]\d{0,8}$/.test(name)).map(Number));
  const pointed = Number(/^revisions[/\\](\d{1,9})\s*$/.exec(pointer ?? "")?.[1] ?? Number.NaN);
  if (there.has(pointed)) return pointed;
  // A line is written before its revision becomes the current one, so one without a folder belongs to a run that was killed.
  const lines = (history ?? "").split("\n").map(revisionOf);
  return (
    lines.findLast((revision) => revision !== null && there.has(revision)) ??
    (there.size === 0 ? null : Math.max(...there))
  );
}

function revisionOf(line: string): number | null {
  try {
    const value: unknown = JSON.parse(line);
    const revision = typeof value === "object" && value !== null && "revision" in value ? value.revision : null;
    return typeof revision === "number" ? revision : null;
  } catch {
    return null;
  }
}
