import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { unzipSync } from "fflate";
import { afterAll, describe, expect, test } from "vitest";
import { loadFonts } from "../../../src/cli/fonts.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { buildPacket } from "../../../src/formats/packet/build-packet.ts";
import { smallPlan, smallZone } from "../../core/packet/small-plan.ts";

// Packets are opened by programs that are not ours, where the machine has them: Info-ZIP, GDAL, libxml2, Poppler. A test that finds its program
// missing says so in its name and is skipped.

const has = (program: string, ...args: readonly string[]): boolean => {
  try {
    execFileSync(program, args, { stdio: "ignore" });
    return true;
  } catch {
    return false;
  }
};
const run = (program: string, ...args: readonly string[]): string => execFileSync(program, args, { encoding: "utf8" });
const hasUnzip = has("unzip", "-v");
const hasGdal = has("ogrinfo", "--version");
const hasXmllint = has("xmllint", "--version");
const hasPoppler = has("pdfinfo", "-v");

const folder = mkdtempSync(join(tmpdir(), "packet-outside-"));
afterAll(() => rmSync(folder, { recursive: true }));

/** Texts that markup, a shell, a spreadsheet or a path could take for more than text. */
const HOSTILE = `</name><script>alert(1)</script>]]>&"' $(touch pwned) ..\\..\\con \u202Eevil\u0000 =1+1 \u{1F333}`;
const hostilePlan = {
  ...smallPlan,
  trees: smallPlan.trees.map((tree) => ({ ...tree, commonName: HOSTILE, address: HOSTILE })),
};

const fonts = await loadFonts();
const CASES = {
  plain: await buildPacket(smallPlan, smallZone, usCommon(), fonts, { paper: "letter" }),
  hostile: await buildPacket(hostilePlan, { ...smallZone, name: HOSTILE }, usCommon(), fonts, { paper: "a4" }),
};
for (const [name, { bytes }] of Object.entries(CASES)) {
  writeFileSync(join(folder, `${name}.zip`), bytes);
  for (const [file, content] of Object.entries(unzipSync(bytes)))
    writeFileSync(join(folder, `${name}-${file}`), content);
}
const names = Object.keys(CASES) as (keyof typeof CASES)[];

describe.each(names)("a packet with %s texts", (name) => {
  test.skipIf(!hasUnzip)("is sound to Info-ZIP and holds the files of its manifest (needs unzip)", () => {
    const zip = join(folder, `${name}.zip`);
    expect(run("unzip", "-t", zip)).toContain("No errors detected");
    const listed = run("unzip", "-Z1", zip).trim().split("\n");
    const manifest = JSON.parse(readFileSync(join(folder, `${name}-manifest.json`), "utf8")) as {
      files: { name: string }[];
    };
    expect(listed).toEqual([...manifest.files.map((file) => file.name), "manifest.json"]);
    for (const file of listed) expect(file).toMatch(/^[a-z][a-z.-]*$/);
  });

  test.skipIf(!hasXmllint)("has KML and GPX that are well formed (needs xmllint)", () => {
    for (const file of ["zone.kml", "trees.gpx"]) {
      expect(() => run("xmllint", "--noout", "--nonet", join(folder, `${name}-${file}`))).not.toThrow();
    }
  });

  test.skipIf(!hasGdal)("is read by GDAL with the same features in every format (needs ogrinfo)", () => {
    const trees = smallZone.treeIds.length;
    const counts = (file: string, ...layers: readonly string[]) =>
      [
        ...run("ogrinfo", "-ro", "-so", "-al", join(folder, `${name}-${file}`), ...layers).matchAll(
          /Feature Count: (\d+)/g,
        ),
      ].map((match) => Number(match[1]));
    // GeoJSON: the zone's outline and each tree. KML: the outline, the walk and each tree. GPX: waypoints, one route and its points.
    expect(counts("zone.geojson")).toEqual([trees + 1]);
    expect(counts("zone.kml").reduce((sum, count) => sum + count, 0)).toBe(trees + 2);
    expect(counts("trees.gpx", "waypoints")).toEqual([trees]);
    expect(counts("trees.gpx", "routes")).toEqual([1]);
    expect(counts("trees.gpx", "route_points")).toEqual([trees]);
  });

  test.skipIf(!hasGdal)("stands where the plan's trees stand (needs ogrinfo)", () => {
    const points = (file: string, layer: readonly string[]) =>
      [
        ...run("ogrinfo", "-ro", "-al", join(folder, `${name}-${file}`), ...layer).matchAll(
          /POINT(?: Z)? \((-?[\d.]+) (-?[\d.]+)/g,
        ),
      ].map((match) => [Number(match[1]), Number(match[2])]);
    const wanted = smallZone.treeIds.map((id) => smallPlan.trees.find((tree) => tree.id === id)!);
    for (const found of [points("zone.geojson", []), points("zone.kml", []), points("trees.gpx", ["waypoints"])]) {
      expect(found).toHaveLength(wanted.length);
      found.forEach(([lonDeg, latDeg], at) => {
        // Files hold seven decimals, a centimeter; GDAL prints as many as it needs.
        expect(lonDeg).toBeCloseTo(wanted[at]!.lonDeg, 6);
        expect(latDeg).toBeCloseTo(wanted[at]!.latDeg, 6);
      });
    }
  });

  test.skipIf(!hasPoppler)("has sheets that run nothing and lead nowhere (needs pdfinfo)", () => {
    const sheets = join(folder, `${name}-sheets.pdf`);
    expect(run("pdfinfo", sheets)).toMatch(/JavaScript:\s+no/);
    expect(run("pdfinfo", "-js", sheets).trim()).toBe("");
    expect(run("pdfinfo", "-url", sheets)).not.toMatch(/https?:|file:|javascript:/i);
  });

  test("has sheets without actions, forms or attachments", () => {
    const text = readFileSync(join(folder, `${name}-sheets.pdf`), "latin1");
    for (const action of [
      "/JavaScript",
      "/JS",
      "/OpenAction",
      "/AA",
      "/Launch",
      "/URI",
      "/EmbeddedFile",
      "/AcroForm",
    ]) {
      expect(text.includes(`${action} `) || text.includes(`${action}(`), action).toBe(false);
    }
  });
});

test("flags what the fonts cannot print, on the packet and in its manifest", () => {
  expect(CASES.plain.charactersNotDrawn).toEqual([]);
  expect(CASES.hostile.charactersNotDrawn).toEqual(expect.arrayContaining(["U+0000", "U+202E", "U+1F333"]));
  const manifest = JSON.parse(readFileSync(join(folder, "hostile-manifest.json"), "utf8")) as {
    charactersNotDrawn: string[];
  };
  expect(manifest.charactersNotDrawn).toEqual(CASES.hostile.charactersNotDrawn);
});

test("keeps markup of texts out of every file that has markup", () => {
  for (const file of ["zone.kml", "trees.gpx", "phone.html"]) {
    const text = readFileSync(join(folder, `hostile-${file}`), "utf8");
    expect(text, file).not.toContain("<script>alert");
    expect(text, file).not.toContain("]]>&");
  }
});
