import { describe, expect, test } from "vitest";
import { planIndex } from "../../../src/app/plan-index.ts";
import { findingPlace } from "../../../src/app/sheet/finding-place.ts";
import { groupFindings } from "../../../src/app/sheet/group-findings.ts";
import type { Finding } from "../../../src/core/model/finding.ts";
import { openPlan } from "../../../src/formats/plan/open-plan.ts";
import { memorySource } from "../../../src/formats/plan/plan-source.ts";
import { smallPlanFiles } from "../small-plan.ts";

const finding = (part: Partial<Finding>): Finding => ({
  code: "doubt",
  severity: "info",
  layer: "trees",
  file: "trees.geojson",
  feature: null,
  field: null,
  value: null,
  reason: "A reason.",
  whatToDo: "Do this.",
  ...part,
});

test("groups findings by code, worst first, then most frequent", () => {
  const groups = groupFindings([
    finding({ code: "rare" }),
    finding({ code: "often" }),
    finding({ code: "often" }),
    finding({ code: "bad", severity: "error" }),
  ]);
  expect(groups.map(({ code, severity, findings }) => [code, severity, findings.length])).toEqual([
    ["bad", "error", 1],
    ["often", "info", 2],
    ["rare", "info", 1],
  ]);
});

describe("findingPlace", async () => {
  const opened = await openPlan(memorySource(smallPlanFiles(4)));
  const road = {
    id: "roads.geojson#2",
    layer: "roads",
    name: null,
    kind: "roadway",
    geometry: {
      type: "LineString",
      coordinates: [
        [-139.5, 44.25],
        [-139.4, 44.2],
      ],
    },
  } as unknown as (typeof opened.plan.surroundings)[number];
  const index = planIndex({ ...opened, plan: { ...opened.plan, surroundings: [road] } });

  test("finds a tree by its id", () => {
    expect(findingPlace(index, finding({ feature: "T-3" }))).toEqual({ treeId: "T-3" });
  });
  test("finds a feature without id by its place in its file", () => {
    expect(findingPlace(index, finding({ layer: "roads", file: "roads.geojson", feature: "#2" }))).toEqual({
      box: [-139.5, 44.2, -139.4, 44.25],
    });
  });
  test("has no place for what is not in the plan", () => {
    expect(findingPlace(index, finding({ feature: "T-99" }))).toBeNull();
    expect(findingPlace(index, finding({ layer: "standard", feature: "x" }))).toBeNull();
    expect(findingPlace(index, finding({}))).toBeNull();
  });
});
