import { FetchSource, FileSource, PMTiles } from "pmtiles";
import type { RecordPlaces } from "./record-places.ts";
import { TILES_FILE } from "./tile-layers.ts";

/** How MapLibre is taught where tiles come from: its module, or an object with these two of its functions. */
export interface TileHost {
  addProtocol(
    name: string,
    load: (request: { readonly url: string }, abort: AbortController) => Promise<{ data: ArrayBuffer }>,
  ): void;
  removeProtocol(name: string): void;
}

/** A plan of which a map reads only the tiles that it looks at. */
export interface TiledPlan {
  readonly tiles: PMTiles;
  readonly host: TileHost;
  /** A small file of the revision, whole; null where there is none, and for tiles without their revision. */
  read(name: string): Promise<string | null>;
  /** A part of a large file of the revision; null as above. Throws Error where the server gives no parts. */
  readPart(name: string, at: number, bytes: number): Promise<string | null>;
}

/**
 * A plan by its tiles: the address of a revision's folder or of `plan.pmtiles` in it, or that file alone, of which no cards can be shown. `host` is the map
 * library itself, since where tiles come from is known to all its maps together.
 *
 * @example addPlan(map, tiledPlan("/plan/current/", maplibregl));
 */
export function tiledPlan(from: string | URL | File, host: TileHost): TiledPlan {
  if (typeof from === "object" && "arrayBuffer" in from)
    return { tiles: new PMTiles(new FileSource(from)), host, read: async () => null, readPart: async () => null };
  const address = String(from);
  const folder = address.endsWith(".pmtiles") ? address.slice(0, address.lastIndexOf("/") + 1) : withSlash(address);
  const file = address.endsWith(".pmtiles") ? address : folder + TILES_FILE;
  return {
    tiles: new PMTiles(new FetchSource(file)),
    host,
    read: async (name) => (await answer(folder + name, {}))?.text() ?? null,
    readPart: async (name, at, bytes) => {
      const response = await answer(folder + name, { Range: `bytes=${at}-${at + bytes - 1}` });
      if (response === null) return null;
      if (response.status !== 206) {
        await response.body?.cancel();
        throw new Error(`${folder}${name}: the server gives no parts of files, so that no card can be read`);
      }
      return response.text();
    },
  };
}

/** Whether an input is a plan by its tiles. */
export const isTiledPlan = (input: unknown): input is TiledPlan =>
  typeof input === "object" && input !== null && "tiles" in input && "host" in input && "readPart" in input;

/** The records of a tree: its line, and the lines of its conflicts. Null where they cannot be had. */
export async function treeRecords(
  plan: TiledPlan,
  { at, bytes, conflictsAt, conflictsBytes }: RecordPlaces,
): Promise<{ readonly line: string; readonly conflicts: readonly string[] } | null> {
  const [line, conflicts] = await Promise.all([
    plan.readPart("prescriptions.jsonl", at, bytes),
    conflictsBytes === 0 ? "" : plan.readPart("conflicts.geojson", conflictsAt, conflictsBytes),
  ]);
  if (line === null || conflicts === null) return null;
  const lines = conflicts.split("\n").filter((one) => one !== "");
  return { line, conflicts: lines.map((one) => one.replace(/,$/, "")) };
}

async function answer(address: string, headers: Record<string, string>): Promise<Response | null> {
  const response = await fetch(address, { headers });
  if (response.status === 404) return null;
  if (!response.ok) throw new Error(`${address} answered ${response.status}`);
  return response;
}

const withSlash = (address: string): string => (address.endsWith("/") ? address : `${address}/`);
