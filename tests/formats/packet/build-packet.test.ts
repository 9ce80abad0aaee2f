import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { unzipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { loadFonts } from "../../../src/cli/fonts.ts";
import type { Plan } from "../../../src/core/model/plan.ts";
import type { PacketManifest } from "../../../src/core/packet/packet-manifest.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { readCsv } from "../../../src/formats/csv.ts";
import { buildPacket } from "../../../src/formats/packet/build-packet.ts";
import { isSafeFileName } from "../../../src/formats/safe-file-name.ts";
import { smallPlan, smallZone } from "../../core/packet/small-plan.ts";

const fonts = await loadFonts();
const build = (plan: Plan = smallPlan, zone = smallZone) =>
  buildPacket(plan, zone, usCommon(), fonts, { paper: "letter" });
const text = (bytes: Uint8Array | undefined) => new TextDecoder().decode(bytes);

const hasXmllint = (() => {
  try {
    execFileSync("xmllint", ["--version"], { stdio: "ignore" });
    return true;
  } catch {
    return false;
  }
})();

describe("buildPacket", () => {
  test("gives the same bytes twice, under a safe name", async () => {
    const [first, second] = [await build(), await build()];
    expect(Buffer.from(first.bytes).equals(Buffer.from(second.bytes))).toBe(true);
    expect(isSafeFileName(first.name)).toBe(true);
    expect(first.name).toBe("z-0001-Oak-Street-1.zip");
  });

  test("lists every other file with its size and SHA-256", async () => {
    const files = unzipSync((await build()).bytes);
    const manifest = JSON.parse(text(files["manifest.json"])) as PacketManifest;
    expect(manifest).toMatchObject({ planId: "small-town-2027", revision: 3, zoneId: "z-0001" });
    expect(manifest.files.map(({ name }) => name)).toEqual(
      Object.keys(files).filter((name) => name !== "manifest.json"),
    );
    for (const { name, bytes, sha256 } of manifest.files) {
      expect(bytes).toBe(files[name]!.length);
      expect(sha256).toBe(createHash("sha256").update(files[name]!).digest("hex"));
    }
  });

  test("says the same trees in every format, in order of work", async () => {
    const files = unzipSync((await build()).bytes);
    const geojson = JSON.parse(text(files["zone.geojson"])) as { features: { properties: Record<string, unknown> }[] };
    const trees = geojson.features.filter(({ properties }) => properties.part === "tree");
    expect(trees.map(({ properties }) => properties.tree)).toEqual(smallZone.treeIds);
    expect(trees[1]!.properties).toMatchObject({
      bough_remedy: "remove-limb",
      bough_dose_pct: 14,
      bough_zone: "z-0001",
    });
    const csv = readCsv(text(files["order-of-work.csv"]));
    expect(csv.slice(1).map((row) => row[2])).toEqual(smallZone.treeIds);
    const names = [...text(files["trees.gpx"]).matchAll(/<wpt [^>]*><name>\d+ ([^<]*)</g)].map((match) => match[1]);
    expect(names).toEqual(smallZone.treeIds);
    for (const treeId of smallZone.treeIds) expect(text(files["zone.kml"])).toContain(`${treeId}</name>`);
  });

  test("keeps hostile texts as data", async () => {
    const hostile = "</name><script>alert(1)</script>]]>&\"'\u0000\uFFFE=1+1";
    const trees = smallPlan.trees.map((tree) => ({ ...tree, commonName: hostile, address: "=HYPERLINK(1)" }));
    const zone = { ...smallZone, name: `../..\\con:${hostile}` };
    const { name, bytes } = await build({ ...smallPlan, trees }, zone);
    expect(isSafeFileName(name)).toBe(true);
    const files = unzipSync(bytes);
    for (const file of ["trees.gpx", "zone.kml"]) expect(text(files[file])).not.toContain("<script");
    const csv = readCsv(text(files["order-of-work.csv"]));
    expect(csv[1]![4]).toBe(hostile);
    expect(csv[1]![5]).toBe("=HYPERLINK(1) Oak Street, north side");
    expect(text(files["order-of-work.csv"])).toContain(`"'=HYPERLINK(1)`);
    const geojson = JSON.parse(text(files["zone.geojson"])) as { features: { properties: Record<string, unknown> }[] };
    expect(geojson.features[1]!.properties.common_name).toBe(hostile);
    if (hasXmllint) {
      for (const file of ["trees.gpx", "zone.kml"]) {
        execFileSync("xmllint", ["--noout", "--nonet", "-"], { input: files[file]! });
      }
    }
  });
});
