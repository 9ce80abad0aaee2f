import { basename } from "node:path";
import type { LayerFile } from "../formats/plan/plan-request.ts";
import { isDatabaseAddress, layerAddress } from "./postgis/postgis-address.ts";
import { readInput } from "./read-input.ts";

/** Bytes of a layer with the name it is shown under: of a file, or of a table or query of a database. Throws CommandError. */
export async function layerBytes(path: string): Promise<Pick<LayerFile, "name" | "bytes" | "crs">> {
  if (!isDatabaseAddress(path)) return { name: basename(path), bytes: await readInput(path) };
  const { readPostgisLayer } = await import("./postgis/read-layer.ts");
  return { ...(await readPostgisLayer(layerAddress(path))), crs: "EPSG:4326" };
}
