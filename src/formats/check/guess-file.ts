import type { FeatureFault } from "../geojson/feature-fault.ts";
import { UnreadableError } from "../geojson/open-document.ts";
import type { ReadingTime } from "../geojson/reading-time.ts";
import type { Converted } from "../read/converted.ts";
import { toGeoJson } from "../read/to-geojson.ts";
import type { FileToCheck } from "./check-files.ts";
import { guessLayer, type LayerGuess } from "./guess-layer.ts";
import { lookAtFile } from "./look-at-file.ts";

/** What a file was taken for. */
export interface GuessedFile {
  readonly guess: LayerGuess;
  /** Name to report it under: with the table, where one was asked for. */
  readonly file: string;
  /** The file as GeoJSON, where it had to be opened to be looked at. */
  readonly converted: Converted | null;
  /** Why it could not be looked at. */
  readonly fault: FeatureFault | null;
}

/** The layer of a file, where it was not given: by the names of file and table, else by what it holds; binary formats are opened for that. */
export async function guessFile(toCheck: FileToCheck, time: ReadingTime): Promise<GuessedFile> {
  const { name, bytes, layer, table = null } = toCheck;
  const file = table === null ? name : `${name}, ${table}`;
  if (layer !== null && table === null) return { guess: { layer, because: null }, file, converted: null, fault: null };
  const look = lookAtFile(bytes);
  const byName = guessLayer(name, look);
  if (table === null && look.points + look.lines + look.polygons > 0)
    return { guess: byName, file, converted: null, fault: null };
  try {
    const hinted = layer ?? byName.layer;
    const asked = table ?? (hinted === null ? null : (toCheck.tables?.get(hinted) ?? null));
    const converted = await toGeoJson(bytes, name, { table: asked, layer: hinted, time });
    const held = lookAtFile(converted.bytes);
    const byTable = guessLayer(table ?? name, held);
    const guess = layer !== null ? { layer, because: null } : byTable.layer === null ? guessLayer(name, held) : byTable;
    return { guess, file, converted, fault: null };
  } catch (error) {
    if (!(error instanceof UnreadableError)) throw error;
    // Read again under the layer's name, the file says the same of itself.
    return { guess: layer !== null ? { layer, because: null } : byName, file, converted: null, fault: error.fault };
  }
}
