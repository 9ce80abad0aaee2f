import { describe, expect, test } from "vitest";
import { droppedFiles } from "../../../src/app/intake/dropped-files.ts";
import { wantedOf } from "../../../src/app/intake/pick-folder.ts";
import { currentOf, isPlanFolder } from "../../../src/app/intake/plan-in-folder.ts";

describe("the current revision", () => {
  const history = '{"revision":1}\n{"revision":2}\nnot a line\n{"revision":9}\n';
  test.each<[string, string | null, string | null, string[], number | null]>([
    ["is where the pointer leads", "revisions/1\n", history, ["1", "2"], 1],
    ["is the last of the history that is there, where the pointer is a link", null, history, ["1", "2"], 2],
    ["is the highest where the history is lost", null, null, ["1", "10", "9"], 10],
    ["is never where no revision is", "revisions/7", history, ["1", "2"], 2],
    ["is never outside", "../../etc", null, ["3"], 3],
    ["does not mind foreign names", "revisions/2", null, ["2", "02", "notes", "-1", ".boughline-1"], 2],
    ["is none without revisions", "revisions/1", history, [], null],
  ])("%s", (_, pointer, lines, names, expected) => {
    expect(currentOf(pointer, lines, names)).toBe(expected);
  });

  test("is asked only of plan folders", () => {
    const folder = (files: string[], folders: string[]) => ({
      files: new Map(files.map((name) => [name, 0])),
      folders: new Map(folders.map((name) => [name, 0])),
    });
    expect(isPlanFolder(folder(["history.jsonl"], ["revisions", "current"]))).toBe(true);
    expect(isPlanFolder(folder(["current"], ["revisions"]))).toBe(true);
    expect(isPlanFolder(folder(["trees.geojson"], ["revisions"]))).toBe(false);
    expect(isPlanFolder(folder(["history.jsonl", "plan.json"], []))).toBe(false);
  });
});

type Tree = { readonly [name: string]: string | Tree };

/** A dropped folder as browsers hand it over, in batches of two. */
function entry(name: string, content: string | Tree): object {
  if (typeof content === "string") {
    return { name, isFile: true, file: (done: (file: File) => void) => done(new File([content], name)) };
  }
  return {
    name,
    isFile: false,
    createReader: () => {
      const left = Object.entries(content).map(([inner, one]) => entry(inner, one));
      return { readEntries: (done: (batch: object[]) => void) => done(left.splice(0, 2)) };
    },
  };
}

async function dropped(name: string, content: Tree): Promise<string[]> {
  const transfer = { items: [{ webkitGetAsEntry: () => entry(name, content) }], files: [] };
  const files = await droppedFiles(transfer as unknown as DataTransfer);
  return Promise.all(files.map(async (file) => `${file.name}=${await file.text()}`));
}

test("of a dropped plan folder one revision is taken, whole and unmixed", async () => {
  const revision = (n: number) => ({
    "plan.json": `plan ${n}`,
    "zones.geojson": `zones ${n}`,
    packets: { "a.zip": "x" },
  });
  const folder = {
    "history.jsonl": '{"revision":1}\n{"revision":2}\n',
    revisions: { "1": revision(1), "2": revision(2), ".boughline-5-ab": revision(3) },
  };
  expect(await dropped("plan", folder)).toEqual(["plan.json=plan 2", "zones.geojson=zones 2"]);
  expect(await dropped("plan", { ...folder, current: "revisions/1\n" })).toEqual([
    "plan.json=plan 1",
    "zones.geojson=zones 1",
  ]);
  // The folder above it, and `current` followed as a link is.
  const deep = { plans: { town: { ...folder, current: revision(2) } } };
  expect(await dropped("city", deep)).toEqual(["plan.json=plan 2", "zones.geojson=zones 2"]);
});

test("other folders are taken as they are", async () => {
  expect(await dropped("data", { "trees.geojson": "t", more: { "roads.geojson": "r", ".hidden": "h" } })).toEqual([
    "trees.geojson=t",
    "roads.geojson=r",
  ]);
});

test("of a picked plan folder one revision is taken too", async () => {
  const file = (path: string, text = path) => [`town/${path}`, new File([text], path.split("/").at(-1)!)] as const;
  const given = [
    file("history.jsonl", '{"revision":1}\n{"revision":2}\n'),
    file("revisions/1/plan.json"),
    file("revisions/2/plan.json"),
    file("revisions/2/packets/one.zip"),
    // Browsers follow the link and show its folder.
    file("current/plan.json"),
  ];
  const texts = async (files: readonly File[]) => Promise.all(files.map((one) => one.text()));
  expect(await texts(await wantedOf(given))).toEqual(["revisions/2/plan.json"]);
  expect(await texts(await wantedOf([...given, file("current", "revisions/1\n")]))).toEqual(["revisions/1/plan.json"]);
  expect(await texts(await wantedOf([file("trees.geojson"), file("more/roads.geojson")]))).toEqual([
    "trees.geojson",
    "more/roads.geojson",
  ]);
});
