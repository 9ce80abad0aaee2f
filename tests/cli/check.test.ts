import { copyFileSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, describe, expect, it, vi } from "vitest";
import { check } from "../../src/cli/commands/check.ts";
import { EXIT } from "../../src/cli/exit-codes.ts";

const folder = mkdtempSync(join(tmpdir(), "boughline-check-"));
const AS_OF = "2026-06-15";

function file(name: string, content: unknown): string {
  const path = join(folder, name);
  writeFileSync(path, typeof content === "string" ? content : JSON.stringify(content));
  return path;
}

const tree = (lonDeg: number, properties: object = { species: "Acer rubrum", dbh: 30 }) => ({
  type: "Feature",
  id: `t${lonDeg}`,
  properties,
  geometry: { type: "Point", coordinates: [lonDeg, 43.07] },
});
const lineFeature = {
  type: "Feature",
  properties: { natural: "tree_row" },
  geometry: {
    type: "LineString",
    coordinates: [
      [-89.4, 43.07],
      [-89.401, 43.07],
    ],
  },
};
const collection = (...features: readonly unknown[]) => ({ type: "FeatureCollection", features });

/** Runs `check` and gives the exit code and what it printed. */
async function run(files: readonly string[], options: Parameters<typeof check>[1] = {}): Promise<[number, string]> {
  let printed = "";
  vi.spyOn(process.stdout, "write").mockImplementation((text) => {
    printed += String(text);
    return true;
  });
  const code = await check(files, { asOf: AS_OF, ...options });
  vi.restoreAllMocks();
  return [code, printed];
}

afterEach(() => {
  vi.restoreAllMocks();
});

