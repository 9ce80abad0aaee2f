import type { Completion, VisitCompletion } from "../../../../src/core/plan/completion/completion.ts";
import { isoDate } from "../../../../src/core/units/calendar.ts";
import { smallPlan, smallZone } from "../../packet/small-plan.ts";

/** A visit reported as done, with other members where they are given. */
export const reported = (at: number, change: Partial<VisitCompletion> = {}): VisitCompletion => ({
  visitId: smallZone.visitIds[at]!,
  treeId: smallZone.treeIds[at]!,
  outcome: "done",
  reason: null,
  date: isoDate("2027-03-12"),
  who: "R. Alder",
  crownBaseM: null,
  headroomM: null,
  doseShare: null,
  notes: "",
  photos: [],
  recordedAt: "2027-03-12T14:05:00.123Z",
  ...change,
});

/** A completion of the small plan's zone with two visits, an added tree and a hazard. */
export const sampleCompletion: Completion = {
  format: "boughline-completion",
  version: 1,
  appVersion: "0.1.0",
  planId: smallPlan.planId,
  revision: smallPlan.revision,
  zoneId: smallZone.zoneId,
  reportId: "00c0ffee00c0ffee",
  exportedAt: "2027-03-12T16:00:00Z",
  who: "R. Alder",
  crewHours: 6.5,
  notes: "",
  visits: [
    reported(0, { crownBaseM: 4.6, headroomM: 4.6 }),
    reported(1, { outcome: "partly", reason: "vehicle-in-the-way", notes: "North limb left" }),
  ],
  addedTrees: [
    {
      addedId: "a1",
      place: { lonDeg: -89.5, latDeg: 43.07, from: "map", accuracyM: null },
      species: "Acer rubrum",
      dbhM: 0.3,
      heightM: 9,
      notes: "",
      photos: ["IMG_1.jpg"],
      recordedAt: "2027-03-12T14:05:00Z",
    },
  ],
  hazards: [
    {
      addedId: "a2",
      place: null,
      treeId: smallZone.treeIds[0]!,
      notes: "Hanger over the walk",
      photos: [],
      recordedAt: "2027-03-12T14:05:00Z",
    },
  ],
};
