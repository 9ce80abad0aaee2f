import { damaged } from "../unreadable-file.ts";
import { FlatTable } from "./flat-table.ts";

/** What the header of a FlatGeobuf file says. */
export interface FgbHeader {
  /** Kind of every geometry; 0 where each names its own. */
  readonly geometryType: number;
  readonly columns: readonly FgbColumn[];
  /** Features the file says it has; 0 is unknown. */
  readonly features: bigint;
  /** Name or definition of the coordinate system; undefined for none, null for longitude and latitude on WGS 84. */
  readonly crs: string | null | undefined;
  /** Offset of the first feature. */
  readonly featuresAt: number;
}

export interface FgbColumn {
  readonly name: string;
  readonly type: number;
}

/** Offset of the header's size, behind the signature. */
const HEADER_AT = 8;
/** Largest header the format's own reader takes (flatgeobuf, HEADER_MAX_BUFFER_SIZE). */
const MAX_HEADER_BYTES = 10_485_760;
/** Bytes of a node of the packed index: a box of four doubles and an offset. */
const NODE_BYTES = 40;

/** Header of a FlatGeobuf file, version 3 (flatgeobuf, header.fbs). The index is stepped over by its size. Throws UnreadableError. */
export function fgbHeader(bytes: Uint8Array): FgbHeader {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (view.byteLength < HEADER_AT + 4) throw damaged("FlatGeobuf file", "it ends in its header");
  const size = view.getUint32(HEADER_AT, true);
  if (size > MAX_HEADER_BYTES || HEADER_AT + 4 + size > view.byteLength)
    throw damaged("FlatGeobuf file", "it ends in its header");
  try {
    const header = FlatTable.root(bytes.subarray(HEADER_AT + 4, HEADER_AT + 4 + size));
    const features = header.uint64(8);
    const nodeSize = header.uint16(9, 16);
    const indexBytes = nodeSize === 0 ? 0 : treeNodes(features, nodeSize) * NODE_BYTES;
    const featuresAt = HEADER_AT + 4 + size + indexBytes;
    if (featuresAt > view.byteLength) throw damaged("FlatGeobuf file", "it ends in its index");
    const columns = header
      .tables(7)
      .map((column): FgbColumn => ({ name: column.text(0) ?? "", type: column.uint8(1) }));
    return { geometryType: header.uint8(2), columns, features, crs: systemOf(header.table(10)), featuresAt };
  } catch (error) {
    if (error instanceof RangeError) throw damaged("FlatGeobuf file", "its header is broken");
    throw error;
  }
}

/** Nodes of a packed tree: every level holds one node for `nodeSize` of the level below (flatgeobuf, packedrtree). */
function treeNodes(features: bigint, nodeSize: number): number {
  let level = Number(features);
  if (level === 0) return 0;
  const size = Math.max(2, nodeSize);
  let nodes = level;
  do {
    level = Math.ceil(level / size);
    nodes += level;
  } while (level !== 1);
  return nodes;
}

function systemOf(crs: FlatTable | null): string | null | undefined {
  if (crs === null) return undefined;
  const organization = (crs.text(0) ?? "EPSG").toUpperCase();
  const code = crs.int32(1);
  const wkt = crs.text(4);
  if (code > 0) return organization === "EPSG" && code === 4326 ? null : `${organization || "EPSG"}:${code}`;
  if (wkt !== null && wkt !== "") return wkt;
  return crs.text(5) || undefined;
}
