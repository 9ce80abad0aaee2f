import { execFileSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import path from "node:path";
import type { JoinInput } from "./join-by-own-index.ts";
import { doublesOf, type OutsideJoin, projectedJoin, sameEveryTime } from "./join-outside.ts";

/**
 * The same join by the GEOS of the system in a compiled program, STRtree and exact distance, shapes ready before the clock starts. Null where there is no
 * C compiler or no GEOS library.
 */
export function joinByNativeGeos(folder: string, join: JoinInput, runs: number): OutsideJoin | null {
  const program = path.join(folder, "join-by-native-geos");
  const source = path.join(import.meta.dirname, "join-by-native-geos.c");
  try {
    execFileSync("cc", ["-O2", "-o", program, source, "-l:libgeos_c.so.1"], { stdio: "ignore" });
  } catch {
    return null;
  }
  const input = path.join(folder, "join.bin");
  writeFileSync(input, doublesOf(projectedJoin(join)));
  const lines = execFileSync(program, [input, String(runs)], { encoding: "utf8" })
    .trim()
    .split("\n");
  return sameEveryTime(
    lines.map((line) => {
      const [userMs, systemMs, wallMs, sumM] = line.split(" ").map(Number) as [number, number, number, number];
      return { userMs, systemMs, wallMs, residentMB: null, sumM };
    }),
  );
}
