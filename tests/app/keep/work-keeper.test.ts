import "fake-indexeddb/auto";
import { deleteDB, openDB } from "idb";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { EditRecord } from "../../../src/app/keep/edit-record.ts";
import type { KeepState } from "../../../src/app/keep/keep-state.ts";
import { type KeepStart, WorkKeeper } from "../../../src/app/keep/work-keeper.ts";
import { DATABASE, DATABASE_VERSION, WorkStore } from "../../../src/app/keep/work-store.ts";

const FILES = new Map([
  ["plan.json", new TextEncoder().encode('{"format":1}')],
  ["zones.geojson", new Uint8Array([0, 255, 13, 10])],
]);
const NEW: KeepStart = { edits: [], isStored: false, replaces: null, view: "" };
const opened: WorkKeeper[] = [];
const realIndexedDb = globalThis.indexedDB;

beforeEach(() => deleteDB(DATABASE));
afterEach(async () => {
  globalThis.indexedDB = realIndexedDb;
  for (const keeper of opened.splice(0)) await keeper.end();
});

function keeperOf(start: KeepStart = NEW, key = "plan.1.abc"): { keeper: WorkKeeper; told: KeepState[] } {
  const told: KeepState[] = [];
  const facts = {
    key,
    planFormat: 1,
    planId: "plan",
    revision: 1,
    name: "Oak Street",
    from: "page" as const,
    counts: { trees: 3, conflicts: 2, zones: 1 },
    files: async () => FILES,
  };
  let clock = 0;
  const now = () => new Date(Date.UTC(2026, 10, 3) + 1000 * clock++).toISOString();
  const keeper = new WorkKeeper(facts, (state) => told.push(state), start, now);
  opened.push(keeper);
  return { keeper, told };
}

async function withStore<T>(act: (store: WorkStore) => Promise<T>): Promise<T> {
  const store = await WorkStore.open(() => {});
  try {
    return await act(store);
  } finally {
    store.close();
  }
}

const kept = (key = "plan.1.abc") => withStore((store) => store.read(key));
const payloads = (edits: readonly EditRecord[]) => edits.map(({ payload }) => payload);

async function settled(keeper: WorkKeeper): Promise<KeepState> {
  await expect.poll(() => keeper.state.is).not.toBe("saving");
  return keeper.state;
}

describe("keeping", () => {
  test("begins with the first edit: the files once, then each edit in order", async () => {
    const { keeper, told } = keeperOf();
    expect(await kept()).toBeNull();
    keeper.add("zone-edit", { n: 1 });
    keeper.add("zone-edit", { n: 2 });
    expect(keeper.state).toEqual({ is: "saving" });
    await settled(keeper);
    keeper.add("zone-edit", { n: 3 });
    await settled(keeper);
    const plan = (await kept())!;
    expect(payloads(plan.edits)).toEqual([{ n: 1 }, { n: 2 }, { n: 3 }]);
    expect(plan.edits.map(({ kind, planId, revision }) => [kind, planId, revision])).toEqual([
      ["zone-edit", "plan", 1],
      ["zone-edit", "plan", 1],
      ["zone-edit", "plan", 1],
    ]);
    expect(plan.files).toEqual(FILES);
    expect(plan.work).toMatchObject({ name: "Oak Street", edits: 3, bytes: 12 + 4, counts: { trees: 3 } });
    // `kept` is said only after `saving`, and never while something is unwritten.
    expect(told.map(({ is }) => is).filter((is, at, all) => is !== all[at - 1])).toEqual([
      "saving",
      "kept",
      "saving",
      "kept",
    ]);
  });

  test("goes on from what is stored, and keeps the view with it", async () => {
    const first = keeperOf().keeper;
    first.add("zone-edit", "a");
    await settled(first);
    await first.end();
    const { edits } = (await kept())!;
    const { keeper } = keeperOf({ edits, isStored: true, replaces: null, view: "" });
    expect(keeper.state).toMatchObject({ is: "kept", edits: 1 });
    keeper.setView("view=zones");
    keeper.add("zone-edit", "b");
    await settled(keeper);
    const plan = (await kept())!;
    expect([payloads(plan.edits), plan.work.view, plan.work.files.length]).toEqual([["a", "b"], "view=zones", 2]);
  });

  test("a new revision takes the place of the one before in one step", async () => {
    const first = keeperOf().keeper;
    first.add("zone-edit", "a");
    await settled(first);
    const { keeper } = keeperOf({ ...NEW, replaces: "plan.1.abc" }, "plan.2.def");
    await keeper.keepWhole();
    expect(await kept("plan.1.abc")).toBeNull();
    expect((await kept("plan.2.def"))!.edits).toEqual([]);
  });

  test("forgets on demand, all of it", async () => {
    const { keeper } = keeperOf();
    keeper.add("zone-edit", "a");
    await settled(keeper);
    await keeper.forget();
    const database = await openDB(DATABASE, DATABASE_VERSION);
    const left = await Promise.all(["works", "files", "edits"].map((name) => database.count(name)));
    database.close();
    expect(left).toEqual([0, 0, 0]);
  });
});

