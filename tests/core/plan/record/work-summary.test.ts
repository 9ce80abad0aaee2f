import { expect, test } from "vitest";
import { workSummary } from "../../../../src/core/plan/record/work-summary.ts";
import { isoDate } from "../../../../src/core/units/calendar.ts";
import { smallPlan } from "../../packet/small-plan.ts";
import { reported } from "../completion/sample-completion.ts";
import { given, otherCrew, recordOf } from "./small-record.ts";

const ONE_EACH = { ground: 1, aerial: 1, "line-clearance": 1, utility: 1 };

test("the hours of a visit are those of all crews that worked on it, whoever finished or left it", () => {
  const begun = given({
    crewHours: 6,
    visits: [reported(0, { outcome: "partly", reason: "out-of-time", date: isoDate("2027-03-10") })],
  });
  for (const [finished, hours] of [
    [otherCrew({}, { crewHours: 2 }), 8],
    [otherCrew({ outcome: "not-done", reason: "weather", crownBaseM: null, headroomM: null }, { crewHours: 2 }), 6],
  ] as const) {
    const { all } = workSummary(smallPlan, recordOf(begun, finished), ONE_EACH);
    expect(all.reportedPersonHours).toBeCloseTo(hours, 9);
    expect(all.comparedPersonHours).toBeCloseTo(smallPlan.prescriptions.flatMap(({ visits }) => visits)[0]!.hours, 9);
  }
});
