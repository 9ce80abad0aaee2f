import { readFileSync } from "node:fs";
import { readCsv } from "../../../src/formats/csv.ts";

/** A tree of the campus as it was measured. */
export interface CampusTree {
  readonly species: string;
  readonly commonName: string;
  readonly dbhCm: number;
  readonly heightM: number;
  readonly baseM: number;
  readonly radiusM: number;
}

const [HEAD, ...LINES] = readCsv(readFileSync("tests/fixtures/ubc/sizes.csv", "utf8")) as [string[], ...string[][]];

/** Every third live, completely measured tree of the campus (tests/fixtures/ubc), those left out that the reader would not believe. */
export const CAMPUS_TREES: readonly CampusTree[] = LINES.map((cells): CampusTree => {
  const of = (name: string): string => cells[HEAD.indexOf(name)]!;
  return {
    species: of("TAXA"),
    commonName: of("COMMON_NAME"),
    dbhCm: Number(of("DBH")),
    heightM: Number(of("THEIGHT")),
    baseM: Number(of("HEIGHT_LIVEBASE")),
    radiusM: (Number(of("CROWNWIDTH1")) + Number(of("CROWNWIDTH2"))) / 4,
  };
}).filter(
  ({ dbhCm, heightM, baseM, radiusM }) =>
    dbhCm >= 1 &&
    dbhCm <= 500 &&
    heightM >= 1 &&
    heightM <= 100 &&
    baseM >= 0 &&
    heightM - baseM >= 0.6 &&
    radiusM >= 0.3 &&
    radiusM <= 25 &&
    !(dbhCm >= 60 && heightM * 100 < 4 * dbhCm),
);
