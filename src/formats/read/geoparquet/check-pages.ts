import type { FileMetaData } from "hyparquet";
import { parquetSchema } from "hyparquet";
import { parquetHeader } from "hyparquet/src/column.js";
import { decompressPage } from "hyparquet/src/datapage.js";
import { getMaxDefinitionLevel, getMaxRepetitionLevel, getTreePath } from "hyparquet/src/schema.js";
import type { Limits } from "../limits.ts";
import { damaged, pastLimit, unreadableFile } from "../unreadable-file.ts";
import { checkRuns } from "./check-runs.ts";
import { decompressors, READ_CODECS } from "./decompressors.ts";

type ColumnMeta = NonNullable<FileMetaData["row_groups"][number]["columns"][number]["meta_data"]>;
type PageHeader = ReturnType<typeof parquetHeader>;

/** How values may be written; DELTA_BYTE_ARRAY is left out, as a few damaged bytes in it ask for gigabytes. */
const READ_ENCODINGS: ReadonlySet<string> = new Set([
  ..."PLAIN PLAIN_DICTIONARY RLE_DICTIONARY RLE BIT_PACKED DELTA_BINARY_PACKED DELTA_LENGTH_BYTE_ARRAY BYTE_STREAM_SPLIT".split(
    " ",
  ),
]);

/**
 * Walks over every page of a Parquet file before its values are read and throws UnreadableError for one that is damaged or past a limit:
 * sizes, counts of values, and the lengths of runs, which the reader would otherwise believe, billions of values included.
 */
export function checkPages(bytes: Uint8Array, metadata: FileMetaData, limits: Limits): void {
  const tree = parquetSchema(metadata);
  let unpacked = 0;
  for (const group of metadata.row_groups) {
    for (const { meta_data: meta } of group.columns) {
      if (meta === undefined) throw damaged("Parquet file", "a column says nothing of itself");
      if (!READ_CODECS.has(meta.codec)) {
        throw unreadableFile(
          "codec-not-read",
          `The Parquet file is packed with ${meta.codec}, which is not read.`,
          "Write it with Snappy or GZIP.",
        );
      }
      const path = getTreePath(tree, meta.path_in_schema);
      const levels = { definition: getMaxDefinitionLevel(path), repetition: getMaxRepetitionLevel(path) };
      const values = checkColumn(bytes, meta, levels, limits, (count) => {
        unpacked += count;
        if (unpacked > limits.unzippedBytes)
          throw pastLimit(`more than ${limits.unzippedBytes} bytes unpacked`, limits.unzippedBytes, "Split the file.");
      });
      const isFlat = levels.repetition === 0;
      if (isFlat && values !== Number(group.num_rows))
        throw damaged("Parquet file", "a column has not as many values as there are rows");
    }
  }
}

interface Levels {
  readonly definition: number;
  readonly repetition: number;
}

function checkColumn(
  bytes: Uint8Array,
  meta: ColumnMeta,
  levels: Levels,
  limits: Limits,
  count: (bytes: number) => void,
): number {
  const start = Number(meta.dictionary_page_offset || meta.data_page_offset);
  const length = Number(meta.total_compressed_size);
  if (!(start >= 4 && length > 0 && start + length <= bytes.length))
    throw damaged("Parquet file", "a column lies outside it");
  const view = new DataView(bytes.buffer, bytes.byteOffset + start, length);
  const reader = { view, offset: 0 };
  let values = 0;
  while (reader.offset < length - 1) {
    const header = parquetHeader(reader);
    const [packed, unpacked] = [Number(header.compressed_page_size), Number(header.uncompressed_page_size)];
    if (!(packed >= 0 && unpacked >= 0 && reader.offset + packed <= length))
      throw damaged("Parquet file", "a page is cut short");
    count(unpacked);
    const page = new Uint8Array(view.buffer, view.byteOffset + reader.offset, packed);
    values += checkPage(page, header, meta, levels, limits);
    if (values > limits.vertices) throw pastLimit("more values in a column", limits.vertices, "Split the file.");
    reader.offset += packed;
  }
  return values;
}

/** Checks one page and gives the values it adds to its column. */
function checkPage(packed: Uint8Array, header: PageHeader, meta: ColumnMeta, levels: Levels, limits: Limits): number {
  const unpacked = Number(header.uncompressed_page_size);
  const codecs = decompressors(limits);
  if (header.type === "DICTIONARY_PAGE") {
    const entries = header.dictionary_page_header?.num_values ?? -1;
    if (entries < 0 || entries > unpacked * 8) throw damaged("Parquet file", "a dictionary is broken");
    return 0;
  }
  if (header.type === "DATA_PAGE" && header.data_page_header !== undefined) {
    const { num_values: values, encoding } = header.data_page_header;
    checkEncoding(encoding, values, limits);
    const page = decompressPage(packed, unpacked, meta.codec, codecs);
    let at = 0;
    for (const level of [levels.repetition, levels.definition])
      if (level > 0) at = checkRuns(page, at, level, values, null);
    checkIndexes(page, at, encoding, meta.type, values);
    return values;
  }
  if (header.type === "DATA_PAGE_V2" && header.data_page_header_v2 !== undefined) {
    const page = header.data_page_header_v2;
    const {
      num_values: values,
      encoding,
      repetition_levels_byte_length: repetition,
      definition_levels_byte_length: definition,
    } = page;
    checkEncoding(encoding, values, limits);
    if (
      !(repetition >= 0 && definition >= 0 && repetition + definition <= packed.length) ||
      page.num_nulls < 0 ||
      page.num_nulls > values
    ) {
      throw damaged("Parquet file", "a page is broken");
    }
    if (levels.repetition > 0) checkRuns(packed, 0, levels.repetition, values, repetition);
    if (levels.definition > 0) checkRuns(packed, repetition, levels.definition, values, definition);
    const body = packed.subarray(repetition + definition);
    const content =
      page.is_compressed === false
        ? body
        : decompressPage(body, unpacked - repetition - definition, meta.codec, codecs);
    checkIndexes(content, 0, encoding, meta.type, values);
    return values;
  }
  throw damaged("Parquet file", "a page is of an unknown kind");
}

function checkEncoding(encoding: string, values: number, limits: Limits): void {
  if (!(values >= 0 && values <= limits.vertices)) throw damaged("Parquet file", "a page is broken");
  if (!READ_ENCODINGS.has(encoding)) {
    throw unreadableFile(
      "encoding-not-read",
      `The Parquet file writes values as ${encoding}, which is not read.`,
      "Write it with plain or dictionary encoding.",
    );
  }
}

/** Checks the runs of dictionary indexes, and of booleans written as runs. */
function checkIndexes(page: Uint8Array, at: number, encoding: string, type: string, values: number): void {
  if (encoding === "PLAIN_DICTIONARY" || encoding === "RLE_DICTIONARY") {
    const width = page[at];
    if (width === undefined || width > 32) throw damaged("Parquet file", "a page is broken");
    if (width > 0) checkRuns(page, at + 1, 2 ** width - 1, values, page.length - at - 1);
  } else if (encoding === "RLE" && type === "BOOLEAN") checkRuns(page, at, 1, values, null);
}
