import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { build } from "vite";
import { afterAll, expect, test } from "vitest";

const folder = mkdtempSync(join(tmpdir(), "boughline-plugin-"));
afterAll(() => rmSync(folder, { recursive: true }));

test("the plugin, bundled without the map library, is at most 150 kB gzipped", async () => {
  await build({
    configFile: false,
    logLevel: "error",
    build: {
      outDir: folder,
      target: "es2023",
      minify: true,
      lib: {
        entry: fileURLToPath(new URL("../../src/map/index.ts", import.meta.url)),
        formats: ["es"],
        fileName: "boughline",
      },
    },
  });
  const bytes = readdirSync(folder)
    .filter((name) => name.endsWith(".js"))
    .reduce((sum, name) => sum + gzipSync(readFileSync(join(folder, name))).length, 0);
  expect(bytes).toBeGreaterThan(10_000);
  expect(bytes).toBeLessThanOrEqual(150_000);
  // Only types are taken from the map library: nothing of it is left to import.
  for (const name of readdirSync(folder))
    expect(readFileSync(join(folder, name), "utf8")).not.toMatch(/from\s*"maplibre-gl"/);
});