describe("two writers", () => {
  test("the second, who does not know the first's edits, is refused and adds nothing", async () => {
    const one = keeperOf().keeper;
    one.add("zone-edit", "one");
    await settled(one);
    const { edits } = (await kept())!;
    const other = keeperOf({ edits, isStored: true, replaces: null, view: "" }).keeper;
    one.add("zone-edit", "two");
    await settled(one);
    other.add("zone-edit", "lost?");
    expect(await settled(other)).toEqual({ is: "elsewhere", unkept: 1 });
    expect(() => other.add("zone-edit", "again")).toThrow("Another page");
    expect(payloads((await kept())!.edits)).toEqual(["one", "two"]);
  });

  test("one that never looked does not write over kept work", async () => {
    const one = keeperOf().keeper;
    one.add("zone-edit", "one");
    await settled(one);
    const other = keeperOf().keeper;
    other.add("zone-edit", "mine");
    expect(await settled(other)).toEqual({ is: "elsewhere", unkept: 1 });
    expect(payloads((await kept())!.edits)).toEqual(["one"]);
  });
});

describe("storage that fails", () => {
  test("says that nothing is kept where there is none, and keeps all of it once there is", async () => {
    for (const broken of [
      undefined,
      null,
      {
        open() {
          throw new DOMException("no", "SecurityError");
        },
      },
    ]) {
      globalThis.indexedDB = broken as unknown as IDBFactory;
      const { keeper, told } = keeperOf();
      keeper.add("zone-edit", "a");
      expect(await settled(keeper)).toEqual({ is: "not-kept", why: "blocked" });
      expect(told.some(({ is }) => is === "kept")).toBe(false);
      globalThis.indexedDB = realIndexedDb;
      keeper.add("zone-edit", "b");
      expect(await settled(keeper)).toMatchObject({ is: "kept", edits: 2 });
      expect(payloads((await kept())!.edits)).toEqual(["a", "b"]);
      await keeper.forget();
    }
  });

  test("a database deleted while the page is open is filled again from the page", async () => {
    const { keeper } = keeperOf();
    keeper.add("zone-edit", "a");
    await settled(keeper);
    await deleteDB(DATABASE);
    keeper.add("zone-edit", "b");
    expect(await settled(keeper)).toMatchObject({ is: "kept", edits: 2 });
    expect(payloads((await kept())!.edits)).toEqual(["a", "b"]);
  });

  test("edits that went missing are written again", async () => {
    const { keeper } = keeperOf();
    keeper.add("zone-edit", "a");
    await settled(keeper);
    const database = await openDB(DATABASE, DATABASE_VERSION);
    await database.clear("edits");
    database.close();
    keeper.add("zone-edit", "b");
    await settled(keeper);
    expect(payloads((await kept())!.edits)).toEqual(["a", "b"]);
  });

  test("a database of a later version is left alone", async () => {
    const later = await openDB(DATABASE, DATABASE_VERSION + 1, {
      upgrade: (database) => {
        database.createObjectStore("later");
      },
    });
    await later.put("later", "treasure", "x");
    later.close();
    const { keeper } = keeperOf();
    keeper.add("zone-edit", "a");
    expect(await settled(keeper)).toEqual({ is: "not-kept", why: "newer" });
    const again = await openDB(DATABASE, DATABASE_VERSION + 1);
    expect([[...again.objectStoreNames], await again.get("later", "x")]).toEqual([["later"], "treasure"]);
    again.close();
  });

  test("a page of a later version need not wait for this one", async () => {
    const { keeper } = keeperOf();
    keeper.add("zone-edit", "a");
    await settled(keeper);
    let wasBlocked = false;
    const later = await openDB(DATABASE, DATABASE_VERSION + 1, {
      blocked: () => {
        wasBlocked = true;
      },
    });
    later.close();
    expect(wasBlocked).toBe(false);
    keeper.add("zone-edit", "b");
    expect(await settled(keeper)).toEqual({ is: "not-kept", why: "newer" });
  });
});

