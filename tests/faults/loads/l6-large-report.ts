import { cpSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { zonesOf } from "../report-of-zone.ts";
import { rowOf } from "../rows/row.ts";
import { toldWorst, worstOf, wrongWith } from "./measured-runs.ts";
import { zonedCity } from "./zoned-city.ts";

const TREES = 20_000;
const ROWS = 10_000;

/** L6: a table of ten thousand reported visits, previewed and taken. */
export const largeReport = rowOf(
  "l6",
  "report of 10,000 rows: preview 3 s, take-over 3 s",
  [],
  async ({ work, isShort }) => {
    const trees = isShort ? 500 : TREES;
    const plan = await zonedCity(work, trees);
    const visits = zonesOf(plan)
      .flatMap(({ visit_ids }) => visit_ids)
      .slice(0, isShort ? 100 : ROWS);
    const report = join(work, "report.csv");
    writeFileSync(
      report,
      `visit,outcome,date,who\n${visits.map((visit) => `${visit},done,2026-11-10,R. Alder`).join("\n")}\n`,
    );
    const preview = await worstOf(isShort ? 1 : 3, ["record", plan, report, "--preview", "--json"]);
    const taken = join(work, "taken");
    const take = await worstOf(isShort ? 1 : 3, ["record", taken, report], [], () => {
      rmSync(taken, { recursive: true, force: true });
      cpSync(plan, taken, { recursive: true, verbatimSymlinks: true });
    });
    return {
      figure: `${visits.length} rows on a plan of ${trees} trees: preview ${toldWorst(preview)}; taken ${toldWorst(take)}`,
      wrong: [...wrongWith("preview", preview, 3, 1200), ...wrongWith("take-over", take, 3, 1200)],
    };
  },
);
