import { type Compressors, snappyUncompress } from "hyparquet";
import { ReadingTime } from "../../geojson/reading-time.ts";
import type { Limits } from "../limits.ts";
import { gunzip } from "../zip/inflate-bounded.ts";

/** Packings of Parquet pages that are read; others are refused by name. */
export const READ_CODECS: ReadonlySet<string> = new Set(["UNCOMPRESSED", "SNAPPY", "GZIP"]);

/** The decompressors of the packings that are read; each makes exactly the bytes its page promises, or throws. */
export const decompressors = (limits: Limits): Compressors => ({
  SNAPPY: (packed, length) => {
    const page = new Uint8Array(length);
    snappyUncompress(packed, page);
    return page;
  },
  GZIP: (packed, length) => gunzip(packed, { left: length, time: new ReadingTime() }, limits),
});
