import type { Map as MapLibreMap } from "maplibre-gl";

/** The ground a map looks at, in degrees, and how closely. */
export interface SeenGround {
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
  readonly zoom: number;
}

/** What a map looks at, with a margin that is a share of its width and height on every side. */
export function seenGround(map: MapLibreMap, marginShare: number): SeenGround {
  const bounds = map.getBounds();
  const [west, south, east, north] = [bounds.getWest(), bounds.getSouth(), bounds.getEast(), bounds.getNorth()];
  const besideDeg = (east - west) * marginShare;
  const aboveDeg = (north - south) * marginShare;
  return {
    west: west - besideDeg,
    south: south - aboveDeg,
    east: east + besideDeg,
    north: north + aboveDeg,
    zoom: map.getZoom(),
  };
}

/** Whether what was brought for one look serves another: the same ground, and at most half a zoom closer. */
export const covers = (brought: SeenGround, seen: SeenGround): boolean =>
  brought.west <= seen.west &&
  brought.south <= seen.south &&
  brought.east >= seen.east &&
  brought.north >= seen.north &&
  seen.zoom <= brought.zoom + 0.5;