describe("boughline check", () => {
  it("reports counts that add up, columns with how sure, and set-asides in full", async () => {
    const trees = file("street_trees.geojson", collection(tree(-89.4), { ...tree(-89.41), geometry: null }));
    const [code, text] = await run([trees]);
    expect(code).toBe(EXIT.done);
    expect(text).toContain("street_trees.geojson: trees (guessed by its name): set-aside");
    expect(text).toContain("2 read = 1 used + 1 set aside");
    expect(text).toMatch(/dbh +from dbh +cm assumed +80 % {2}"30"/);
    expect(text).toContain("error   no-geometry: feature t-89.41");
    expect(text).toContain("In all 1 file: 2 read = 1 used + 1 set aside.");
  });

  it("groups findings by code and field, shows a few with their names and says how many more there are", async () => {
    const features = Array.from({ length: 3_000 }, (_, at) => ({
      ...tree(-89.4 + at * 1e-4, { tree_no: `T${at}`, height: "tall", dbh: "thick" }),
      id: at,
      ...(at < 20 ? { geometry: null } : {}),
    }));
    const trees = file("trees-7.geojson", collection(...features));
    const columns = file("columns-7.json", { trees: { id: { column: "tree_no" } } });
    const [, text] = await run([trees], { columns });
    const linesOf = (what: string) => text.split("\n").filter((line) => line.includes(what));
    expect(linesOf("no-geometry")).toHaveLength(4);
    expect(linesOf("no-geometry")[0]).toContain("feature T0");
    expect(linesOf("no-geometry of geometry: 20 in all, 17 not written out here; --json lists all.")).toHaveLength(1);
    // What is set aside is named to the last.
    for (let at = 0; at < 20; at += 1) expect(text).toMatch(new RegExp(`\\bT${at}\\b`));
    for (const field of ["height", "dbh"]) {
      const examples = linesOf(`, ${field}, `);
      expect(examples.map((line) => /feature (\w+)/.exec(line)?.[1])).toEqual(["T20", "T21", "T22"]);
      const [left, ...more] = linesOf(`unreadable-value of ${field}: 2,980 in all, 2,977 not written out here`);
      expect(left).toContain("--json lists all. The first 12 of the others: features");
      expect(more).toEqual([]);
    }
    expect(linesOf("  T23, T24, T25, T26, T27, T28, T29, T30, T31, T32, T33, T34")).toHaveLength(2);
    // A report that a person can read: the same faults in three thousand trees fill a page.
    expect(text.split("\n").length).toBeLessThan(60);

    const [, json] = await run([trees], { columns, json: true });
    const { findings } = JSON.parse(json) as { findings: { code: string }[] };
    expect(findings.filter(({ code }) => code === "unreadable-value")).toHaveLength(2 * 2_980);
  });

  it("prints one JSON object a file", async () => {
    const trees = file("trees.geojson", collection(tree(-89.4)));
    const roads = file(
      "a.geojson",
      collection({
        type: "Feature",
        properties: { highway: "residential" },
        geometry: {
          type: "LineString",
          coordinates: [
            [-89.4, 43.07],
            [-89.401, 43.07],
          ],
        },
      }),
    );
    const [code, text] = await run([trees, roads], { json: true });
    const lines = text
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line));
    expect(code).toBe(EXIT.done);
    expect(lines.map((one) => [one.file, one.layer, one.layer_guessed_by, one.read, one.used, one.set_aside])).toEqual([
      ["trees.geojson", "trees", "its name", 1, 1, 0],
      ["a.geojson", "roads", "what it holds", 1, 1, 0],
    ]);
    expect(lines[0].verdict).toBe("clean");
    expect(lines[0].columns.map((one: { field: string }) => one.field)).toEqual(["species", "dbh"]);
    expect(lines[1].findings).toEqual([]);
  });

  it("ends with 1 where findings reach --fail-on, and with 0 where they do not", async () => {
    const trees = file("trees-2.geojson", collection(tree(-89.4, { height: "tall" })));
    expect((await run([trees], { failOn: "warning" }))[0]).toBe(EXIT.findings);
    expect((await run([trees], { failOn: "error" }))[0]).toBe(EXIT.done);
  });

  it("ends with 3 for a file that cannot be read or whose layer nobody knows, and still reports the others", async () => {
    const broken = file("trees-3.geojson", '{"type":"FeatureCollection","features":[');
    const unknown = file("x.geojson", collection());
    const good = file("trees-4.geojson", collection(tree(-89.4)));
    const [code, text] = await run([broken, unknown, good]);
    expect(code).toBe(EXIT.inputRefused);
    expect(text).toContain("trees-3.geojson: trees (guessed by its name): unreadable");
    expect(text).toContain("x.geojson: layer unknown: warnings");
    expect(text).toContain("trees-4.geojson: trees (guessed by its name): clean");
  });

  it("tells a file whose layer alone is unknown from one that cannot be read", async () => {
    const rows = file("tree_rows.geojson", collection(lineFeature, lineFeature));
    const broken = file("z.geojson", '{"type":"FeatureCollection","features":[{"type":"Feature",');
    const [code, text] = await run([rows, broken]);
    expect(code).toBe(EXIT.inputRefused);
    expect(text).toContain("tree_rows.geojson: layer unknown: warnings");
    expect(text).toContain("layer-unknown: The file can be read and has 2 features, but neither");
    expect(text).toContain("none was checked. Say which: --trees FILE, or --buildings, --roads");
    expect(text).toContain("z.geojson: layer unknown: unreadable");
    expect(text).toContain("In all 2 files: 0 read = 0 used + 0 set aside. Not checked, as the layer is not known: 1.");
  });

  it("lets a layer be said, with a filter", async () => {
    const any = file("y.geojson", collection(tree(-89.4), tree(-89.41, { species: "Tilia cordata" })));
    const [code, text] = await run([], { trees: [`${any} where species contains Acer`] });
    expect(code).toBe(EXIT.done);
    expect(text).toContain("y.geojson: trees: clean");
    expect(text).toContain("2 read = 1 used + 1 set aside");
  });

  it("refuses wrong usage", async () => {
    const trees = file("trees-5.geojson", collection(tree(-89.4)));
    await expect(check([], {})).rejects.toMatchObject({ exitCode: EXIT.usage });
    await expect(check([trees], { failOn: "never" })).rejects.toMatchObject({ exitCode: EXIT.usage });
    await expect(check([trees], { crs: "EPSG:0" })).rejects.toMatchObject({ exitCode: EXIT.usage });
    await expect(check([trees], { asOf: "today" })).rejects.toMatchObject({ exitCode: EXIT.usage });
    await expect(check([join(folder, "none.geojson")], {})).rejects.toMatchObject({ exitCode: EXIT.inputRefused });
  });

  it("shows hostile text on one line, with control and direction characters escaped", async () => {
    const hostile = "tall\u001b[2J\nSet aside: 0\u202e\u2066\u009b31m";
    const trees = file("trees-6.geojson", collection(tree(-89.4, { height: hostile, "\u001b]0;x\u0007": 1 })));
    for (const json of [false, true]) {
      const [, text] = await run([trees], { json });
      // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what must not be printed
      expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/);
      expect(text).not.toContain("\nSet aside: 0");
    }
  });

  describe("of a file with several tables", () => {
    const town = join(import.meta.dirname, "../formats/read/fixtures/town.gpkg");

    it("asks which one is meant, by their names", async () => {
      const [code, text] = await run([town]);
      expect(code).toBe(EXIT.inputRefused);
      expect(text).toContain("several-tables: The GeoPackage holds 2 tables: buildings, street_trees.");
    });

    it("reads those that are named, each as the layer its name says", async () => {
      const [code, text] = await run([town], { table: ["street_trees", "buildings"], json: true });
      expect(code).toBe(EXIT.done);
      const reports = text
        .trimEnd()
        .split("\n")
        .map((line) => JSON.parse(line));
      expect(reports.map((one) => [one.file, one.layer, one.layer_guessed_by])).toEqual([
        ["town.gpkg, street_trees", "trees", "its name"],
        ["town.gpkg, buildings", "buildings", "its name"],
      ]);
      for (const { read, used, set_aside: setAside } of reports) expect(read).toBe(used + setAside);
      expect(reports[0].findings.map((finding: { code: string }) => finding.code)).toContain("format-read");
    });

    it("takes a table for the layer it is given for", async () => {
      const [, text] = await run([], { trees: [town], table: ["trees=street_trees"], json: true });
      expect(JSON.parse(text)).toMatchObject({ file: "town.gpkg, street_trees", layer: "trees" });
    });

    it("says that a table is not there, and that a bare name needs a bare file", async () => {
      const [code, text] = await run([town], { table: ["parks"] });
      expect(code).toBe(EXIT.inputRefused);
      expect(text).toContain('has no "parks"; it has buildings, street_trees');
      await expect(run([], { trees: [town], table: ["street_trees"] })).rejects.toThrow("--table LAYER=NAME");
    });
  });

  it("guesses the layer of a binary file by what it holds", async () => {
    const copy = join(folder, "export_17.zip");
    copyFileSync(join(import.meta.dirname, "../formats/read/fixtures/trees-cut-names.zip"), copy);
    const [code, text] = await run([copy], { json: true });
    expect(code).toBe(EXIT.done);
    expect(JSON.parse(text)).toMatchObject({ layer: "trees", layer_guessed_by: "what it holds", used: 3 });
  });

  it("refuses a file that takes longer than it may, and a limit that is no number", async () => {
    const features = Array.from({ length: 20_000 }, (_, at) => ({ ...tree(-89.4 + at * 1e-6), id: at }));
    const trees = file("many-trees.geojson", collection(...features));
    const [code, text] = await run([trees], { timeLimit: "0.000001" });
    expect(code).toBe(EXIT.inputRefused);
    expect(text).toContain("too-slow: The file was not read within 0.000001 seconds");
    await expect(run([trees], { timeLimit: "soon" })).rejects.toThrow('--time-limit takes seconds, got "soon"');
  });
});
