import { Neighborhood } from "../plane/neighborhood.ts";
import { planeOf, toPlane } from "../plane/plane.ts";
import { ShapesBuilder } from "../plane/shapes-builder.ts";
import { isPath, type Way } from "./way.ts";

/** Samples along a line by which it is found to run on an area. */
const COVER_SAMPLES = 9;

/** Answers whether at least half of a line's sample points lie in an area of the same kind of way. */
export function surveyedCover(ways: readonly Way[]): (way: Way) => boolean {
  const areas = ways.filter((way) => way.rings !== null);
  if (areas.length === 0) return () => false;
  const builder = new ShapesBuilder();
  areas.forEach((way, owner) => {
    builder.addArea(owner, way.rings!);
  });
  const planes = builder.finish();
  const around = new Neighborhood();
  return (way) => {
    let inside = 0;
    let samples = 0;
    for (const line of way.lines!) {
      const step = Math.max(1, Math.ceil((line.length - 1) / COVER_SAMPLES));
      for (let at = 0; at + 1 < line.length; at += step) {
        const [a, b] = [line[at]!, line[at + 1]!];
        const lonDeg = (a[0]! + b[0]!) / 2;
        const shapes = planes.get(planeOf(lonDeg));
        samples += 1;
        if (shapes === undefined) continue;
        const [xM, yM] = toPlane(shapes.plane, lonDeg, (a[1]! + b[1]!) / 2);
        around.search(shapes, xM, yM, 0);
        for (let position = 0; position < around.itemCount; position += 1) {
          around.load(position, 0);
          if (!around.isInside || isPath(areas[shapes.itemOwner[around.items[position]!]!]!.kind) !== isPath(way.kind))
            continue;
          inside += 1;
          break;
        }
      }
    }
    return samples > 0 && inside * 2 >= samples;
  };
}
