import { describe, expect, it } from "vitest";
import {
  cornersOf,
  EAST_WEST,
  FT,
  NORTH,
  type RoadGiven,
  SOUTH,
  sightScene,
  standardWith,
  toldOf,
} from "./sight-scene.ts";

const LOCAL = { class: "local-residential", speed: "25 mph", width: "20 ft" };
const MAJOR: RoadGiven = { at: EAST_WEST };
const MINOR: RoadGiven = { at: SOUTH, is: LOCAL };
const STOP = { at: [5, -11] as const, is: { kind: "stop", facing: 180 } };
const YIELD = { at: [5, -11] as const, is: { kind: "yield", facing: 180 } };

describe("stop control", () => {
  it("keeps the longest gap toward each side, by what turns there are", () => {
    // Left turn: 1.47 * 30 * 7.5 = 330.8, up to 335 ft both ways.
    expect(toldOf(sightScene([MAJOR, MINOR], [STOP]).surroundings.sight)).toEqual([
      "stop left-turn left 335.0",
      "stop left-turn right 335.0",
    ]);
    // West to east only: no left turn, the right turn and nothing to cross to. 1.47 * 30 * 6.5 = 286.7, 290 ft.
    const oneway = { at: EAST_WEST, is: { oneway: "yes" } };
    expect(toldOf(sightScene([oneway, MINOR], [STOP]).surroundings.sight)).toEqual(["stop right-turn left 290.0"]);
  });

  it("adds half a second for each further lane crossed, to the left turn and to a crossing", () => {
    // Three lanes each way, from the west two crossed beyond the first: 8.5 s, 374.9, 375 ft.
    const six = { at: EAST_WEST, is: { lanes: 6, width: "66 ft" } };
    expect(toldOf(sightScene([six, MINOR], [STOP]).surroundings.sight)[0]).toBe("stop left-turn left 375.0");
    // Crossing six lanes, four beyond the second: 8.5 s as well, which is no more than the turn.
    const crossing = sightScene(
      [{ at: EAST_WEST, is: { lanes: 8, width: "88 ft" } }, MINOR, { at: NORTH, is: LOCAL }],
      [STOP, { at: [-5, 30], is: { kind: "stop", facing: 0 } }],
      null,
      standardWith({ signReach: "150 ft" }),
    );
    // Eight: 6.5 + 6 * 0.5 = 9.5 s against 7.5 + 3 * 0.5 = 9.0: 1.47 * 30 * 9.5 = 418.95, 420 ft.
    expect(toldOf(crossing.surroundings.sight)[0]).toBe("stop crossing left 420.0");
  });

  it("counts a median by its width, an upgrade by its percent, and a truck by its own gap", () => {
    // 24 ft of median are two lanes: 8.5 s.
    const median = { at: EAST_WEST, is: { median_width: "24 ft" } };
    expect(toldOf(sightScene([median, MINOR], [STOP]).surroundings.sight)[0]).toBe("stop left-turn left 375.0");
    // The line from the node to the south falls by 5 percent: 7.5 + 5 * 0.2 = 8.5 s.
    const steep = { at: SOUTH, is: { ...LOCAL, incline: "-5%" } };
    expect(toldOf(sightScene([MAJOR, steep], [STOP]).surroundings.sight)[0]).toBe("stop left-turn left 375.0");
    const level = { at: SOUTH, is: { ...LOCAL, incline: "5%" } };
    expect(toldOf(sightScene([MAJOR, level], [STOP]).surroundings.sight)[0]).toBe("stop left-turn left 335.0");
    // A combination truck, 11.5 s: 507.2, 510 ft.
    const truck = standardWith({ vehicle: "combination" });
    expect(toldOf(sightScene([MAJOR, MINOR], [STOP], null, truck).surroundings.sight)[0]).toBe(
      "stop left-turn left 510.0",
    );
  });

  it("knows lanes by direction from their tags", () => {
    // With the line, eastward, three lanes, from the left of the driver: 8.5 s.
    const uneven = { at: EAST_WEST, is: { lanes: 4, width: "44 ft", "lanes:forward": "3", "lanes:backward": "1" } };
    expect(toldOf(sightScene([uneven, MINOR], [STOP]).surroundings.sight)[0]).toBe("stop left-turn left 375.0");
  });
});

