/** Limits of the readers of formats other than GeoJSON; all our policy. Each message names the limit that was hit. */
export const LIMITS = {
  /** Bytes of one file: what Node reads into one array at once (2 GiB; Node documentation, fs.readFile). */
  fileBytes: 2 ** 31 - 1,
  /** Bytes one zip or gzip file may unpack to, all entries together, counted while they are produced. */
  unzippedBytes: 1_500_000_000,
  /** Times its packed size that an entry may grow; only asked once it is larger than `ratioFreeBytes`. */
  unzippedRatio: 200,
  ratioFreeBytes: 50_000_000,
  zipEntries: 10_000,
  rows: 5_000_000,
  columns: 2_000,
  /** Characters of one text value that is not a geometry. */
  textLength: 1_000_000,
  /** Nesting of a geometry collection or of a value with lists in it. */
  depth: 50,
  /** Positions of all geometries of a file together. */
  vertices: 50_000_000,
} as const;

/** Limits that a test may lower; every reader takes them from here when none are given. */
export type Limits = { readonly [L in keyof typeof LIMITS]: number };
