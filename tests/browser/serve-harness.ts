import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { createServer } from "vite";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));

/** The harness page on loopback, from sources; its own cache folder goes when it is closed. */
export async function serveHarness(): Promise<{ readonly address: string; close(): Promise<void> }> {
  const cacheDir = await mkdtemp(join(tmpdir(), "boughline-harness-"));
  const server = await createServer({
    configFile: false,
    root: ROOT,
    cacheDir,
    logLevel: "error",
    server: { host: "127.0.0.1", port: 0, strictPort: false, hmr: false, watch: null },
    optimizeDeps: {
      include: [
        "maplibre-gl",
        "maplibre-gl-5",
        "lit",
        "terra-draw",
        "terra-draw-maplibre-gl-adapter",
        "clipper2-ts",
        "zod",
      ],
      entries: ["tests/browser/harness/harness.ts"],
    },
  });
  await server.listen();
  const address = server.resolvedUrls?.local[0];
  if (address === undefined) throw new Error("Expected the harness server to have an address, got none");
  return {
    address: `${address}tests/browser/harness/index.html`,
    close: async () => {
      await server.close();
      await rm(cacheDir, { recursive: true, force: true });
    },
  };
}
