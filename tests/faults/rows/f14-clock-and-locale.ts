import { join } from "node:path";
import { filesBelow, isSameState } from "../folder-state.ts";
import { smallTown } from "../small-town.ts";
import { rowOf } from "./row.ts";
import { runChild } from "./run-child.ts";

/** Where and when a run can be: zone, locale, and the clock that libfaketime sets. */
const PLACES: readonly { readonly zone: string; readonly locale: string; readonly clock: string | null }[] = [
  { zone: "UTC", locale: "C", clock: null },
  { zone: "America/New_York", locale: "tr_TR.UTF-8", clock: null },
  { zone: "Pacific/Kiritimati", locale: "de_DE.UTF-8", clock: null },
  { zone: "UTC", locale: "C", clock: "2028-02-29 12:00:00" },
  { zone: "America/New_York", locale: "C", clock: "2026-12-31 23:59:30" },
  // An hour that clocks in New York skip.
  { zone: "America/New_York", locale: "de_DE.UTF-8", clock: "2026-03-08 02:30:00" },
];

/** F14: the same input and `--as-of` give the same bytes wherever and whenever they are run. */
export const clockAndLocale = rowOf(
  "f14",
  "clock, time zone and locale: the same bytes for a fixed --as-of",
  ["faketime"],
  async ({ work, onProgress }) => {
    const wrong: string[] = [];
    const town = smallTown(work, 120);
    let first: ReadonlyMap<string, string> | null = null;
    for (const [at, { zone, locale, clock }] of PLACES.entries()) {
      const dir = join(work, `plan-${at}`);
      const env = { TZ: zone, LC_ALL: locale, LANG: locale };
      const around = clock === null ? { env } : { env, before: ["faketime", clock] };
      for (const argv of [
        ["enrich", ...town, "--also", "csv", "--threads", "1", "--out", dir],
        ["zone", dir],
        ["packet", dir],
      ]) {
        const { code, err } = await runChild(argv, around);
        if (code !== 0) throw new Error(`${argv[0]} ended with ${code} (${zone}, ${locale}, ${clock}): ${err}`);
      }
      const made = filesBelow(dir);
      first ??= made;
      onProgress(
        `${zone}, ${locale}, ${clock ?? "now"}: ${isSameState(first, made) ? "the same bytes" : "other bytes"}`,
      );
      if (isSameState(first, made)) continue;
      const differ = [...new Set([...first.keys(), ...made.keys()])].filter(
        (path) => first!.get(path) !== made.get(path),
      );
      wrong.push(`${zone}, ${locale}, ${clock ?? "now"}: other bytes in ${differ.slice(0, 5).join(", ")}`);
    }
    return {
      figure: `${PLACES.length} places and clocks, ${first!.size} files each of a plan with zones, packets and CSV tables`,
      wrong,
    };
  },
);
