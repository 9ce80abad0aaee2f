import { createHash } from "node:crypto";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { loadFonts } from "../../../src/cli/fonts.ts";
import { writePacket, writePacketsIndex } from "../../../src/cli/write-packets-index.ts";
import { type PackedFiles, type PacketsIndex, packetsIndex } from "../../../src/core/packet/index/packets-index.ts";
import { drawZonesMap } from "../../../src/core/packet/index/zones-map.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { buildPacket } from "../../../src/formats/packet/build-packet.ts";
import { indexHtml } from "../../../src/formats/packet/index/index-html.ts";
import { smallPlan, smallZone } from "../../core/packet/small-plan.ts";

const file = (name: string) => ({ name, bytes: 1_234_567, sha256: "0123456789abcdef".repeat(4) });
const files: PackedFiles = { packet: file("one.zip"), sheets: file("one.pdf"), phone: file("one.html") };
const html = (zone = smallZone) =>
  indexHtml(
    packetsIndex({ ...smallPlan, zones: [zone] }, new Map([[zone.zoneId, files]])),
    drawZonesMap(smallPlan, [zone]),
  );

describe("indexHtml", () => {
  test("says what a contractor looks for", async () => {
    const text = await html();
    for (const one of [
      "Oak Street 1",
      "Issued",
      "Line-clearance crew",
      "6.5 h, 9 trees",
      "31 Mar 2027",
      "One lane closed",
      "revision 3",
      "zip, 1.2 MB",
      "0123456789abcdef",
    ]) {
      expect(text).toContain(one);
    }
    for (const name of ["one.zip", "one.pdf", "one.html", "index.json"]) expect(text).toContain(`href="${name}"`);
  });

  test("gives the same bytes twice", async () => {
    expect(await html()).toBe(await html());
  });

  test("runs no script and fetches nothing", async () => {
    const text = await html();
    const policy = /Content-Security-Policy" content="([^"]*)"/.exec(text)![1]!;
    expect(policy).toMatch(/^default-src 'none'; style-src 'sha256-[^;]*'; font-src data:;/);
    const style = /<style>([\s\S]*)<\/style>/.exec(text)![1]!;
    expect(policy).toContain(`'sha256-${createHash("sha256").update(style).digest("base64")}'`);
    expect(text).not.toMatch(/<(script|link|img|iframe|object|embed|base|form)\b|\son\w+=|\sstyle=|javascript:/i);
    const addresses = [...text.matchAll(/(?:https?:)?\/\/[\w.-]+\.[a-z]{2,}[^\s"'`)]*/g)].map((match) => match[0]);
    expect(addresses.filter((address) => !address.startsWith("http://www.w3.org/2000/svg"))).toEqual([]);
  });

  test("keeps hostile texts as text", async () => {
    const hostile = `"><script>alert(1)</script><img src=x onerror=alert(1)>'&`;
    const text = await html({ ...smallZone, zoneId: `z"${hostile}`, name: hostile, streets: [hostile] });
    expect(text).not.toMatch(/<(script|img)\b/);
    expect(text).toContain("&quot;&gt;&lt;script&gt;alert(1)&lt;/script&gt;");
    const plan = { ...smallPlan, planId: hostile };
    const other = await indexHtml(
      packetsIndex({ ...plan, zones: [smallZone] }, new Map([["z-0001", files]])),
      drawZonesMap(plan, []),
    );
    expect(other).not.toMatch(/<(script|img)\b/);
  });
});

describe("writePacketsIndex", () => {
  let folder: string;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), "packets-"));
  });
  afterEach(() => rmSync(folder, { recursive: true }));
  const second = { ...smallZone, zoneId: "z-0002", name: "Oak Street 2" };
  const plan = { ...smallPlan, zones: [smallZone, second] };
  const indexed = () => JSON.parse(readFileSync(join(folder, "index.json"), "utf8")) as PacketsIndex;

  test("lists every file with its true size and SHA-256, and links to it", async () => {
    const built = await buildPacket(plan, smallZone, usCommon(), await loadFonts(), { paper: "letter" });
    await writePacketsIndex(folder, plan, new Map([["z-0001", await writePacket(folder, built)]]));
    expect(readdirSync(folder).sort()).toEqual([
      "index.html",
      "index.json",
      "z-0001-Oak-Street-1.html",
      "z-0001-Oak-Street-1.pdf",
      "z-0001-Oak-Street-1.zip",
    ]);
    const page = readFileSync(join(folder, "index.html"), "utf8");
    for (const { name, bytes, sha256 } of Object.values(indexed().zones[0]!.files)) {
      const content = readFileSync(join(folder, name));
      expect(bytes).toBe(content.length);
      expect(sha256).toBe(createHash("sha256").update(content).digest("hex"));
      expect(page).toContain(`href="${name}"`);
    }
    expect(indexed().notPacked).toEqual(["z-0002"]);
  });

  const put = (stem: string): PackedFiles => {
    const written = (ending: string) => {
      writeFileSync(join(folder, `${stem}.${ending}`), stem);
      return { name: `${stem}.${ending}`, bytes: stem.length, sha256: "0".repeat(64) };
    };
    return { packet: written("zip"), sheets: written("pdf"), phone: written("html") };
  };

  test("keeps listed what an earlier run of the same revision wrote, and nothing that is gone or of another revision", async () => {
    await writePacketsIndex(folder, plan, new Map([["z-0001", put("first")]]));
    await writePacketsIndex(folder, plan, new Map([["z-0002", put("second")]]));
    expect(indexed().zones.map(({ zoneId }) => zoneId)).toEqual(["z-0001", "z-0002"]);
    rmSync(join(folder, "first.pdf"));
    await writePacketsIndex(folder, plan, new Map([["z-0002", put("second")]]));
    expect(indexed().zones.map(({ zoneId }) => zoneId)).toEqual(["z-0002"]);
    await writePacketsIndex(folder, { ...plan, revision: 4 }, new Map([["z-0001", put("first")]]));
    expect(indexed().zones.map(({ zoneId }) => zoneId)).toEqual(["z-0001"]);
  });

  test("writes a broken index anew", async () => {
    writeFileSync(join(folder, "index.json"), "{");
    await writePacketsIndex(folder, plan, new Map([["z-0001", put("first")]]));
    expect(indexed().zones).toHaveLength(1);
  });
});
