import initGeosJs from "geos-wasm";
import { planeOf, toPlane } from "../../src/core/plane/plane.ts";
import { JOIN_M, type JoinInput } from "./join-by-own-index.ts";

type Geos = Awaited<ReturnType<typeof initGeosJs>>;

/**
 * The same join by GEOS in wasm: its STRtree over the polygons and its exact distance. Geometries are made, in projected meters, before the clock
 * starts; what `run` takes is the tree, the search and the distances.
 */
export async function joinByGeos({ trees, buildings }: JoinInput): Promise<{ readonly run: () => number }> {
  const geos = await initGeosJs();
  const polygons = buildings.map((ring) => geometry(geos, `POLYGON((${ring.map(projected).join(",")}))`));
  const points = trees.map((place) => geometry(geos, `POINT(${projected(place)})`));
  const boxes = trees.map((place) => {
    const [x, y] = projected(place).split(" ").map(Number) as [number, number];
    const [west, south, east, north] = [x - JOIN_M, y - JOIN_M, x + JOIN_M, y + JOIN_M];
    return geometry(
      geos,
      `POLYGON((${west} ${south},${east} ${south},${east} ${north},${west} ${north},${west} ${south}))`,
    );
  });
  const out = geos.Module._malloc(8);
  let point = 0;
  let nearestM = 0;
  const { addFunction } = geos.Module as unknown as {
    addFunction: (call: (item: number) => void, type: string) => never;
  };
  const visit = addFunction((polygon) => {
    geos.GEOSDistance(polygon, point, out);
    nearestM = Math.min(nearestM, geos.Module.getValue(out, "double"));
  }, "vii");
  const run = (): number => {
    const tree = geos.GEOSSTRtree_create(10);
    for (const polygon of polygons) geos.GEOSSTRtree_insert(tree, polygon, polygon);
    let sumM = 0;
    for (let at = 0; at < points.length; at += 1) {
      point = points[at]!;
      nearestM = Number.POSITIVE_INFINITY;
      geos.GEOSSTRtree_query(tree, boxes[at]!, visit, 0);
      if (nearestM <= JOIN_M) sumM += nearestM;
    }
    geos.GEOSSTRtree_destroy(tree);
    return sumM;
  };
  return { run };
}

function projected([lonDeg, latDeg]: readonly number[]): string {
  return toPlane(planeOf(lonDeg!), lonDeg!, latDeg!).join(" ");
}

function geometry(geos: Geos, wkt: string): number {
  const bytes = wkt.length + 1;
  const pointer = geos.Module._malloc(bytes);
  geos.Module.stringToUTF8(wkt, pointer, bytes);
  const read = geos.GEOSGeomFromWKT(pointer);
  geos.Module._free(pointer);
  return read;
}
