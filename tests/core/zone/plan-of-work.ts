import type { TreeSetting } from "../../../src/core/model/conflict.ts";
import type { Plan } from "../../../src/core/model/plan.ts";
import type { Visit } from "../../../src/core/model/prescription.ts";
import type { Tree } from "../../../src/core/model/trees.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";

/** One tree with work, by what matters to zones. */
export interface Work {
  readonly id: string;
  /** Meters east and north of 10 E, 50 N (a plane's own meridian), where a degree is 71,695 m and 111,229 m. */
  readonly at: readonly [number, number];
  readonly radiusM?: number;
  readonly street?: string | null;
  readonly visit?: Partial<Visit>;
  readonly tree?: Partial<Tree>;
  readonly setting?: Partial<TreeSetting>;
}

const size = (valueM: number): Tree["height"] => ({
  valueM,
  lowM: valueM,
  highM: valueM,
  basis: "measured",
  source: "test",
});

/** A plan that holds just the given work. */
export function planOfWork(works: readonly Work[], over: Partial<Plan> = {}): Plan {
  return {
    planId: "p",
    revision: 1,
    options: {
      asOf: isoDate("2026-11-02"),
      units: "us",
      drive: "right",
      place: { hardinessZone: null, region: null },
    },
    standardId: "us-common",
    inputs: [],
    trees: works.map(treeOf),
    surroundings: [],
    sight: [],
    conflicts: [],
    prescriptions: works.map((work, row) => {
      const visit = visitOf(work, row);
      return {
        treeId: work.id,
        treeRow: row,
        options: [],
        chosen: null,
        tasks: [],
        visits: [visit, { ...visit, visitId: `${work.id}/2`, number: 2 }],
        refer: null,
        remedy: "lift",
        doseTotalShare: 0.1,
        liftM: null,
        liftToM: null,
        shortenM: null,
        bearingDeg: null,
        liveCrownRatioBefore: 0.8,
        liveCrownRatioAfter: 0.7,
        doseLimitShare: 0.25,
        doseLimitReason: "",
        openUntilYear: null,
        urgency: visit.urgency,
        overdue: false,
        cautions: [],
        why: "",
      };
    }),
    settings: works.map((work, row) => ({
      treeRow: row,
      conductorsKnown: true,
      conductor: null,
      road: null,
      walkDistanceM: null,
      notChecked: [],
      ...work.setting,
    })),
    zones: [],
    findings: [],
    notChecked: [],
    ...over,
  };
}

function visitOf(work: Work, row: number): Visit {
  return {
    visitId: `${work.id}/1`,
    treeId: work.id,
    treeRow: row,
    number: 1,
    tasks: [],
    doseShare: 0.1,
    crew: "aerial",
    hours: 0.5,
    due: isoDate("2027-03-31"),
    windowStart: isoDate("2026-11-01"),
    windowEnd: isoDate("2027-03-31"),
    windowReason: "",
    urgency: "next-window",
    overdue: false,
    openAfter: [],
    ...work.visit,
  };
}

function treeOf(work: Work, row: number): Tree {
  const radiusM = work.radiusM ?? 4;
  return {
    row,
    ordinal: row,
    id: work.id,
    lonDeg: 10 + work.at[0] / 71_695,
    latDeg: 50 + work.at[1] / 111_229,
    species: "Acer rubrum",
    commonName: "red maple",
    form: "tree",
    habit: "ellipsoid",
    dbhM: 0.3,
    dbhBasis: "measured",
    height: size(12),
    crownBase: size(3),
    radius: size(radiusM),
    radii: { northM: radiusM, eastM: radiusM, southM: radiusM, westM: radiusM },
    planted: null,
    caliperAtPlantingM: null,
    lastPruned: null,
    lastDoseShare: null,
    condition: "good",
    defects: [],
    stems: 1,
    groundZM: null,
    headroomOverRoadM: null,
    street: work.street === undefined ? "Alder Street" : work.street,
    address: null,
    side: null,
    owner: null,
    isProtected: false,
    traits: {
      matchedBy: "none",
      matchedName: "",
      habit: "ellipsoid",
      isEvergreen: false,
      isConifer: false,
      heightGrowthMPerYear: 0.3,
      radiusGrowthMPerYear: 0.1,
      growthSource: "test",
      matureHeightM: 18,
      bleeds: false,
      genus: "Acer",
      springBlooming: false,
    },
    ...work.tree,
  };
}
