import { closeSync, fstatSync, openSync, readSync } from "node:fs";
import type { ByteFile } from "../../formats/tiles/byte-file.ts";

/** A file on disk whose parts are read as they are needed, until it is closed. Throws system errors as they come. */
export function fileOnDisk(path: string): ByteFile & { close(): void } {
  const handle = openSync(path, "r");
  return {
    size: fstatSync(handle).size,
    read: (from, to) => {
      const bytes = new Uint8Array(to - from);
      let done = 0;
      while (done < bytes.length) {
        const count = readSync(handle, bytes, done, bytes.length - done, from + done);
        if (count === 0) throw new Error(`${path} ended before ${to}: it changed while it was read`);
        done += count;
      }
      return bytes;
    },
    close: () => closeSync(handle),
  };
}
