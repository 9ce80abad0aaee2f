import type { Map as MapLibreMap } from "maplibre-gl";
import { SOURCES } from "../ids.ts";
import type { UnderPointer } from "./under-pointer.ts";

/** Sources whose features show that a tree or a zone is selected or pointed at. */
const SOURCES_OF: Readonly<Record<UnderPointer["what"], readonly string[]>> = {
  tree: [SOURCES.trees, SOURCES.crowns, SOURCES.solids],
  zone: [SOURCES.zoneEdges, SOURCES.zoneBands],
};

/** Says on the map whether a tree or zone is selected or pointed at; sources that are not there are passed over. */
export function setFeatureState(
  map: MapLibreMap,
  { what, id }: UnderPointer,
  state: { readonly selected?: boolean; readonly hover?: boolean },
): void {
  for (const source of SOURCES_OF[what]) {
    if (map.getSource(source) !== undefined) map.setFeatureState({ source, id }, state);
  }
}
