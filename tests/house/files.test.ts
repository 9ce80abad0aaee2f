import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, it } from "vitest";

const ROOT = path.join(import.meta.dirname, "../..");
/** Folders that hold nothing written here. */
const FOREIGN = new Set([".git", "node_modules", "dist", "plan"]);

/** Files longer than 300 lines that have a reason. */
const LONG_FILES: ReadonlyMap<string, string> = new Map();
const MAX_LINES = 300;

/** File names that say nothing of what is inside. */
const EMPTY_NAMES = ["utils", "util", "helpers", "helper", "common", "manager", "data", "info", "process", "handle"];

/** Marks of unfinished business, in pieces so that this file does not hold them itself. */
const UNFINISHED = new RegExp(`\\b(${["TO" + "DO", "FIX" + "ME", "X" + "XX", "HA" + "CK"].join("|")})\\b`);
/** Absolute paths of somebody's machine. */
const MACHINE_PATHS = new RegExp(
  ["/wo" + "rk/", "/ho" + "me/[a-z]", "/Us" + "ers/[A-Za-z]", "[A-Z]:\\\\Us" + "ers"].join("|"),
);

/** Every file of the checkout, from its root, sorted. */
function filesUnder(folder: string): string[] {
  return readdirSync(path.join(ROOT, folder), { withFileTypes: true })
    .flatMap((entry) => {
      const name = folder === "" ? entry.name : `${folder}/${entry.name}`;
      if (entry.isDirectory()) return FOREIGN.has(name) || FOREIGN.has(entry.name) ? [] : filesUnder(name);
      return entry.isFile() ? [name] : [];
    })
    .sort();
}

const files = filesUnder("");
const sources = files.filter((file) => file.startsWith("src/"));
const read = (file: string): string => readFileSync(path.join(ROOT, file), "utf8");
/** Text that people wrote: not the fixtures, tables and bad input that came from elsewhere. */
const written = files.filter(
  (file) => /\.(ts|md|css|html|json|ya?ml|sh)$/.test(file) && !/fixtures\/|bad-input\/|package-lock/.test(file),
);

/** A file's own name without its ending, `parse-place` of `src/cli/parse-place.ts`. */
const stem = (file: string): string => path.basename(file).replace(/\..*$/, "");

describe("the files of the house", () => {
  it("are found", () => {
    expect(sources.length).toBeGreaterThan(200);
    expect(written).toContain("tests/house/files.test.ts");
  });

  it("stay under 300 lines in src, or have a reason", () => {
    const long = sources
      .filter((file) => file.endsWith(".ts"))
      .filter((file) => read(file).trimEnd().split("\n").length > MAX_LINES);
    expect(long.filter((file) => !LONG_FILES.has(file))).toEqual([]);
    // A reason that is no longer needed goes.
    expect([...LONG_FILES.keys()].filter((file) => !long.includes(file))).toEqual([]);
  });

  it("have kebab-case names that say what is inside", () => {
    const code = files.filter((file) => /^(src|tests|styles|sample-geojson\/make)\/.*\.ts$/.test(file));
    expect(code.filter((file) => EMPTY_NAMES.includes(stem(file)))).toEqual([]);
    expect(code.filter((file) => !/^[a-z0-9]+(-[a-z0-9]+)*$/.test(stem(file)))).toEqual([]);
  });

  it("leave no business unfinished and name no machine", () => {
    const marked = written.filter((file) => UNFINISHED.test(read(file)));
    const placed = written.filter((file) => MACHINE_PATHS.test(read(file)));
    expect({ marked, placed }).toEqual({ marked: [], placed: [] });
  });
});

describe("what is installed", () => {
  it("names no place packages are fetched from", () => {
    const lock = JSON.parse(read("package-lock.json")) as {
      packages: Record<string, { resolved?: string; link?: true }>;
    };
    const placed = Object.entries(lock.packages).filter(
      ([, { resolved, link }]) => resolved !== undefined && link !== true,
    );
    expect(placed.map(([name]) => name)).toEqual([]);
  });

  it("is pinned to exact versions", () => {
    const { dependencies, devDependencies, overrides } = JSON.parse(read("package.json")) as Record<
      string,
      Record<string, string>
    >;
    const all = { ...dependencies, ...devDependencies, ...overrides };
    expect(
      Object.entries(all).filter(([, version]) => !/^(npm:[\w-]+@)?\d+\.\d+\.\d+(-[\w.]+)?$/.test(version)),
    ).toEqual([]);
  });
});

/** Whether a file's text takes more than types of maplibre-gl; `import { type Map }` counts, as it stays a bare import. */
function runsMapLibre(text: string): boolean {
  const imports =
    /^(?:import|export)\s([^;]*?)\sfrom\s+"maplibre-gl[^"]*"|^import\s+"maplibre-gl|\bimport\("maplibre-gl/gm;
  return [...text.matchAll(imports)].some((match) => !(match[1] ?? "").startsWith("type "));
}

/** Ways to put text on the screen that would read it as markup. */
const UNSAFE =
  /\b(innerHTML|outerHTML|setHTML|setHTMLUnsafe|insertAdjacentHTML|unsafeHTML|unsafeSVG|srcdoc)\b|\bdocument\.write/;

describe("the code that draws", () => {
  it("takes only types of maplibre-gl in the plugin", () => {
    const plugin = sources.filter((file) => file.startsWith("src/map/") && file.endsWith(".ts"));
    expect(plugin.length).toBeGreaterThan(20);
    expect(plugin.filter((file) => runsMapLibre(read(file)))).toEqual([]);
  });

  it("puts text on the screen as text only", () => {
    expect(sources.filter((file) => /\.(ts|html)$/.test(file) && UNSAFE.test(read(file)))).toEqual([]);
  });
});

describe("the checks themselves", () => {
  it("see what they must", () => {
    expect(runsMapLibre('import type { Map } from "maplibre-gl";')).toBe(false);
    expect(runsMapLibre('import { Map } from "maplibre-gl";')).toBe(true);
    expect(runsMapLibre('import { type Map } from "maplibre-gl";')).toBe(true);
    expect(runsMapLibre('import "maplibre-gl/dist/maplibre-gl.css";')).toBe(true);
    expect(runsMapLibre('const lib = await import("maplibre-gl");')).toBe(true);
    expect(UNSAFE.test("element.innerHTML = text")).toBe(true);
    expect(UNFINISHED.test(`// ${"TO"}DO: later`)).toBe(true);
    expect(MACHINE_PATHS.test(`"${"/ho"}me/somebody/x"`)).toBe(true);
  });
});
