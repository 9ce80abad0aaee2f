import { LIMITS, type Limits } from "../read/limits.ts";

/** Bytes of one completion, and of all that a run is given: ten thousand entries with long notes stay far below. Our policy. */
export const COMPLETION_FILE_BYTES = 20_000_000;
export const COMPLETION_ALL_BYTES = 50_000_000;
/** Files of one run, those in zips counted. Our policy. */
export const COMPLETION_FILES = 500;

/** Limits of a zip of completions: twenty entries, 50 MB unpacked, 200 times its packed size. Our policy. */
export const COMPLETION_ZIP: Limits = {
  ...LIMITS,
  zipEntries: 20,
  unzippedBytes: COMPLETION_ALL_BYTES,
  unzippedRatio: 200,
  ratioFreeBytes: 1_000_000,
};
