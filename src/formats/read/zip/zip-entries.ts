import { withThousands } from "../../../core/units/with-thousands.ts";
import type { Limits } from "../limits.ts";
import { damaged, pastLimit, unreadableFile } from "../unreadable-file.ts";
import { crc32 } from "./crc32.ts";
import { type Budget, inflateEntry } from "./inflate-bounded.ts";

/** A file in a zip; nothing is unpacked before `unpackEntry`. */
export interface ZipEntry {
  /** Path as it stands in the zip, with `/` between folders. Only compared, never used to write. */
  readonly path: string;
  /** Last part of the path. */
  readonly name: string;
  readonly isEncrypted: boolean;
  readonly method: number;
  readonly crc: number;
  readonly packedBytes: number;
  readonly bytes: number;
  readonly headerAt: number;
}

const END = 0x06054b50;
const CENTRAL = 0x02014b50;
const LOCAL = 0x04034b50;
/** The end record and its longest comment (APPNOTE 4.3.16). */
const MAX_END = 22 + 65_535;

/** The files of a zip by its central directory (APPNOTE 6.3), folders and hidden files left out. Throws UnreadableError for a damaged one. */
export function zipEntries(bytes: Uint8Array, limits: Limits): ZipEntry[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = endRecord(view);
  const count = view.getUint16(end + 10, true);
  const start = view.getUint32(end + 16, true);
  if (count === 0xffff || start === 0xffffffff) {
    throw unreadableFile(
      "zip64",
      "The zip is of the large kind (Zip64), which is not read.",
      "Unpack it and give the file inside.",
    );
  }
  if (count > limits.zipEntries)
    throw pastLimit(`${withThousands(count)} entries`, limits.zipEntries, "Zip only the layer.");
  const entries: ZipEntry[] = [];
  let at = start;
  for (let index = 0; index < count; index += 1) {
    if (at + 46 > end || view.getUint32(at, true) !== CENTRAL) throw damaged("zip", "its directory is broken");
    const nameLength = view.getUint16(at + 28, true);
    const next = at + 46 + nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
    if (next > end) throw damaged("zip", "its directory is broken");
    const flags = view.getUint16(at + 8, true);
    const path = entryPath(bytes.subarray(at + 46, at + 46 + nameLength));
    const name = path.slice(path.lastIndexOf("/") + 1);
    if (name !== "" && !name.startsWith(".") && !path.startsWith("__MACOSX/")) {
      entries.push({
        path,
        name,
        isEncrypted: (flags & 1) !== 0,
        method: view.getUint16(at + 10, true),
        crc: view.getUint32(at + 16, true),
        packedBytes: view.getUint32(at + 20, true),
        bytes: view.getUint32(at + 24, true),
        headerAt: view.getUint32(at + 42, true),
      });
    }
    at = next;
  }
  return entries;
}

/** An entry's bytes, counted against the budget as they are made and checked against the sum the zip keeps of them. */
export function unpackEntry(bytes: Uint8Array, entry: ZipEntry, budget: Budget, limits: Limits): Uint8Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const { headerAt, packedBytes, method, name } = entry;
  if (entry.isEncrypted) {
    throw unreadableFile(
      "encrypted",
      `The zip locks ${name.slice(0, 120)} with a password.`,
      "Unpack it and give the file inside.",
    );
  }
  if (headerAt + 30 > bytes.length || view.getUint32(headerAt, true) !== LOCAL)
    throw damaged("zip", "an entry is not where it should be");
  const start = headerAt + 30 + view.getUint16(headerAt + 26, true) + view.getUint16(headerAt + 28, true);
  if (start + packedBytes > bytes.length) throw damaged("zip", "an entry is cut short");
  const packed = bytes.subarray(start, start + packedBytes);
  if (method !== 0 && method !== 8) {
    throw unreadableFile(
      "zip-method",
      `The zip packs ${name.slice(0, 120)} in a way (${method}) that is not read.`,
      "Zip it the usual way (Deflate).",
    );
  }
  if (method === 0) budget.left -= packed.length;
  if (budget.left < 0) throw pastLimit("unpacked more bytes", limits.unzippedBytes, "Split the data.");
  const content = method === 0 ? packed : inflateEntry(packed, entry.bytes, budget, paddedLimits(name, limits));
  if (crc32(content) !== entry.crc) throw damaged("zip", `the sum of ${name.slice(0, 120)} is wrong`);
  return content;
}

function endRecord(view: DataView): number {
  for (let at = view.byteLength - 22; at >= 0 && at >= view.byteLength - MAX_END; at -= 1) {
    if (view.getUint32(at, true) === END) return at;
  }
  throw damaged("zip", "it has no directory");
}

/** A .dbf pads every text with blanks, which pack to almost nothing: it may grow to a third of a gigabyte before its ratio counts. */
const paddedLimits = (name: string, limits: Limits): Limits =>
  name.toLowerCase().endsWith(".dbf") ? { ...limits, ratioFreeBytes: limits.ratioFreeBytes * 6 } : limits;

/** Names are UTF-8 in nearly all zips; others are only compared by their endings. */
const entryPath = (bytes: Uint8Array): string => new TextDecoder().decode(bytes).replaceAll("\\", "/");
