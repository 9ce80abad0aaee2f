import type { SourceFeature } from "../../core/model/feature.ts";
import { LAYERS, type Layer } from "../../core/model/terms.ts";
import type { PlanSource } from "./plan-source.ts";

/** What a plan keeps of the layers around its trees: the file that holds a layer, and where each of its features was. */
const layerFile = (layer: Layer): string => `layer-${layer}.geojson`;
const AROUND: readonly Layer[] = LAYERS.filter((layer) => layer !== "trees");

/** Where a feature stood: file, place in it, and place in its layer. */
type Origin = readonly [file: string, index: number, ordinal: number];

type Layers = { readonly [L in Layer]?: readonly SourceFeature[] };

/**
 * The features that a run measured against, a file a layer that was given: in longitude and latitude, with all their members, and `bough_origin` beside
 * them. From these a tree is measured anew as it was at first, without the files of that day. Trees are not among them: `trees.geojson` has those.
 */
export function layerFiles(layers: Layers): Map<string, Uint8Array> {
  const files = new Map<string, Uint8Array>();
  for (const layer of AROUND) {
    const features = layers[layer];
    if (features === undefined) continue;
    const lines = features.map(({ id, properties, geometry, file, index, ordinal }) =>
      JSON.stringify({
        type: "Feature",
        ...(id === null ? {} : { id }),
        properties,
        geometry,
        bough_origin: [file, index, ordinal] satisfies Origin,
      }),
    );
    const text = `{"type":"FeatureCollection","features":[\n${lines.join(",\n")}\n]}\n`;
    files.set(layerFile(layer), new TextEncoder().encode(text));
  }
  return files;
}

/** The features that {@link layerFiles} kept, by layer; null for a plan of an earlier version, which kept none. */
export async function readLayerFiles(source: PlanSource): Promise<Layers | null> {
  const layers: { [L in Layer]?: SourceFeature[] } = {};
  let isKept = false;
  for (const layer of AROUND) {
    const bytes = await source.read(layerFile(layer));
    if (bytes === null) continue;
    isKept = true;
    const { features } = JSON.parse(new TextDecoder().decode(bytes)) as { features: readonly StoredFeature[] };
    layers[layer] = features.map(({ id = null, properties, geometry, bough_origin: [file, index, ordinal] }) => ({
      layer,
      file,
      index,
      ordinal,
      id,
      properties,
      geometry,
    }));
  }
  return isKept ? layers : null;
}

interface StoredFeature {
  readonly id?: string | number;
  readonly properties: SourceFeature["properties"];
  readonly geometry: SourceFeature["geometry"];
  readonly bough_origin: Origin;
}
