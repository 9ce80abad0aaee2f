import { safeFileName } from "../formats/safe-file-name.ts";

/** Offers bytes to the reader as a download, under a name made safe. Nothing is sent anywhere: the browser writes the file. */
export function saveFile(name: string, bytes: Uint8Array, type: string): void {
  const address = URL.createObjectURL(new Blob([bytes as Uint8Array<ArrayBuffer>], { type }));
  const link = document.createElement("a");
  link.href = address;
  link.download = safeFileName(name, new Set());
  link.click();
  // The browser takes the bytes when the link is followed; a minute is ample.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