describe("yield control", () => {
  it("has the leg of the turn, 82 ft back, and of the crossing from its table", () => {
    const cross = sightScene(
      [MAJOR, MINOR, { at: NORTH, is: LOCAL }],
      [YIELD, { at: [-5, 11], is: { kind: "yield", facing: 0 } }],
    )
      .surroundings.sight.filter(({ id }) => id.includes(",180,"))
      .sort((one, other) => (one.id < other.id ? -1 : 1));
    // Turn: 1.47 * 30 * 8 = 352.8, 355 ft. Crossing at 25 mph: ta 4.0 s + (22 + 19) / 22 = 5.86, so 6.5 s, 290 ft.
    expect(toldOf(cross)).toEqual([
      "yield crossing left 290.0",
      "yield yield left 355.0",
      "yield crossing right 290.0",
      "yield yield right 355.0",
    ]);
    // Half a lane of the minor road east of its line, 82 ft and 130 ft south of the near lane, which is 5.5 ft south of the center.
    for (const [area, backFt] of [
      [cross[1]!, 82],
      [cross[0]!, 130],
    ] as const) {
      const [eye, corner] = cornersOf(area);
      expect(eye![0]).toBeCloseTo(5 * FT, 2);
      expect(eye![1]).toBeCloseTo(-(5.5 + backFt) * FT, 2);
      expect(corner![1]).toBeCloseTo(-5.5 * FT, 2);
    }
  });
});

describe("no control", () => {
  it("has one approach triangle a corner, its legs by the speed of each road", () => {
    const { sight } = sightScene(
      [
        { at: EAST_WEST, is: { ...LOCAL, speed: "30 mph" } },
        { at: SOUTH, is: LOCAL },
      ],
      [],
    ).surroundings;
    // The driver from the south has traffic from the west at the left; the one from the east has the one from the south.
    expect(toldOf(sight).sort()).toEqual(["none no-control left 115.0", "none no-control left 140.0"]);
    const west = sight.find(({ legM }) => legM > 130 * FT)!;
    const [eye, corner, far] = cornersOf(west);
    // 115 ft back from where the lanes cross, 140 ft along the other one; both lanes 5 ft from their center.
    expect(eye![1]).toBeCloseTo(-(5 + 115) * FT, 2);
    expect(corner![0]).toBeCloseTo(5 * FT, 2);
    expect(corner![1]).toBeCloseTo(-5 * FT, 2);
    expect(far![0]).toBeCloseTo((5 - 140) * FT, 2);
  });
});

describe("signals", () => {
  const cross = [MAJOR, { at: SOUTH }, { at: NORTH }];
  const signal = [{ at: [8, 8] as const }];

  it("have the turn on red toward the near lanes and the first car on the other side", () => {
    const { sight } = sightScene(cross, [], signal).surroundings;
    // Right on red, 6.5 s: 286.7, 290 ft, from the left only; the first car, 19 ft.
    expect(toldOf(sight).sort()).toEqual([
      ...Array.from({ length: 4 }, () => "signal first-cars right 19.0"),
      ...Array.from({ length: 4 }, () => "signal right-on-red left 290.0"),
    ]);
    expect(sight.every(({ controlSource }) => controlSource === "signal signals.geojson#0")).toBe(true);
  });

  it("have no turn on red where traffic drives on the left, unless the standard says so", () => {
    const on = (turnOnRed: string): string[] =>
      sightScene(cross, [], signal, standardWith({ turnOnRed }), "left").surroundings.sight.map(
        ({ movement }) => movement,
      );
    expect(on("right-hand-traffic")).not.toContain("right-on-red");
    expect(on("always")).toContain("right-on-red");
    expect(new Set(on("never"))).toEqual(new Set(["first-cars"]));
  });
});

describe("a turn from the major road", () => {
  it("is given where a curve takes the sight line off the road, and left out on a straight one", () => {
    // The east arm bends to the north, toward the side the driver from the west looks across: 20 degrees each 30 m.
    const bent: [number, number][] = [
      [-400, 0],
      [0, 0],
      [30, 0],
      [58, 10],
      [81, 30],
      [96, 56],
      [101, 85],
      [101, 300],
    ];
    const turn = sightScene(
      [{ at: bent }, MINOR, { at: NORTH, is: LOCAL }],
      [STOP, { at: [-5, 11], is: { kind: "stop", facing: 0 } }],
    ).surroundings.sight.filter(({ movement }) => movement === "left-from-major");
    // 1.47 * 30 * 5.5 = 242.6, 245 ft; each of the two drivers on the major road looks around the bend or out of it.
    expect(turn.map(({ legM }) => (legM / FT).toFixed(1))).toContain("245.0");
    const straight = sightScene([MAJOR, MINOR], [STOP]).surroundings.sight;
    expect(straight.map(({ movement }) => movement)).not.toContain("left-from-major");
  });
});
