import { type Collection, collection } from "./geojson.ts";
import { thinned } from "./line.ts";
import type { Block } from "./network.ts";

/** `roads.geojson`: one centerline a block. */
export function roads(blocks: readonly Block[]): Collection {
  return collection(
    blocks.map(({ street, line }, at) => ({
      geometry: { type: "LineString", points: thinned(line, 0.02) },
      properties: {
        id: `R-${String(at + 1).padStart(3, "0")}`,
        name: street.name,
        class: street.class,
        speed: `${street.speedMph} mph`,
        lanes: street.lanes,
        width: street.hasWidthColumn ? street.widthM : null,
        oneway: "no",
        parking: street.parking,
        surface: street.class === "service-alley" ? "gravel" : "asphalt",
        bus: street.isBusRoute ? "yes" : "no",
      },
    })),
  );
}
