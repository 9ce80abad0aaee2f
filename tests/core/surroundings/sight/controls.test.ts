import { describe, expect, it } from "vitest";
import type { SightArea } from "../../../../src/core/model/surroundings.ts";
import { EAST_WEST, NORTH, type SignGiven, SOUTH, sightScene, standardWith, toldOf } from "./sight-scene.ts";

const CLASSES = { local: "local-residential", collector: "collector", arterial: "minor-arterial" };

/** Control by road: of the triangles seen from the east-west road and from the one across it, each once. */
function controls(
  eastWest: keyof typeof CLASSES,
  across: keyof typeof CLASSES,
  signs: readonly SignGiven[] | null = null,
  sight: Record<string, unknown> = {},
): { told: string[]; atMost: string[]; findings: string[]; areas: readonly SightArea[] } {
  const { surroundings, findings } = sightScene(
    [
      { at: EAST_WEST, is: { class: CLASSES[eastWest] } },
      { at: SOUTH, is: { class: CLASSES[across] } },
      { at: NORTH, is: { class: CLASSES[across] } },
    ],
    signs,
    null,
    standardWith(sight),
  );
  const envelopes = surroundings.envelopes.flatMap((one) =>
    one.type === "sight" && one.area.kind === "sight-triangle" ? [one] : [],
  );
  const fromOf = ({ id }: SightArea): string => (/,(90|270),/.test(id) ? "east-west" : "across");
  return {
    told: [...new Set(surroundings.sight.map((area) => `${fromOf(area)} ${area.control}`))].sort(),
    atMost: [...new Set(envelopes.map(({ atMost }) => atMost ?? "confirmed"))],
    findings: findings.map(({ code }) => code),
    areas: surroundings.sight,
  };
}

describe("control that nobody recorded", () => {
  it("is assumed from the classes, said to be, and makes no conflict more than possible", () => {
    const minor = controls("collector", "local");
    expect(minor.told).toEqual(["across stop"]);
    expect(minor.atMost).toEqual(["possible"]);
    expect(minor.findings).toContain("sight-control-assumed");
    expect(minor.areas[0]!.controlSource).toBe("assumed: local-residential meets collector");
    expect(minor.areas[0]!.doubt).toContain("not recorded; a stop sign is assumed");
    expect(controls("local", "local").told).toEqual(["across none", "east-west none"]);
    expect(controls("arterial", "arterial").told).toEqual(["across signal", "east-west signal"]);
    // An empty layer of signs says no more than none.
    expect(controls("collector", "local", []).told).toEqual(["across stop"]);
  });

  it("follows the standard's policy", () => {
    const assume = { minor: "yield", equalLocal: "all-way-stop" };
    expect(controls("collector", "local", null, { assume }).told).toEqual(["across yield"]);
    expect(controls("local", "local", null, { assume }).told).toEqual([
      "across all-way-stop",
      "east-west all-way-stop",
    ]);
  });
});

describe("control on record", () => {
  const south: SignGiven = { at: [6, -14], is: { kind: "stop", facing: 180 } };

  it("leaves the other road the right of way, and takes the leg straight across for stopped too, as assumed", () => {
    const one = controls("collector", "local", [south]);
    expect(one.told).toEqual(["across stop"]);
    const sources = one.areas.map(({ id, controlSource }) => `${id.split(",")[2]} ${controlSource}`);
    expect(new Set(sources)).toEqual(
      new Set([
        "180 stop sign signs.geojson#0, by its facing",
        "0 assumed: as the leg straight across, which has stop sign signs.geojson#0",
      ]),
    );
  });

  it("is one of all ways where a sign says so, or every leg has one", () => {
    const told = (is: Record<string, unknown>): string[] =>
      controls("local", "local", [{ at: [6, -14], is: { ...is, facing: 180 } }]).told;
    const all = ["across all-way-stop", "east-west all-way-stop"];
    expect(told({ kind: "stop 4-way" })).toEqual(all);
    expect(told({ kind: "All-Way Stop" })).toEqual(all);
    expect(told({ highway: "stop", stop: "all" })).toEqual(all);
    expect(told({ kind: "stop" })).toEqual(["across stop"]);
  });

  it("reads a map's node on the way by the direction it holds for", () => {
    // On the line of the road from the south, drawn from the node on: traffic against it comes to the intersection.
    const on = (direction: string): string[] =>
      controls("local", "local", [{ at: [0, -12], is: { highway: "give_way", direction } }]).told;
    expect(on("backward")).toEqual(["across yield"]);
    // Forward it would face traffic that leaves: it controls nothing here.
    expect(on("forward")).toEqual(["across none", "east-west none"]);
  });

  it("is taken from a stop node on the intersection itself for the lesser road, in doubt which leg", () => {
    const at = controls("collector", "local", [{ at: [0, 0], is: { highway: "stop", stop: "minor" } }]);
    expect(at.told).toEqual(["across stop"]);
    expect(at.atMost).toEqual(["probable"]);
    expect(at.areas[0]!.doubt).toBe("Which legs the sign controls is not recorded.");
  });
});

