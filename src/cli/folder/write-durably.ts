import { type FileHandle, open, rename, stat } from "node:fs/promises";

/** A file that was written before, on the same disk, and only changes its place. */
export interface MovedFile {
  readonly movedFrom: string;
}

/** What a file is made of: bytes, text as UTF-8, bytes piece by piece, or a file that is moved. */
export type FileContent = Uint8Array | string | Iterable<Uint8Array> | MovedFile;

/** Systems that cannot flush a folder answer with one of these; a rename is as durable there as it gets. */
const NO_FOLDER_FLUSH: ReadonlySet<string> = new Set(["EISDIR", "EINVAL", "ENOTSUP", "ENOSYS"]);

/** Writes a new file and flushes it to the disk. `onPiece` is told the bytes of each piece before it is written. Fails when the file exists. */
export async function writeDurably(
  path: string,
  content: FileContent,
  onPiece: (bytes: number) => void = () => {},
): Promise<void> {
  if (isMoved(content)) {
    await moveDurably(content.movedFrom, path, onPiece);
    return;
  }
  const file = await open(path, "wx");
  try {
    for (const piece of pieces(content)) {
      onPiece(piece.length);
      await writeAll(file, piece);
    }
    await file.sync();
  } finally {
    await file.close();
  }
}

/** Flushes a file and moves it to a path where there is none. */
async function moveDurably(from: string, path: string, onPiece: (bytes: number) => void): Promise<void> {
  onPiece((await stat(from)).size);
  const file = await open(from, "r+");
  try {
    await file.sync();
  } finally {
    await file.close();
  }
  await rename(from, path);
}

/** Flushes a folder's list of names, so that what was made or renamed in it survives a power cut. */
export async function flushFolder(path: string): Promise<void> {
  if (process.platform === "win32") return;
  const folder = await open(path, "r");
  try {
    await folder.sync();
  } catch (error) {
    if (!NO_FOLDER_FLUSH.has((error as NodeJS.ErrnoException).code ?? "")) throw error;
  } finally {
    await folder.close();
  }
}

/** Writes all of the bytes at the end of an open file; the system may take them in several calls. */
export async function writeAll(file: FileHandle, bytes: Uint8Array): Promise<void> {
  let at = 0;
  while (at < bytes.length) at += (await file.write(bytes, at, bytes.length - at)).bytesWritten;
}

const isMoved = (content: FileContent): content is MovedFile => typeof content === "object" && "movedFrom" in content;

function pieces(content: Exclude<FileContent, MovedFile>): Iterable<Uint8Array> {
  if (typeof content === "string") return [new TextEncoder().encode(content)];
  return content instanceof Uint8Array ? [content] : content;
}
