import { type Collection, collection } from "./geojson.ts";
import { isOnGrounds, TRANSMISSION_LINE } from "./grounds.ts";
import { along, distance, distanceToLine, type Line, lengthOf, type Point, rightOf, stationOn } from "./line.ts";
import { type Random, randomStream } from "./random.ts";
import { STREETS, type Street } from "./streets.ts";
import { lotOffsetM } from "./walks.ts";

export interface Building {
  readonly ring: Line;
  readonly name: string | null;
  readonly kind: "house" | "garage" | "shop" | "public";
  readonly heightM: number;
  readonly levels: number;
  readonly center: Point;
  /** From the building toward the back of its lot. */
  readonly back: Point;
  readonly depthM: number;
  readonly street: Street;
  readonly houseNumber: number;
}

/** A rectangle in the lot's own directions, kept for overlap tests. */
interface Lot {
  readonly front: Point;
  readonly along: Point;
  readonly back: Point;
}

/** Every building of the town: shops to the walk downtown, houses with yards and garages, and a few public ones. */
export function placeBuildings(): Building[] {
  const built: Building[] = [];
  for (const one of publicBuildings()) built.push(one);
  for (const kind of ["shops", "houses"] as const) {
    STREETS.forEach((street, index) => {
      if (street.fronts !== kind) return;
      for (const side of ["left", "right"] as const) {
        // Nothing is built between River Road and the river.
        if (street.name === "River Road" && side === "right") continue;
        const random = randomStream(`buildings ${index} ${side}`);
        if (kind === "shops") lineWithShops(street, side, random, built);
        else lineWithHouses(street, side, random, built);
      }
    });
  }
  addFarms(built);
  return built;
}

/** `buildings.geojson`. Some heights are unknown and have levels only, a few have neither. */
export function buildings(built: readonly Building[]): Collection {
  const random = randomStream("building columns");
  return collection(
    built.map((building, at) => {
      const known = random.next();
      return {
        geometry: { type: "Polygon", ring: building.ring },
        properties: {
          id: `B-${String(at + 1).padStart(4, "0")}`,
          name: building.name,
          height: known < 0.88 ? Number(building.heightM.toFixed(1)) : null,
          levels: known < 0.97 ? building.levels : null,
        },
      };
    }),
  );
}

function lineWithShops(street: Street, side: "left" | "right", random: Random, built: Building[]): void {
  const totalM = lengthOf(street.line);
  let atM = 4;
  while (atM < totalM - 6) {
    const widthM = random.between(7, 17);
    const depthM = random.between(17, 26);
    const levels = 1 + Math.floor(random.next() * 3.4);
    const lot = lotAt(street, side, atM + widthM / 2, 0.1);
    const ring = rectangle(lot, widthM - 0.05, depthM);
    const heightM = 1.2 + levels * 3.6;
    const building = { name: null, kind: "shop", heightM, levels, ...placeOf(lot, depthM, street, atM) } as const;
    if (!isBlocked(ring, built, 0)) built.push({ ring, ...building });
    atM += widthM + (random.chance(0.12) ? random.between(4, 9) : 0);
  }
}

function lineWithHouses(street: Street, side: "left" | "right", random: Random, built: Building[]): void {
  const totalM = lengthOf(street.line);
  let atM = 6;
  while (atM < totalM - 6) {
    const lotM = random.between(15.5, 20);
    const widthM = Math.min(lotM - 4, random.between(8.5, 13.5));
    const depthM = random.between(8, 11.5);
    const levels = random.chance(0.45) ? 2 : 1;
    const setbackM = random.between(4.2, 7.5);
    const lot = lotAt(street, side, atM + lotM / 2, setbackM);
    const notched = random.chance(0.55);
    const ring = notched ? notchedRectangle(lot, widthM, depthM, random) : rectangle(lot, widthM, depthM);
    const heightM = levels * 2.9 + random.between(1.6, 2.9);
    atM += lotM;
    if (isBlocked(rectangle(lot, widthM, depthM), built, 2.2)) continue;
    built.push({ ring, name: null, kind: "house", heightM, levels, ...placeOf(lot, depthM, street, atM) });
    const garageLot: Lot = {
      ...lot,
      front: along(
        along(lot.front, lot.back, depthM + random.between(4, 12)),
        lot.along,
        (widthM / 2 - 2) * (random.chance(0.5) ? 1 : -1),
      ),
    };
    const garage = rectangle(garageLot, 6.2, 6.6);
    if (random.chance(0.7) && !isBlocked(garage, built, 0.9)) {
      built.push({
        ring: garage,
        name: null,
        kind: "garage",
        heightM: 3.6 + random.next(),
        levels: 1,
        ...placeOf(garageLot, 6.6, street, atM),
      });
    }
  }
}

function publicBuildings(): Building[] {
  const street = (name: string): Street => STREETS.find((one) => one.name === name)!;
  const l = (x: number, y: number): Point => [x, y];
  const rows: readonly [string, string, number, number, Line][] = [
    [
      "Sedgeholt School",
      "School Street",
      8.4,
      2,
      [l(-222, 218), l(-160, 218), l(-160, 234), l(-196, 234), l(-196, 262), l(-222, 262)],
    ],
    ["School hall", "School Street", 9.5, 1, [l(-222, 266), l(-196, 266), l(-196, 284), l(-222, 284)]],
    ["Chapel", "Commerce Street", 14, 1, [l(-214, -50), l(-196, -50), l(-196, -20), l(-214, -20)]],
    ["Bandstand", "Cooper Street", 4.5, 1, [l(176, 60), l(184, 60), l(186, 64), l(184, 68), l(176, 68), l(174, 64)]],
    ["Depot", "River Road", 6.5, 1, [l(22, -186), l(64, -184), l(64, -172), l(22, -174)]],
  ];
  return rows.map(([name, streetName, heightM, levels, ring]) => ({
    ring,
    name,
    kind: "public",
    heightM,
    levels,
    center: middle(ring),
    back: [0, 1],
    depthM: 20,
    street: street(streetName),
    houseNumber: 1,
  }));
}

