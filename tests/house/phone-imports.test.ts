import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { expect, it } from "vitest";

const ROOT = path.join(import.meta.dirname, "../../src");

/** What the phone page's script may be made of: all of it is in every packet, and nothing else is there when it runs. */
const PARTS = [
  /^phone\//,
  /^core\/units\//,
  /^core\/plane\//,
  /^core\/crown\/drawing(-to-svg)?\.ts$/,
  /^core\/plan\/completion\/completion\.ts$/,
];
const PACKAGES = ["fflate"];

const files = readdirSync(path.join(ROOT, "phone"), { recursive: true, encoding: "utf8" })
  .map((file) => `phone/${file.split(path.sep).join("/")}`)
  .filter((file) => file.endsWith(".ts") && !file.startsWith("phone/make/"))
  .sort();

/** Why an import does not belong into the page; null when it does. Types are gone when it runs. */
function fault(file: string, from: string, isType: boolean): string | null {
  if (isType) return null;
  if (!from.startsWith(".")) return PACKAGES.includes(from) ? null : `${file} imports ${from}`;
  const target = path.posix.normalize(path.posix.join(path.posix.dirname(file), from));
  return PARTS.some((part) => part.test(target)) && !target.startsWith("phone/make/")
    ? null
    : `${file} imports ${target}`;
}

it("holds only what its script may be made of", () => {
  expect(files).toContain("phone/main.ts");
  const faults = files.flatMap((file) =>
    [...readFileSync(path.join(ROOT, file), "utf8").matchAll(/^(?:import|export)\s([^;]*?)from\s+"([^"]+)"/gm)].flatMap(
      ([, clause, from]) => fault(file, from!, clause!.startsWith("type ")) ?? [],
    ),
  );
  expect(faults).toEqual([]);
});

it("asks no network and runs no text", () => {
  const asking =
    /\bfetch\(|XMLHttpRequest|WebSocket|EventSource|sendBeacon|importScripts|\beval\(|new Function|\bimport\(/;
  expect(files.filter((file) => asking.test(readFileSync(path.join(ROOT, file), "utf8")))).toEqual([]);
});

it("keeps every word it says in one catalog", () => {
  // Words on the screen are texts with a blank between letters, or children of an element; markup names and classes have none.
  const said = /(?:element|button)\([^"`]*"[a-z0-9]+"[^"`]*\}, "[A-Z]|textContent = "[A-Za-z]/;
  const others = files.filter((file) => !file.startsWith("phone/words/"));
  expect(others.filter((file) => said.test(readFileSync(path.join(ROOT, file), "utf8")))).toEqual([]);
});

it("refuses what it must", () => {
  expect(fault("phone/app.ts", "zod", false)).not.toBeNull();
  expect(fault("phone/app.ts", "../core/pipeline.ts", false)).not.toBeNull();
  expect(fault("phone/app.ts", "./make/phone-shell.ts", false)).not.toBeNull();
  expect(fault("phone/app.ts", "../core/model/plan.ts", true)).toBeNull();
  expect(fault("phone/views/a.ts", "../../core/units/length.ts", false)).toBeNull();
});
