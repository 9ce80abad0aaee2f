import { type Collection, collection } from "./geojson.ts";
import { GROUND_WALKS, RIVER_PATH } from "./grounds.ts";
import { distanceToLine, type Line, lengthOf, type Point, sideLine, stationOn, thinned } from "./line.ts";
import { STREETS, type Street } from "./streets.ts";

/** Distance in meters from a street's centerline to the middle of its walk. */
export const walkOffsetM = (street: Street): number => street.widthM / 2 + street.vergeM + street.walkM / 2;
/** Distance in meters from a street's centerline to where the lots begin. */
export const lotOffsetM = (street: Street): number => street.widthM / 2 + street.vergeM + street.walkM;

export const hasWalk = (street: Street, side: "left" | "right"): boolean =>
  street.walks === "both" || street.walks === side;

/** A walk beside a street. */
export interface Walk {
  readonly street: Street;
  readonly side: "left" | "right";
  readonly line: Line;
}

/** The walks beside the streets: whole along each street, open where they would cross another street's roadway. */
export function streetWalks(): Walk[] {
  return STREETS.flatMap((street) =>
    (["left", "right"] as const)
      .filter((side) => hasWalk(street, side))
      .flatMap((side) =>
        dryPieces(sideLine(street.line, (side === "right" ? 1 : -1) * walkOffsetM(street)), street).map((line) => ({
          street,
          side,
          line,
        })),
      ),
  );
}

/** `paths.geojson`: street walks, walks through grounds and the shared river path. */
export function paths(walks: readonly Walk[]): Collection {
  const rows = [
    ...walks.map(({ street, line }) => ({ line, name: street.name, class: "footway", width: street.walkM })),
    ...GROUND_WALKS.map((line) => ({ line, name: null, class: "footway", width: 2.4 })),
    { line: RIVER_PATH, name: "River Path", class: "cycleway", width: 3 },
  ];
  return collection(
    rows.map((row, at) => ({
      geometry: { type: "LineString", points: row.line },
      properties: {
        id: `P-${String(at + 1).padStart(3, "0")}`,
        name: row.name,
        class: row.class,
        width: row.width,
        surface: row.class === "cycleway" ? "asphalt" : "concrete",
      },
    })),
  );
}

function dryPieces(line: Line, own: Street): Line[] {
  const others = STREETS.filter((street) => street !== own && street.class !== "service-alley");
  const totalM = lengthOf(line);
  const result: Line[] = [];
  let run: Point[] = [];
  const close = (): void => {
    if (run.length > 8) result.push(thinned(run, 0.02));
    run = [];
  };
  for (let lengthM = 0; lengthM <= totalM; lengthM += 1) {
    const { at } = stationOn(line, lengthM);
    const isDry = others.every((street) => distanceToLine(at, street.line) > street.widthM / 2 + 0.2);
    if (isDry) run.push(at);
    else close();
  }
  close();
  return result;
}
