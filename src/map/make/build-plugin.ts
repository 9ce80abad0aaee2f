import { execFileSync } from "node:child_process";
import { cpSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { build } from "vite";

const ROOT = fileURLToPath(new URL("../../../", import.meta.url));

/** Most bytes that the script may have, gzipped, without the map library. */
export const MOST_GZIP_BYTES = 150_000;

/**
 * Builds the plugin into a folder that any static host can serve: `boughline.js`, one module without imports; `boughline.css`; and
 * `styles/` with the fragments, sprites and symbols. Returns the script's size, gzipped at zlib's default level, in bytes. Throws
 * RangeError when it is over {@link MOST_GZIP_BYTES} or imports anything.
 */
export async function buildPlugin(folder: string): Promise<number> {
  await build({
    configFile: false,
    logLevel: "error",
    // Named one by one, so that libraries give their production code also where NODE_ENV asks for another.
    resolve: { conditions: ["production", "module", "browser"] },
    build: {
      outDir: folder,
      emptyOutDir: true,
      target: "es2023",
      minify: true,
      lib: { entry: join(ROOT, "src/map/index.ts"), formats: ["es"], fileName: () => "boughline.js" },
    },
  });
  const scripts = readdirSync(folder).filter((name) => name.endsWith(".js"));
  if (scripts.length !== 1) throw new RangeError(`Expected one script, got ${scripts.join(", ")}`);
  const script = readFileSync(join(folder, "boughline.js"));
  const [imported] = script.toString("utf8").match(/^\s*import\b.{0,60}|\bimport\s*\(.{0,60}/m) ?? [];
  if (imported !== undefined) throw new RangeError(`Expected a script without imports, got ${imported}`);
  const bytes = gzipSync(script).length;
  if (bytes > MOST_GZIP_BYTES) throw new RangeError(`Expected at most ${MOST_GZIP_BYTES} bytes gzipped, got ${bytes}`);
  writeFileSync(join(folder, "boughline.css"), oneStyleSheet());
  mkdirSync(join(folder, "styles"), { recursive: true });
  cpSync(join(ROOT, "styles"), join(folder, "styles"), { recursive: true, filter: (path) => !path.endsWith(".ts") });
  return bytes;
}

/** Writes the types beside the script: `boughline.d.ts` and what it names. The map library's own types come from the host. */
export function writeTypes(folder: string): void {
  const compiler = join(ROOT, "node_modules/typescript/bin/tsc");
  const settings = join(ROOT, "src/map/make/tsconfig.json");
  execFileSync(process.execPath, [compiler, "-p", settings, "--outDir", join(folder, "types")], { stdio: "inherit" });
  writeFileSync(join(folder, "boughline.d.ts"), 'export * from "./types/map/index.ts";\n');
}

/** The plugin's style sheet with the tokens in it, so that it is one file. */
function oneStyleSheet(): string {
  const read = (name: string): string => readFileSync(join(ROOT, "styles", name), "utf8");
  const importLine = '@import "./tokens.css";\n';
  const shell = read("boughline.css");
  if (!shell.includes(importLine)) throw new RangeError(`Expected boughline.css to have the line ${importLine}`);
  return shell.replace(importLine, read("tokens.css"));
}
