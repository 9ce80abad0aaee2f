import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { FaultRow } from "../fault-row.ts";
import { filesBelow, isSameState, leftovers } from "../folder-state.ts";
import { runChild } from "./run-child.ts";
import { withPlan } from "./with-plan.ts";

/** F5: a folder with another plan. That `--replace` is whole or nothing is held by the calls of F1 to F3, which set their faults at it. */
export const otherPlan: FaultRow = {
  id: "f5",
  what: "folder holds another plan: refused with its id and date, untouched; --replace makes a revision beside the old one",
  missing: () => null,
  run: ({ work }) =>
    withPlan(work, 8, async ({ plan, town, copy }) => {
      const wrong: string[] = [];
      const before = filesBelow(plan);
      const { plan: id, as_of: asOf } = JSON.parse(readFileSync(join(plan, "current/plan.json"), "utf8"));
      const other = ["enrich", ...town, "--threads", "1", "--as-of", "2027-01-04", "--out"];
      const refused = await runChild([...other, plan]);
      if (refused.code !== 5) wrong.push(`refusal: exit ${refused.code}, ${refused.err.slice(0, 200)}`);
      if (![plan, id, asOf ?? "2026-11-02", "--replace"].every((word) => refused.err.includes(word)))
        wrong.push(`refusal: plan, date and way out are not named, but ${refused.err.slice(0, 300)}`);
      if (!isSameState(filesBelow(plan), before)) wrong.push("refusal: the other plan is not as it was");
      const dir = copy("replaced");
      const replaced = await runChild([...other, dir, "--replace"]);
      if (replaced.code !== 0) wrong.push(`--replace: exit ${replaced.code}, ${replaced.err.slice(0, 200)}`);
      const after = filesBelow(dir);
      const earlier = [...before].filter(([path]) => path.startsWith("revisions/"));
      if (!earlier.every(([path, digest]) => after.get(path) === digest))
        wrong.push("--replace: the earlier revisions are not as they were");
      if (after.get("current") === before.get("current")) wrong.push("--replace: the old plan is still current");
      if (leftovers(after).length > 0) wrong.push(`--replace: leaves ${leftovers(after).join(", ")}`);
      return {
        counts: `1 refusal with ${before.size} files unchanged, 1 replacement with ${earlier.length} files of earlier revisions unchanged`,
        isHeld: wrong.length === 0,
        remarks: wrong,
      };
    }),
};
