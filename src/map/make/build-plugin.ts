import { execFileSync } from "node:child_process";
import { cpSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { build, type Plugin } from "vite";

const ROOT = fileURLToPath(new URL("../../../", import.meta.url));

/** Most bytes that each script may have, gzipped, without the map library. */
export const MOST_GZIP_BYTES = 150_000;

/** The scripts of the plugin, by what each is made from. The second is loaded only by a host that wants the zone tools. */
const SCRIPTS = { "boughline.js": "src/map/index.ts", "boughline-zones.js": "src/map/zoning/index.ts" } as const;
/** The drawing library with what we say to it; the zone tools load it when somebody first draws. */
const DRAW = "boughline-draw.js";

/** Bytes of each script, gzipped at zlib's default level. */
export type ScriptBytes = Readonly<Record<keyof typeof SCRIPTS | typeof DRAW, number>>;

/**
 * Builds the plugin into a folder that any static host can serve: `boughline.js` and, for the zone tools, `boughline-zones.js` with
 * `boughline-draw.js`, which it loads from beside itself; `boughline.css`; and `styles/` with the fragments, sprites and symbols. Throws RangeError
 * when a script is over {@link MOST_GZIP_BYTES} or imports anything else.
 */
export async function buildPlugin(folder: string): Promise<ScriptBytes> {
  for (const [name, entry] of Object.entries(SCRIPTS)) await buildScript(folder, name, entry);
  const scripts = readdirSync(folder).filter((name) => name.endsWith(".js"));
  const bytes = Object.fromEntries(scripts.map((name) => [name, checkedBytes(folder, name)]));
  if (scripts.sort().join() !== [...Object.keys(SCRIPTS), DRAW].sort().join())
    throw new RangeError(`Expected three scripts, got ${scripts.join(", ")}`);
  writeFileSync(join(folder, "boughline.css"), oneStyleSheet());
  mkdirSync(join(folder, "styles"), { recursive: true });
  cpSync(join(ROOT, "styles"), join(folder, "styles"), { recursive: true, filter: (path) => !path.endsWith(".ts") });
  return bytes as ScriptBytes;
}

async function buildScript(folder: string, name: string, entry: string): Promise<void> {
  await build({
    configFile: false,
    plugins: [ONE_LANGUAGE],
    logLevel: "error",
    // Named one by one, so that libraries give their production code also where NODE_ENV asks for another.
    resolve: { conditions: ["production", "module", "browser"] },
    build: {
      outDir: folder,
      emptyOutDir: entry === SCRIPTS["boughline.js"],
      target: "es2023",
      modulePreload: false,
      // Left to itself, a library's build keeps the spaces.
      rolldownOptions: {
        output: { minify: { compress: true, mangle: true, codegen: { removeWhitespace: true } }, chunkFileNames: DRAW },
      },
      lib: { entry: join(ROOT, entry), formats: ["es"], fileName: () => name },
    },
  });
}

/** Size of a script, gzipped, once it is known to be small enough and to import nothing but the script for drawing. */
function checkedBytes(folder: string, name: string): number {
  const script = readFileSync(join(folder, name));
  const imported = [...script.toString("utf8").matchAll(IMPORT)].map(([text]) => text);
  const strange = imported.find((text) => !text.includes(`./${DRAW}`));
  if (strange !== undefined) throw new RangeError(`Expected ${name} to have no imports, got ${strange}`);
  const size = gzipSync(script).length;
  if (size > MOST_GZIP_BYTES)
    throw new RangeError(`Expected ${name} to be at most ${MOST_GZIP_BYTES} bytes gzipped, got ${size}`);
  return size;
}

/** An import of a module, as it begins a statement of a minified script or is called. */
const IMPORT = /(?:^|[;}])import(?:[{*"'`]|\s).{0,60}|\bimport\s*\(.{0,60}/gm;

/** The schema library brings its messages in fifty languages; the plugin says its own, so that English is enough. */
const ONE_LANGUAGE: Plugin = {
  name: "one-language",
  load: (id) =>
    /[\\/]zod[\\/]v4[\\/]locales[\\/]index\.js$/.test(id) ? 'export { default as en } from "./en.js";' : null,
};

/** Writes the types beside the scripts: `boughline.d.ts`, `boughline-zones.d.ts` and what it names. The map library's own types come from the host. */
export function writeTypes(folder: string): void {
  const compiler = join(ROOT, "node_modules/typescript/bin/tsc");
  const settings = join(ROOT, "src/map/make/tsconfig.json");
  execFileSync(process.execPath, [compiler, "-p", settings, "--outDir", join(folder, "types")], { stdio: "inherit" });
  writeFileSync(join(folder, "boughline.d.ts"), 'export * from "./types/map/index.ts";\n');
  writeFileSync(join(folder, "boughline-zones.d.ts"), 'export * from "./types/map/zoning/index.ts";\n');
}

/** The plugin's style sheet with the tokens in it, so that it is one file. */
function oneStyleSheet(): string {
  const read = (name: string): string => readFileSync(join(ROOT, "styles", name), "utf8");
  const importLine = '@import "./tokens.css";\n';
  const shell = read("boughline.css");
  if (!shell.includes(importLine)) throw new RangeError(`Expected boughline.css to have the line ${importLine}`);
  return shell.replace(importLine, read("tokens.css"));
}
