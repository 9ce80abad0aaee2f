import { spawnSync } from "node:child_process";
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { basename, extname, join } from "node:path";
import { smallTown } from "../small-town.ts";
import { rowOf } from "./row.ts";
import { runChild } from "./run-child.ts";

/** Texts that a spreadsheet, markup, a query or a path could take for more than text; one a tree, in turn. */
const HOSTILE = [
  '=HYPERLINK("https://example.invalid","x")',
  "+1+cmd|' /C calc'!A0",
  "@SUM(1+1)",
  "-2+3",
  "'; DROP TABLE trees; --",
  '<script>alert(1)</script> ]]> & " \u0001',
  "../../outside, line\r\nbreak",
  "\t=1+1",
];

/** Every cell of the tables named, read by Python's csv module: none may begin as a formula does, unless it is a plain number. */
const SCAN_CSV = String.raw`
import csv, re, sys
cells = 0
for path in sys.argv[1:]:
    with open(path, encoding="utf-8-sig", newline="") as file:
        rows = list(csv.reader(file, strict=True))
    if len({len(row) for row in rows}) > 1: print(path + ": rows of unequal length")
    for row in rows:
        for cell in row:
            cells += 1
            if cell[:1] in ("=", "+", "-", "@", "\t", "\r", "\n") and cell and not re.fullmatch(r"[+-]?\d+(\.\d+)?([eE][+-]?\d+)?", cell):
                print(path + ": a cell begins with " + repr(cell[:20]))
print(cells, file=sys.stderr)
`;

const TEST_ZIP = `
import sys, zipfile
for path in sys.argv[1:]:
    bad = zipfile.ZipFile(path).testzip()
    if bad: print(path + ": " + bad)
`;

const NEEDS = ["ogrinfo", "sqlite3", "unzip", "python3", "qpdf", "pdftotext", "xmllint"];

/** Every export of a run on hostile texts, read back by programs that are not ours. */
export const readers = rowOf(
  "readers",
  "every export read back by a reader that is not ours: GDAL, SQLite, Info-ZIP, Python, QPDF, Poppler, libxml2",
  NEEDS,
  async ({ work, isShort }) => {
    const wrong: string[] = [];
    const plan = join(work, "plan");
    const count = isShort ? 30 : 120;
    const argv = smallTown(work, count, ["roads", "paths"]);
    makeHostile(join(work, "trees.geojson"));
    for (const one of [
      ["enrich", ...argv, "--threads", "1", "--out", plan],
      ["zone", plan, "--also", "gpkg,fgb,csv", "--public"],
      ["packet", plan, "--out", join(work, "packets")],
    ]) {
      const { code, err } = await runChild(one);
      if (code !== 0) throw new Error(`${one[0]} ended with ${code}: ${err.slice(0, 400)}`);
    }
    const zips = inFolder(join(work, "packets"), ".zip");
    zips.forEach((zip, at) => {
      const to = join(work, "unpacked", String(at));
      mkdirSync(to, { recursive: true });
      const { status, stderr } = spawnSync("unzip", ["-q", zip, "-d", to], { encoding: "utf8" });
      if (status !== 0) wrong.push(`unzip ${basename(zip)}: ${stderr.slice(0, 200)}`);
    });
    const files = [join(plan, "current"), join(work, "packets"), join(work, "unpacked")].flatMap((folder) =>
      inFolder(folder),
    );
    const ending = (...endings: readonly string[]): string[] => files.filter((path) => endings.includes(extname(path)));
    const ask = (paths: readonly string[], program: string, args: (path: string) => readonly string[]): number => {
      for (const path of paths) {
        const { status, stdout, stderr } = spawnSync(program, args(path), { encoding: "utf8", maxBuffer: 1 << 28 });
        const isWarned = /warning|error/i.test(stderr) || (program === "sqlite3" && stdout.trim() !== "ok");
        if (status !== 0 || isWarned) wrong.push(`${program} ${basename(path)}: ${(stderr || stdout).slice(0, 200)}`);
      }
      return paths.length;
    };
    const spatial = ending(".geojson", ".gpkg", ".fgb", ".kml", ".gpx", ".csv");
    const counts = [
      `${ask(spatial, "ogrinfo", (path) => ["-ro", "-al", "-so", path])} files by ogrinfo`,
      `${ask(ending(".gpkg"), "sqlite3", (path) => [path, "PRAGMA integrity_check"])} by sqlite3`,
      `${ask(zips, "unzip", (path) => ["-tq", path])} zips by unzip`,
      `${ask(ending(".pdf"), "qpdf", (path) => ["--check", path])} by qpdf`,
      `${ask(ending(".pdf"), "pdftotext", (path) => [path, "-"])} by pdftotext`,
      `${ask(ending(".kml", ".gpx"), "xmllint", (path) => ["--noout", "--nonet", path])} by xmllint`,
    ];
    for (const pdf of ending(".pdf")) {
      const text = spawnSync("pdftotext", [pdf, "-"], { encoding: "utf8" }).stdout;
      if (text.trim().length < 100) wrong.push(`pdftotext ${basename(pdf)}: no text`);
    }
    for (const [script, paths] of [
      [TEST_ZIP, zips],
      [SCAN_CSV, ending(".csv")],
    ] as const) {
      const { status, stdout, stderr } = spawnSync("python3", ["-c", script, ...paths], { encoding: "utf8" });
      if (status !== 0) wrong.push(`python3: ${stderr.slice(-300)}`);
      wrong.push(...stdout.split("\n").filter((line) => line !== ""));
      if (script === SCAN_CSV) counts.push(`${stderr.trim()} cells of ${paths.length} CSV tables by Python`);
    }
    for (const kind of [".geojson", ".gpkg", ".fgb", ".csv", ".kml", ".gpx", ".pdf", ".zip"]) {
      if (ending(kind).length === 0) wrong.push(`no ${kind} was made`);
    }
    return { figure: counts.join(", "), wrong };
  },
);

/** Puts the hostile texts into names and addresses of a layer of trees. */
function makeHostile(path: string): void {
  const layer = JSON.parse(readFileSync(path, "utf8")) as { features: { properties: Record<string, unknown> }[] };
  layer.features.forEach(({ properties }, at) => {
    properties.common_name = HOSTILE[at % HOSTILE.length];
    properties.address = HOSTILE[(at + 3) % HOSTILE.length];
    properties.id = `${HOSTILE[(at + 5) % HOSTILE.length]} ${at}`;
  });
  writeFileSync(path, JSON.stringify(layer));
}

const inFolder = (folder: string, ending = ""): string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(ending))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
