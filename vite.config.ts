import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { build, defineConfig } from "vite";
import { offlinePlugin } from "./src/app/offline/offline-plugin.ts";

const at = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/** Builds the app into `dist/app`; every path in it is relative, so that it runs from any folder and from `boughline view`. */
export default defineConfig({
  root: at("./src/app"),
  base: "./",
  build: {
    outDir: at("./dist/app"),
    emptyOutDir: true,
    target: "es2023",
    // Inlined files become data: addresses, which the page's content policy does not let it fetch.
    assetsInlineLimit: 0,
    // MapLibre is one file of about 1 MB.
    chunkSizeWarningLimit: 1600,
  },
  worker: { format: "es" },
  plugins: [offlinePlugin(serviceWorker, publicFiles)],
});

/** The service worker's script with the list of the page's files in it. */
async function serviceWorker(files: string): Promise<string> {
  const result = await build({
    configFile: false,
    logLevel: "error",
    define: { __OFFLINE_FILES__: files },
    build: {
      write: false,
      target: "es2023",
      modulePreload: false,
      rollupOptions: {
        input: at("./src/app/offline/service-worker.ts"),
        output: { format: "iife", entryFileNames: "sw.js" },
      },
    },
  });
  const [{ output }] = (Array.isArray(result) ? result : [result]) as [{ output: { code?: string }[] }];
  const code = output[0]?.code;
  if (code === undefined) throw new Error("Expected a service worker's script, got none");
  return code;
}

/** What is copied into the page's folder as it is, by name. */
function publicFiles(): ReadonlyMap<string, Uint8Array> {
  const folder = at("./src/app/public/");
  const names = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  return new Map(
    names.map(({ parentPath, name }) => {
      const path = `${parentPath.replace(/\/?$/, "/")}${name}`;
      return [path.slice(folder.length), readFileSync(path)];
    }),
  );
}
