import type { Building } from "./buildings.ts";
import { type Collection, collection, type Feature } from "./geojson.ts";
import { TRANSMISSION_LINE } from "./grounds.ts";
import {
  along,
  distance,
  distanceToLine,
  type Line,
  lengthOf,
  type Point,
  rightOf,
  sideLine,
  stationOn,
} from "./line.ts";
import { randomStream } from "./random.ts";
import { STREETS, type Street } from "./streets.ts";

/** A line of poles. */
interface PoleLine {
  readonly circuit: string;
  readonly line: Line;
  readonly spacingM: number;
  readonly kind: "feeder" | "lateral" | "transmission";
}

export interface Wires {
  readonly poles: readonly Point[];
  /** Spans of primary and transmission conductors in plan, for trees that grow below them. */
  readonly primaries: readonly (readonly [Point, Point])[];
  readonly collection: Collection;
}

const street = (name: string): Street => STREETS.find((one) => one.name === name)!;
const beside = (name: string, side: 1 | -1): Line =>
  sideLine(street(name).line, side * (street(name).widthM / 2 + 0.8));

/** Downtown, the courts and Meadow Drive are served from below the ground. */
const POLE_LINES: readonly PoleLine[] = [
  { circuit: "SH-12-A", line: beside("Foundry Avenue", -1), spacingM: 38, kind: "feeder" },
  { circuit: "SH-12-A", line: beside("Weaver Street", 1), spacingM: 40, kind: "feeder" },
  { circuit: "SH-12-A", line: beside("Alder Street", -1), spacingM: 41, kind: "lateral" },
  { circuit: "SH-12-B", line: beside("Water Street", 1), spacingM: 40, kind: "lateral" },
  { circuit: "SH-12-B", line: beside("Chapel Street", 1), spacingM: 42, kind: "lateral" },
  { circuit: "SH-12-B", line: beside("Quarry Road", -1), spacingM: 44, kind: "lateral" },
  ...STREETS.filter((one) => one.class === "service-alley" && one.line[0]![1] > 140).map(
    (one): PoleLine => ({ circuit: "SH-12-C", line: sideLine(one.line, -2.6), spacingM: 37, kind: "lateral" }),
  ),
  {
    circuit: "SH-69",
    line: TRANSMISSION_LINE,
    spacingM: 84,
    kind: "transmission",
  },
];

/** `conductors.geojson` and where its poles stand. One feature a conductor and span, straight from pole to pole. */
export function wires(built: readonly Building[]): Wires {
  const features: Feature[] = [];
  const poles: Point[] = [];
  const primaries: [Point, Point][] = [];
  const random = randomStream("wires");
  POLE_LINES.forEach(({ circuit, line, spacingM, kind }, lineIndex) => {
    const count = Math.max(2, Math.round(lengthOf(line) / spacingM) + 1);
    const stepM = lengthOf(line) / (count - 1);
    const stations = Array.from({ length: count }, (_, at) => poleStation(line, at * stepM));
    poles.push(...stations.map(({ at }) => at));
    for (let at = 1; at < count; at += 1) {
      const [from, to] = [stations[at - 1]!, stations[at]!];
      const spanM = distance(from.at, to.at);
      const span = `${circuit}-${lineIndex + 1}-${String(at).padStart(2, "0")}`;
      primaries.push([from.at, to.at]);
      const add = (sideM: number, low: number, voltage: number, sagShare: number, insulation: string): void => {
        const height = (): number => Number((low + random.between(-0.2, 0.2)).toFixed(1));
        features.push({
          geometry: {
            type: "LineString",
            points: [from, to].map((end) => along(end.at, rightOf(end.heading), sideM)),
          },
          properties: {
            circuit,
            span,
            voltage,
            attachment_height_1: height(),
            attachment_height_2: height(),
            sag: Number((spanM * sagShare).toFixed(2)),
            insulation,
            location: "overhead",
          },
        });
      };
      if (kind === "transmission") {
        for (const sideM of [-2, 0, 2]) add(sideM, sideM === 0 ? 18.4 : 16.8, 69_000, 0.019, "bare");
        continue;
      }
      for (const sideM of kind === "feeder" ? [-1, 0, 1] : [0]) add(sideM, 10.4, 12_470, 0.012, "bare");
      add(0, 7.6, 240, 0.015, "aerial cable");
    }
    if (kind === "lateral") features.push(...services(circuit, lineIndex, stations, built));
  });
  return {
    poles,
    primaries,
    collection: collection(
      features.map(({ geometry, properties }, at) => ({
        geometry,
        properties: { id: `C-${String(at + 1).padStart(4, "0")}`, ...properties },
      })),
    ),
  };
}

/** The station nearest to a length along a line, at most 14 m off, where a pole stands on no roadway. */
function poleStation(line: Line, lengthM: number): { at: Point; heading: Point } {
  for (let shiftM = 0; shiftM <= 14; shiftM += 0.5) {
    for (const sign of [1, -1]) {
      const station = stationOn(line, Math.min(lengthOf(line), lengthM + sign * shiftM));
      if (STREETS.every((one) => distanceToLine(station.at, one.line) > one.widthM / 2 + 0.5)) return station;
    }
  }
  return stationOn(line, lengthM);
}

/** Service drops: from each pole to the nearest corners of up to two houses within 27 m, at 120/240 V. */
function services(
  circuit: string,
  lineIndex: number,
  stations: readonly { at: Point }[],
  built: readonly Building[],
): Feature[] {
  const served = new Set<Building>();
  return stations.flatMap(({ at }, pole) =>
    built
      .filter((building) => building.kind === "house" && !served.has(building))
      .map((building) => {
        const corner = [...building.ring].sort((a, b) => distance(at, a) - distance(at, b))[0]!;
        return { building, corner, spanM: distance(at, corner) };
      })
      .filter(({ spanM }) => spanM < 27)
      .sort((a, b) => a.spanM - b.spanM)
      .slice(0, 2)
      .map(({ building, corner, spanM }, drop): Feature => {
        served.add(building);
        return {
          geometry: { type: "LineString", points: [at, corner] },
          properties: {
            circuit,
            span: `${circuit}-${lineIndex + 1}-${String(pole + 1).padStart(2, "0")}-s${drop + 1}`,
            voltage: 240,
            attachment_height_1: 7.4,
            attachment_height_2: Number(Math.min(5.6, building.heightM - 0.8).toFixed(1)),
            sag: Number((spanM * 0.02).toFixed(2)),
            insulation: "aerial cable",
            location: "overhead",
          },
        };
      }),
  );
}
