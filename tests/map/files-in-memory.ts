import type { Plan } from "../../src/core/model/plan.ts";
import {
  conflictFeatures,
  sightFeatures,
  surroundingFeatures,
  zoneFeatures,
} from "../../src/core/plan/plan-features.ts";
import { planManifest } from "../../src/core/plan/plan-manifest.ts";
import { joinBytes } from "../../src/formats/join-bytes.ts";
import { collectionText, encoded } from "../../src/formats/plan/plan-files.ts";
import { type ByteFile, memoryFile } from "../../src/formats/tiles/byte-file.ts";

/** A plan's own files that its tiles are made from, by name, in memory. Throws Error for another name. */
export function filesInMemory(of: Plan): (name: string) => ByteFile {
  const lines = of.trees.map((tree, row) =>
    JSON.stringify({ tree, setting: of.settings[row], prescription: of.prescriptions[row] }),
  );
  const files: Record<string, Iterable<string>> = {
    "plan.json": [JSON.stringify(planManifest(of))],
    "prescriptions.jsonl": lines.map((line) => `${line}\n`),
    "conflicts.geojson": collectionText(of.conflicts, conflictFeatures),
    "surroundings.geojson": collectionText(of.surroundings, surroundingFeatures),
    "sight.geojson": collectionText(of.sight, sightFeatures),
    "zones.geojson": collectionText(of.zones, zoneFeatures),
  };
  const held = new Map(Object.entries(files).map(([name, texts]) => [name, memoryFile(joinBytes(encoded(texts)))]));
  return (name) => {
    const file = held.get(name);
    if (file === undefined) throw new Error(`Expected a file that tiles are made from, got ${name}`);
    return file;
  };
}
