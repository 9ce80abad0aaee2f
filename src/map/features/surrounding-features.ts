import type { Feature, FeatureCollection } from "geojson";
import type { SurroundingFeature } from "../../core/model/surroundings.ts";
import { METERS_PER_PX_AT_ZOOM_0 } from "./ground-scale.ts";
import { polePlaces } from "./pole-places.ts";

/**
 * What stands around the trees, each with the members the layers draw by: `layer`, `kind`, `name`, `class` and, for ways with a known
 * width, `px0`, its width in pixels at zoom 0 at its own latitude. Poles come as points of the layer `poles`, with `turn`, the bearing of
 * their wires.
 */
export function surroundingFeatures(surroundings: readonly SurroundingFeature[]): FeatureCollection {
  const things = surroundings.map((one): Feature => {
    const latDeg = firstLatitude(one.geometry);
    const widthM = one.width?.typicalM ?? null;
    return {
      type: "Feature",
      properties: {
        layer: one.layer,
        kind: one.kind,
        name: one.name,
        class: one.roadClass,
        px0: widthM === null ? null : widthM / (METERS_PER_PX_AT_ZOOM_0 * Math.cos((latDeg * Math.PI) / 180)),
      },
      geometry: one.geometry,
    };
  });
  const poles = polePlaces(surroundings).map(
    ({ at, turnDeg }): Feature => ({
      type: "Feature",
      properties: { layer: "poles", turn: turnDeg },
      geometry: { type: "Point", coordinates: at },
    }),
  );
  return { type: "FeatureCollection", features: [...things, ...poles] };
}

function firstLatitude(geometry: Feature["geometry"]): number {
  if (geometry.type === "GeometryCollection") return 0;
  let value: unknown = geometry.coordinates;
  while (Array.isArray(value) && Array.isArray(value[0])) value = value[0];
  return Array.isArray(value) && typeof value[1] === "number" ? value[1] : 0;
}
