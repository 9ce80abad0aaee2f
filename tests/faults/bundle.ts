import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build, type Plugin } from "vite";

const root = fileURLToPath(new URL("../../", import.meta.url));
const entry = join(root, "src/cli/main.ts");

/**
 * Builds the command into one file in a folder and gives its path: a start then costs a fraction of one that translates the source. Each
 * module still finds what lies beside its own source; packages are put in the bundle.
 */
export async function bundleCommand(folder: string): Promise<string> {
  await build({
    configFile: false,
    logLevel: "error",
    root,
    plugins: [ownAddress],
    ssr: { noExternal: true, external: ["vite"] },
    build: {
      ssr: entry,
      outDir: folder,
      emptyOutDir: false,
      target: "node20",
      minify: false,
      rollupOptions: { output: { entryFileNames: "boughline.mjs", format: "es" } },
    },
  });
  return join(folder, "boughline.mjs");
}

/** Lets a module of the bundle have the address of its source. */
const ownAddress: Plugin = {
  name: "own-address",
  enforce: "pre",
  transform: (code, id) =>
    id.startsWith("/") && code.includes("import.meta.url")
      ? code.replaceAll("import.meta.url", JSON.stringify(pathToFileURL(id.split("?")[0]!).href))
      : null,
};
