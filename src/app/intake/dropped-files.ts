/** Most files taken from one drop; a folder of more is a mistake. */
const MOST_FILES = 200;

/** The files of a drop, those in dropped folders included, at most 200. Throws nothing: what cannot be read is left out. */
export async function droppedFiles(transfer: DataTransfer): Promise<File[]> {
  const entries = [...transfer.items].map((item) => item.webkitGetAsEntry?.() ?? null);
  if (entries.every((entry) => entry === null)) return [...transfer.files].slice(0, MOST_FILES);
  const files: File[] = [];
  for (const entry of entries) if (entry !== null) await collect(entry, files);
  return files.slice(0, MOST_FILES);
}

async function collect(entry: FileSystemEntry, files: File[]): Promise<void> {
  if (files.length >= MOST_FILES || entry.name.startsWith(".")) return;
  if (entry.isFile) {
    const file = await new Promise<File | null>((resolve) =>
      (entry as FileSystemFileEntry).file(resolve, () => resolve(null)),
    );
    if (file !== null) files.push(file);
    return;
  }
  const reader = (entry as FileSystemDirectoryEntry).createReader();
  for (;;) {
    const batch = await new Promise<FileSystemEntry[]>((resolve) => reader.readEntries(resolve, () => resolve([])));
    if (batch.length === 0) return;
    for (const inner of batch) await collect(inner, files);
  }
}
