import { expect, test } from "vitest";
import { workInBrief } from "../../../src/app/sheet/work-in-brief.ts";
import type { Task } from "../../../src/core/model/prescription.ts";
import { smallPlan } from "../small-plan.ts";

// Of the small plan's rows, remedies come round in their order: shorten, remove-limb, lift, remedial, structural, refer.
const { prescriptions } = smallPlan(6);
const brief = (row: number, units: "us" | "metric") =>
  workInBrief(prescriptions[row]!, prescriptions[row]!.visits[0], units);

test("says remedy, length in the reader's unit and dose", () => {
  expect(brief(0, "metric")).toBe("Shorten by up to 0.8 m, 14 % of the crown");
  // 4.6 m are 181.1 in, 15 ft 1 in.
  expect(brief(2, "us")).toBe("Lift to 15 ft 1 in, 14 % of the crown");
  expect(brief(1, "us")).toBe("Remove limb, 14 % of the crown");
  expect(brief(5, "us")).toBe("Refer to an arborist");
});

test("leaves out a shortening that reads as nothing", () => {
  const trace = { ...prescriptions[0]!, shortenM: 0.008 };
  expect(workInBrief(trace, trace.visits[0], "us")).toBe("Shorten, 14 % of the crown");
});

test("says of a visit for dead wood what it does, not what a later one clears", () => {
  const task: Task = {
    taskId: "t1",
    cause: "A dead branch hangs over the walk.",
    conflictIds: [],
    objective: "risk-reduction",
    remedy: "remedial",
    where: "in the crown",
    bearingDeg: null,
    belowM: null,
    targetM: null,
    how: "",
    cut: "removal",
    method: "single-cut",
    timing: "any-time",
    doseShare: 0,
    limbDiameterM: [0.02, 0.03],
  };
  const dead = { ...prescriptions[0]!.visits[0]!, tasks: [task], doseShare: 0 };
  expect(workInBrief(prescriptions[0]!, dead, "us")).toBe("Remedial, no live wood");
});

test("says whether a tree without work is watched", () => {
  const none = { ...prescriptions[4]!, remedy: "none" as const };
  expect(workInBrief({ ...none, urgency: "watch" }, undefined, "us")).toBe("No work yet");
  expect(workInBrief(none, undefined, "us")).toBe("No work");
});
