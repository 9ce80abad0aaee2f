import { describe, expect, test } from "vitest";
import type { Keeper } from "../../../src/phone/keep/keepers.ts";
import { Report } from "../../../src/phone/keep/report.ts";

/** Keeps in memory, as often as it is allowed to. */
class MemoryKeeper implements Keeper {
  text: string | null = null;
  isBlocked = false;
  writes = 0;

  async read() {
    if (this.isBlocked) throw new Error("blocked");
    return this.text;
  }

  async write(text: string) {
    if (this.isBlocked) throw new Error("blocked");
    this.writes += 1;
    this.text = text;
  }
}

const open = (...keepers: Keeper[]) => Report.open("key", keepers);

describe("Report", () => {
  test("has what was marked after it is opened again", async () => {
    const keeper = new MemoryKeeper();
    const first = await open(keeper);
    first.changeVisit("v1", { outcome: "done", crownBase: "4.6" });
    first.changeZone({ who: "R. Alder", emergency: ["911"] });
    const addedId = first.add("hazard", "T-1");
    first.changeAdded(addedId, { notes: "Hanger" });
    await first.settled();
    expect(first.kept).toBe("kept");
    const second = await open(keeper);
    expect(second.visit("v1")).toMatchObject({ outcome: "done", crownBase: "4.6" });
    expect(second.marks.zone).toMatchObject({ who: "R. Alder", emergency: ["911"] });
    expect(second.marks.added).toMatchObject([{ id: addedId, notes: "Hanger", treeId: "T-1" }]);
    expect(second.marks.reportId).toBe(first.marks.reportId);
  });

  test("says that nothing is kept where nothing can be, and keeps on working", async () => {
    const keeper = new MemoryKeeper();
    keeper.isBlocked = true;
    const report = await open(keeper);
    expect(report.kept).toBe("memory");
    report.changeVisit("v1", { outcome: "done" });
    await report.settled();
    expect(report.kept).toBe("memory");
    expect(report.visit("v1").outcome).toBe("done");
    keeper.isBlocked = false;
    report.changeVisit("v2", { outcome: "done" });
    await report.settled();
    expect(report.kept).toBe("kept");
    expect((await open(keeper)).visit("v1").outcome).toBe("done");
  });

  test("lives with one of its two places, and takes up the later of two copies", async () => {
    const [one, other] = [new MemoryKeeper(), new MemoryKeeper()];
    const report = await open(one, other);
    report.changeVisit("v1", { outcome: "partly" });
    await report.settled();
    other.isBlocked = true;
    report.changeVisit("v1", { outcome: "done" });
    await report.settled();
    expect(report.kept).toBe("kept");
    other.isBlocked = false;
    expect((await open(other, one)).visit("v1").outcome).toBe("done");
  });

  test("keeps the later of two changes when the clock was set back between them", async () => {
    const keeper = new MemoryKeeper();
    const report = await open(keeper);
    report.changeVisit("v1", { outcome: "partly" });
    await report.settled();
    keeper.text = keeper.text!.replace(/"at":"20\d\d/g, '"at":"2099');
    const next = await open(keeper);
    next.changeVisit("v1", { outcome: "done" });
    await next.settled();
    expect((await open(keeper)).visit("v1").outcome).toBe("done");
  });

  test("keeps a tap at once where that can be", async () => {
    let text: string | null = null;
    const atOnce = {
      read: () => text,
      write: (written: string) => {
        text = written;
      },
    };
    let isSlow = false;
    const write = () => (isSlow ? new Promise<void>(() => {}) : Promise.resolve());
    const report = await open({ read: async () => text, write, atOnce });
    isSlow = true;
    report.changeVisit("v1", { outcome: "done" });
    expect(text).toContain('"done"');
    expect(report.kept).toBe("keeping");
  });

  test("opens although one of its places never answers", async () => {
    const keeper = new MemoryKeeper();
    const silent = { read: () => new Promise<null>(() => {}), write: () => new Promise<void>(() => {}) };
    const report = await open(silent, keeper);
    expect(report.kept).toBe("kept");
  });

  test("never says kept of a change that is not through", async () => {
    const keeper = new MemoryKeeper();
    const report = await open(keeper);
    report.changeVisit("v1", { outcome: "done" });
    expect(report.kept).toBe("keeping");
    await report.settled();
    expect(report.kept).toBe("kept");
    expect(keeper.text).toContain('"done"');
  });

  test("loses nothing of two tabs that mark different trees", async () => {
    const keeper = new MemoryKeeper();
    const [one, other] = [await open(keeper), await open(keeper)];
    one.changeVisit("v1", { outcome: "done" });
    await one.settled();
    other.changeVisit("v2", { outcome: "partly" });
    await other.settled();
    const third = await open(keeper);
    expect([third.visit("v1").outcome, third.visit("v2").outcome]).toEqual(["done", "partly"]);
    await one.reread();
    expect(one.visit("v2").outcome).toBe("partly");
  });

  test("leaves alone what a newer page has kept", async () => {
    const keeper = new MemoryKeeper();
    keeper.text = '{"version":2,"anything":true}';
    const report = await open(keeper);
    report.changeVisit("v1", { outcome: "done" });
    await report.settled();
    expect([report.trouble, report.kept, keeper.text]).toEqual(["newer", "memory", '{"version":2,"anything":true}']);
  });

  test.each(["", "{", "null", "[]", '{"version":1}', '{"version":1,"reportId":7}'])(
    "starts anew from what it cannot read, and says so: %s",
    async (text) => {
      const keeper = new MemoryKeeper();
      keeper.text = text;
      const report = await open(keeper);
      expect([report.trouble, report.kept]).toEqual(["unreadable", "kept"]);
    },
  );

  test("reads kept members by their kind", async () => {
    const keeper = new MemoryKeeper();
    keeper.text = JSON.stringify({
      version: 1,
      reportId: "r",
      zone: { who: 7, emergency: "no" },
      visits: [["v1", { outcome: "exploded", crownBase: 4 }], "x", ["__proto__", { outcome: "done" }]],
      added: [
        { id: "", kind: "tree" },
        { id: "a", kind: 3, place: { lonDeg: "x" } },
      ],
    });
    const { marks } = await open(keeper);
    expect(marks.zone).toMatchObject({ who: "", emergency: [] });
    expect(marks.visits.get("v1")).toMatchObject({ outcome: "", crownBase: "" });
    expect(marks.visits.get("__proto__")?.outcome).toBe("done");
    expect(marks.added).toMatchObject([{ id: "a", kind: "hazard", place: null }]);
  });
});
