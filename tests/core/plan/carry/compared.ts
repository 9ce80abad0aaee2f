import type { ComparedTree } from "../../../../src/core/plan/carry/like-tree.ts";
import type { IsoDate } from "../../../../src/core/units/calendar.ts";

/** A degree of latitude in meters on the sphere that inventories are compared on. */
const METERS_PER_DEGREE = 111_195;
const [LON_DEG, LAT_DEG] = [-89.4, 43.07];

interface Given {
  readonly species?: string | null;
  readonly dbhM?: number | null;
  readonly heightM?: number | null;
  readonly planted?: IsoDate | null;
}

/** A tree `eastM` and `northM` from a fixed point; sizes that are given are measured. */
export function compared(id: string, eastM: number, northM: number, given: Given = {}): ComparedTree {
  const { species = "Acer rubrum", dbhM = 0.3, heightM = null, planted = null } = given;
  const valueM = heightM ?? 10;
  return {
    id,
    lonDeg: LON_DEG + eastM / (METERS_PER_DEGREE * Math.cos((LAT_DEG * Math.PI) / 180)),
    latDeg: LAT_DEG + northM / METERS_PER_DEGREE,
    species,
    commonName: null,
    form: "tree",
    dbhM,
    dbhBasis: dbhM === null ? null : "measured",
    height: {
      valueM,
      lowM: valueM * 0.9,
      highM: valueM * 1.1,
      basis: heightM === null ? "estimated" : "measured",
      source: "test",
    },
    planted,
    traits: {
      matchedBy: "none",
      matchedName: "",
      habit: "ellipsoid",
      isEvergreen: false,
      isConifer: false,
      heightGrowthMPerYear: 0.3,
      radiusGrowthMPerYear: 0.1,
      growthSource: "test",
      matureHeightM: 20,
      bleeds: false,
      genus: "",
      springBlooming: false,
    },
  };
}
