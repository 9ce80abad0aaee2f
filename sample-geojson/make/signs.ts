import { bearingOf, type Collection, collection, type Feature } from "./geojson.ts";
import { along, type Point, rightOf } from "./line.ts";
import type { Leg, Node } from "./network.ts";
import type { Street } from "./streets.ts";

const RANK: Readonly<Record<string, number>> = {
  "major-arterial": 5,
  "minor-arterial": 4,
  collector: 3,
  "rural-two-lane": 3,
  "local-residential": 2,
  "local-access": 1,
  "service-alley": 0,
};
const rank = (street: Street): number => RANK[street.class] ?? 0;

/** How a node is controlled: its major street's name and the legs that must stop or yield. */
export interface Control {
  readonly node: Node;
  readonly isSignalized: boolean;
  readonly minor: readonly Leg[];
  readonly majorHalfM: number;
}

/** The control of every place where named streets cross; alleys have none. */
export function controls(nodes: readonly Node[]): Control[] {
  return nodes.flatMap((node) => {
    const legs = node.legs.filter((leg) => leg.street.class !== "service-alley");
    const names = [...new Set(legs.map((leg) => leg.street.name))];
    if (legs.length < 3 || names.length < 2) return [];
    const weight = (name: string | null): number => {
      const own = legs.filter((leg) => leg.street.name === name);
      return Math.max(...own.map((leg) => rank(leg.street))) * 10 + own.length;
    };
    const [majorName, secondName] = [...names].sort((a, b) => weight(b) - weight(a));
    const isSignalized = legs.length > 3 && weight(majorName!) >= 40 && weight(secondName!) >= 30;
    const majors = legs.filter((leg) => leg.street.name === majorName);
    return [
      {
        node,
        isSignalized,
        minor: isSignalized ? [] : legs.filter((leg) => leg.street.name !== majorName),
        majorHalfM: Math.max(...majors.map((leg) => leg.street.widthM)) / 2,
      },
    ];
  });
}

/**
 * `signs.geojson`. A sign stands to the right of the driver who comes up to the crossing, 0.9 m behind the curb and 2.2 m before the
 * edge of the major street; `facing` is the bearing its face looks to, toward that driver. Courts yield, all other minor legs stop.
 */
export function signs(controlled: readonly Control[]): Collection {
  const features = controlled.flatMap((control) =>
    control.minor.map((leg): Feature => {
      const { at, facing } = besideLeg(control.node.at, leg, control.majorHalfM + 2.2, leg.street.widthM / 2 + 0.9);
      const kind = leg.street.name?.endsWith("Court") && leg.street.name !== "Heron Court" ? "yield" : "stop";
      return { geometry: { type: "Point", point: at }, properties: { kind, facing, height: 2.1 } };
    }),
  );
  return numbered(features, "S");
}

/** `signals.geojson`: one head for each approach, over its lanes on the far side of the crossing, 5.3 m up. */
export function signals(controlled: readonly Control[]): Collection {
  const features = controlled
    .filter((control) => control.isSignalized)
    .flatMap(({ node }) =>
      node.legs
        .filter((leg) => leg.street.class !== "service-alley")
        .map((leg): Feature => {
          const others = node.legs.filter((other) => other.street.name !== leg.street.name);
          const farM = Math.max(...others.map((other) => other.street.widthM)) / 2 + 1;
          const { at, facing } = besideLeg(node.at, leg, -farM, leg.street.widthM / 4);
          return {
            geometry: { type: "Point", point: at },
            properties: { kind: "traffic-signal", facing, height: 5.3 },
          };
        }),
    );
  return numbered(features, "L");
}

function besideLeg(node: Point, leg: Leg, outM: number, sideM: number): { at: Point; facing: number } {
  const driving: Point = [-leg.heading[0], -leg.heading[1]];
  return {
    at: along(along(node, leg.heading, outM), rightOf(driving), sideM),
    facing: bearingOf(leg.heading),
  };
}

function numbered(features: readonly Feature[], letter: string): Collection {
  return collection(
    features.map(({ geometry, properties }, at) => ({
      geometry,
      properties: { id: `${letter}-${String(at + 1).padStart(3, "0")}`, ...properties },
    })),
  );
}