describe("the network", () => {
  it("does not join what crosses on a bridge, and joins what crosses or touches on the ground", () => {
    const cross = (is: Record<string, unknown>, eastEnd: number): number =>
      sightScene([
        {
          at: [
            [-200, 0],
            [200, 0],
          ],
        },
        {
          at: [
            [0, -200],
            [0, eastEnd],
          ],
          is: { class: "local-residential", ...is },
        },
      ]).surroundings.sight.length;
    expect(cross({}, 200)).toBeGreaterThan(0);
    expect(cross({ bridge: "yes" }, 200)).toBe(0);
    expect(cross({ layer: "1" }, 200)).toBe(0);
    // A line that ends 0.4 m short of the other meets it, one that ends 2 m short does not.
    expect(cross({}, -0.4)).toBeGreaterThan(0);
    expect(cross({}, -2)).toBe(0);
  });

  it("leaves roundabouts to their own method, and says so", () => {
    const circle = Array.from({ length: 25 }, (_, at): [number, number] => [
      15 * Math.cos((at * Math.PI) / 12),
      15 * Math.sin((at * Math.PI) / 12),
    ]);
    const { surroundings, findings } = sightScene([
      { at: circle, is: { junction: "roundabout" } },
      {
        at: [
          [15, 0],
          [200, 0],
        ],
      },
      {
        at: [
          [-15, 0],
          [-200, 0],
        ],
      },
    ]);
    expect(surroundings.sight).toEqual([]);
    expect(findings.map(({ code }) => code)).toContain("roundabout-not-measured");
  });
});

describe("a divided road", () => {
  /** Two one-way carriageways of 30 mph, 22 ft wide, their lines `apart` meters from each other, crossed by a stopped street. */
  const divided = (apart: number) =>
    sightScene(
      [
        {
          at: [
            [-400, 0],
            [0, 0],
            [400, 0],
          ],
          is: { oneway: "yes" },
        },
        {
          at: [
            [400, apart],
            [0, apart],
            [-400, apart],
          ],
          is: { oneway: "yes" },
        },
        {
          at: [
            [0, -200],
            [0, 0],
            [0, apart],
            [0, apart + 200],
          ],
          is: { class: "local-residential", width: "20 ft" },
        },
      ],
      [{ at: [6, -12], is: { kind: "stop", facing: 180 } }],
    ).surroundings.sight.filter(({ id }) => id.includes(",180,"));

  it("is crossed in one go where the median is too narrow to wait in", () => {
    // 9.7 m apart, less 22 ft of carriageway: 3 m of median, 0.25 lanes of 12 ft; one lane more from the left.
    // Left turn: 7.5 + 0.5 * (1 + 3 / 3.6576) = 8.41 s, 370.9, 375 ft, to the right over the median as well.
    const told = toldOf(divided(3 + 22 * 0.3048));
    expect(told).toEqual(["stop left-turn left 375.0", "stop left-turn right 375.0"]);
  });

  it("is crossed in two where a car can wait in the median, each time toward one carriageway", () => {
    const told = toldOf(divided(15 + 22 * 0.3048));
    // From the stop only what comes from the left: 6.5 s for the right turn and a crossing of two lanes, 290 ft.
    expect(told.filter((one) => one.includes(" left "))).toEqual(["stop right-turn left 290.0"]);
    // From the median only what comes from the right on the far carriageway.
    expect(told.filter((one) => one.includes(" right ")).length).toBe(1);
  });
});