describe("what others wrote into the storage", () => {
  const junk = [null, 7, "text", {}, { key: "plan.1.abc" }, { key: "plan.1.abc", format: "1" }];

  test("junk is offered as broken or passed over, and a later version's work is neither read nor written over", async () => {
    const { keeper } = keeperOf(NEW, "good");
    keeper.add("zone-edit", "a");
    await settled(keeper);
    const database = await openDB(DATABASE, DATABASE_VERSION);
    for (const [at, value] of junk.entries()) {
      if (typeof value === "object" && value !== null) await database.put("works", { ...value, key: `junk-${at}` });
    }
    const newer = { key: "newer", name: "From tomorrow", format: 2, treasure: true };
    await database.put("works", newer);
    await database.put("edits", { key: "good", edit: { kind: "zone-edit", payload: "no id" } });
    await database.put("edits", { key: "good", edit: "text" });
    await withStore(async (store) => {
      const entries = await store.entries();
      expect(entries.map(({ is }) => is).sort()).toEqual(["broken", "broken", "broken", "newer", "whole"]);
      const good = (await store.read("good"))!;
      expect([payloads(good.edits), good.unread]).toEqual([["a"], 2]);
      await expect(store.read("newer")).rejects.toMatchObject({ why: "newer" });
      await expect(store.read("junk-3")).rejects.toMatchObject({ why: "broken" });
    });
    const writer = keeperOf(NEW, "newer").keeper;
    writer.add("zone-edit", "b");
    expect(await settled(writer)).toEqual({ is: "not-kept", why: "newer" });
    const appender = keeperOf({ ...NEW, isStored: true }, "newer").keeper;
    appender.add("zone-edit", "b");
    expect(await settled(appender)).toEqual({ is: "not-kept", why: "newer" });
    expect(await database.get("works", "newer")).toEqual(newer);
    database.close();
  });

  test("a plan whose file is gone is broken, not half opened", async () => {
    const { keeper } = keeperOf();
    keeper.add("zone-edit", "a");
    await settled(keeper);
    const database = await openDB(DATABASE, DATABASE_VERSION);
    await database.delete("files", ["plan.1.abc", "zones.geojson"]);
    database.close();
    await expect(kept()).rejects.toMatchObject({ why: "broken" });
  });

  test("the edits of a damaged plan can be read alone, and who mends it keeps them whole again", async () => {
    const { keeper } = keeperOf();
    for (const payload of ["a", "b"]) keeper.add("zone-edit", payload);
    await settled(keeper);
    await keeper.end();
    const database = await openDB(DATABASE, DATABASE_VERSION);
    await database.delete("files", ["plan.1.abc", "zones.geojson"]);
    await database.put("edits", { key: "plan.1.abc", edit: "junk" });
    database.close();
    const { edits, unread } = await withStore((store) => store.journal("plan.1.abc"));
    expect([payloads(edits), unread]).toEqual([["a", "b"], 1]);
    const mender = keeperOf({ ...NEW, edits, mends: true }).keeper;
    await mender.keepWhole();
    mender.add("zone-edit", "c");
    expect(await settled(mender)).toMatchObject({ is: "kept", edits: 3 });
    expect(payloads((await kept())!.edits)).toEqual(["a", "b", "c"]);
  });
});
