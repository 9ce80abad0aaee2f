import type { Position } from "geojson";
import type { Map as MapLibreMap } from "maplibre-gl";
import { TerraDraw, TerraDrawLineStringMode, TerraDrawPolygonMode, TerraDrawSelectMode } from "terra-draw";
import { ShapeAdapter } from "./shape-adapter.ts";

/** What is drawn: an outline around trees, or a line across a zone. */
export type ShapeKind = "outline" | "line";

/** A shape being drawn; its corners can be moved until it is ended. */
export interface ShapeInHand {
  /** Takes the shape off the map and gives pointer and double click back as they were. */
  end(): void;
}

interface Inks {
  /** `#rrggbb` */
  readonly ink: string;
  readonly paper: string;
}

const MODE = { outline: "polygon", line: "linestring" } as const;

/**
 * Lets the reader draw a shape on the map by clicking its corners, and move them afterwards. `onShape` hears its positions in longitude and latitude
 * whenever they change, an outline as one open ring; null while there are too few.
 */
export function drawShape(
  map: MapLibreMap,
  kind: ShapeKind,
  { ink, paper }: Inks,
  onShape: (positions: readonly Position[] | null) => void,
): ShapeInHand {
  const points = {
    coordinatePointColor: hex(paper),
    coordinatePointOutlineColor: hex(ink),
    closingPointColor: hex(paper),
    closingPointOutlineColor: hex(ink),
  };
  const selected = {
    selectedPolygonColor: hex(ink),
    selectedPolygonFillOpacity: 0.08,
    selectedPolygonOutlineColor: hex(ink),
    selectedPolygonOutlineWidth: 2,
    selectedLineStringColor: hex(ink),
    selectedLineStringWidth: 2,
    selectionPointColor: hex(paper),
    selectionPointOutlineColor: hex(ink),
    selectionPointOutlineWidth: 2,
    midPointColor: hex(ink),
    midPointOutlineColor: hex(paper),
  };
  const movable = { feature: { draggable: true, coordinates: { midpoints: true, draggable: true, deletable: true } } };
  const { cursor } = map.getCanvas().style;
  const zoomsByDoubleClick = map.doubleClickZoom.isEnabled();
  const draw = new TerraDraw({
    adapter: new ShapeAdapter(map),
    modes: [
      new TerraDrawPolygonMode({
        styles: { fillColor: hex(ink), fillOpacity: 0.08, outlineColor: hex(ink), outlineWidth: 2, ...points },
      }),
      new TerraDrawLineStringMode({ styles: { lineStringColor: hex(ink), lineStringWidth: 2 } }),
      new TerraDrawSelectMode({ styles: selected, flags: { polygon: movable, linestring: movable } }),
    ],
  });
  draw.start();
  draw.setMode(MODE[kind]);
  draw.on("change", () => onShape(shapeOf(draw, kind)));
  draw.on("finish", (id, { action }) => {
    if (action !== "draw") return;
    // From here on its corners can be moved.
    draw.setMode("select");
    draw.selectFeature(id);
    onShape(shapeOf(draw, kind));
  });
  return {
    end: () => {
      // A mode lets go of the pointer only when another follows.
      draw.setMode("static");
      draw.stop();
      map.getCanvas().style.cursor = cursor;
      if (!zoomsByDoubleClick) map.doubleClickZoom.disable();
    },
  };
}

function shapeOf(draw: TerraDraw, kind: ShapeKind): readonly Position[] | null {
  const shape = draw
    .getSnapshot()
    .find(({ geometry }) => geometry.type === (kind === "outline" ? "Polygon" : "LineString"));
  if (shape === undefined) return null;
  const positions = (
    kind === "outline" ? (shape.geometry.coordinates as Position[][])[0]!.slice(0, -1) : shape.geometry.coordinates
  ) as Position[];
  return positions.length < (kind === "outline" ? 3 : 2) ? null : positions;
}

const hex = (color: string) => color as `#${string}`;
