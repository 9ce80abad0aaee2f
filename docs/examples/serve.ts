import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { enrich } from "../../src/cli/commands/enrich.ts";
import { zone } from "../../src/cli/commands/zone.ts";
import { buildPlugin } from "../../src/map/make/build-plugin.ts";
import { serveExamples } from "./serve-examples.ts";

const LAYERS = ["trees", "buildings", "roads", "paths", "signs", "signals", "conductors"] as const;
const sample = (layer: string): string =>
  fileURLToPath(new URL(`../../sample-geojson/${layer}.geojson`, import.meta.url));

const folder = mkdtempSync(join(tmpdir(), "boughline-examples-"));
const out = join(folder, "plan");
const inputs = Object.fromEntries(LAYERS.map((layer) => [layer, [sample(layer)]]));
await enrich({ ...inputs, trees: [sample("trees")], asOf: "2026-11-02", out });
await zone(out, {});
await buildPlugin(join(folder, "plugin"));
const { address } = await serveExamples(
  { plan: join(out, "current"), plugin: join(folder, "plugin") },
  Number(process.env.PORT ?? "4174"),
);
process.stdout.write(`\nThe examples are at ${address} (stop with Ctrl-C)\n`);