function addFarms(built: Building[]): void {
  const random = randomStream("farms");
  for (const street of STREETS.filter((one) => one.class === "rural-two-lane")) {
    for (let atM = 50; atM < lengthOf(street.line) - 20; atM += random.between(70, 110)) {
      const side = random.chance(0.5) ? "left" : "right";
      const house = lotAt(street, side, atM, random.between(12, 22));
      const ring = notchedRectangle(house, 13, 9.5, random);
      if (isBlocked(ring, built, 3)) continue;
      built.push({ ring, name: null, kind: "house", heightM: 7.4, levels: 2, ...placeOf(house, 9.5, street, atM) });
      const barnLot: Lot = { ...house, front: along(along(house.front, house.back, 20), house.along, 14) };
      const barn = rectangle(barnLot, 22, 11);
      if (!isBlocked(barn, built, 3)) {
        built.push({
          ring: barn,
          name: "Barn",
          kind: "garage",
          heightM: 8.2,
          levels: 1,
          ...placeOf(barnLot, 11, street, atM),
        });
      }
    }
  }
}

function lotAt(street: Street, side: "left" | "right", atM: number, setbackM: number): Lot {
  const { at, heading } = stationOn(street.line, atM);
  const right = rightOf(heading);
  const back: Point = side === "right" ? right : [-right[0], -right[1]];
  return { front: along(at, back, lotOffsetM(street) + setbackM), along: heading, back };
}

function rectangle(lot: Lot, widthM: number, depthM: number): Line {
  return outline(lot, [
    [-widthM / 2, 0],
    [widthM / 2, 0],
    [widthM / 2, depthM],
    [-widthM / 2, depthM],
  ]);
}

function notchedRectangle(lot: Lot, widthM: number, depthM: number, random: Random): Line {
  const cutM = widthM * random.between(0.3, 0.5);
  const deepM = random.between(1.5, 3.2);
  const flip = random.chance(0.5) ? 1 : -1;
  const atBack = random.chance(0.5);
  const shape: Line = [
    [-widthM / 2, 0],
    [widthM / 2 - cutM, 0],
    [widthM / 2 - cutM, deepM],
    [widthM / 2, deepM],
    [widthM / 2, depthM],
    [-widthM / 2, depthM],
  ];
  return outline(
    lot,
    shape.map(([a, b]): Point => [a * flip, atBack ? depthM - b : b]),
  );
}

const outline = (lot: Lot, shape: Line): Line =>
  shape.map(([a, b]) => along(along(lot.front, lot.along, a), lot.back, b));

function placeOf(
  lot: Lot,
  depthM: number,
  street: Street,
  atM: number,
): Pick<Building, "center" | "back" | "depthM" | "street" | "houseNumber"> {
  return {
    center: along(lot.front, lot.back, depthM / 2),
    back: lot.back,
    depthM,
    street,
    houseNumber: 100 + 2 * Math.round(atM / 6),
  };
}

const middle = (ring: Line): Point => [
  ring.reduce((sum, point) => sum + point[0], 0) / ring.length,
  ring.reduce((sum, point) => sum + point[1], 0) / ring.length,
];

/** Whether a ring would stand on a street, on open ground or nearer than `apartM` to another building. */
function isBlocked(ring: Line, built: readonly Building[], apartM: number): boolean {
  const samples = ring.flatMap((point, at): Point[] => {
    const next = ring[(at + 1) % ring.length]!;
    return [point, [(point[0] + next[0]) / 2, (point[1] + next[1]) / 2]];
  });
  const onStreet = STREETS.some((street) => {
    const offM = lotOffsetM(street) + (street.class === "service-alley" ? 1 : 0);
    return samples.some((point) => distanceToLine(point, street.line) < offM);
  });
  const isBelowLine = samples.some((point) => distanceToLine(point, TRANSMISSION_LINE) < 10);
  if (onStreet || isBelowLine || samples.some(isOnGrounds)) return true;
  const center = middle(ring);
  return built.some((other) => distance(middle(other.ring), center) < 60 && areNear(ring, other.ring, apartM));
}

/** Whether two rings come nearer than `apartM`, by their convex hulls' separating directions (edges of either). */
function areNear(a: Line, b: Line, apartM: number): boolean {
  for (const ring of [a, b]) {
    for (let at = 0; at < ring.length; at += 1) {
      const from = ring[at]!;
      const to = ring[(at + 1) % ring.length]!;
      const lengthM = distance(from, to);
      const normal: Point = [(to[1] - from[1]) / lengthM, (from[0] - to[0]) / lengthM];
      const spanOf = (line: Line): [number, number] => {
        const reach = line.map((point) => point[0] * normal[0] + point[1] * normal[1]);
        return [Math.min(...reach), Math.max(...reach)];
      };
      const [lowA, highA] = spanOf(a);
      const [lowB, highB] = spanOf(b);
      if (lowA - highB >= apartM - 1e-6 || lowB - highA >= apartM - 1e-6) return false;
    }
  }
  return true;
}
