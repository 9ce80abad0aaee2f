import { fileURLToPath } from "node:url";
import { enrich } from "./commands/enrich.ts";
import { buildApp, view } from "./commands/view.ts";
import { zone } from "./commands/zone.ts";
import { reportError } from "./report-error.ts";

/** The date the sample town is planned for, so that everyone sees the same plan. */
const SAMPLE_AS_OF = "2026-11-02";

const sample = (name: string): string =>
  fileURLToPath(new URL(`../../sample-geojson/${name}.geojson`, import.meta.url));
const out = fileURLToPath(new URL("../../plan/", import.meta.url));

try {
  await enrich({
    trees: [sample("trees")],
    buildings: [sample("buildings")],
    roads: [sample("roads")],
    paths: [sample("paths")],
    signs: [sample("signs")],
    signals: [sample("signals")],
    conductors: [sample("conductors")],
    asOf: SAMPLE_AS_OF,
    replace: true,
    out,
  });
  await zone(out, {});
  // Built anew each time: a page built before the last update would not fit the plan.
  await buildApp();
  const address = await view(out, Number(process.env.PORT ?? "4173"), { name: "Sample town" });
  process.stdout.write(`\nThe sample town is at ${address} (stop with Ctrl-C)\n`);
} catch (error) {
  process.exitCode = reportError(error);
}
