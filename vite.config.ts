import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";

/** Builds the app into `dist/app`; every path in it is relative, so that it runs from any folder and from `boughline view`. */
export default defineConfig({
  root: fileURLToPath(new URL("./src/app", import.meta.url)),
  base: "./",
  build: {
    outDir: fileURLToPath(new URL("./dist/app", import.meta.url)),
    emptyOutDir: true,
    target: "es2023",
    // Inlined files become data: addresses, which the page's content policy does not let it fetch.
    assetsInlineLimit: 0,
    // MapLibre is one file of about 1 MB.
    chunkSizeWarningLimit: 1600,
  },
  worker: { format: "es" },
});
