import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { LinkController, type LinkPage } from "../../../src/app/share/link-controller.ts";
import { type PageView, viewHash } from "../../../src/app/share/page-view.ts";
import { NO_FILTER } from "../../../src/app/tree-filter.ts";

const viewOf = (view: PageView["view"]): PageView => ({
  planId: "3f2a",
  view,
  filter: NO_FILTER,
  units: null,
  date: null,
  place: null,
});

const address = { hash: "", href: "https://trees.example/" };
let told = new EventTarget();
let shown = viewOf({ name: "trees" });
let link: LinkController;

beforeEach(() => {
  vi.useFakeTimers();
  told = new EventTarget();
  address.hash = "";
  shown = viewOf({ name: "trees" });
  vi.stubGlobal("location", address);
  vi.stubGlobal("history", {
    state: null,
    replaceState: (_state: unknown, _title: string, hash: string) => {
      address.hash = hash;
    },
  });
  vi.stubGlobal("window", {
    addEventListener: told.addEventListener.bind(told),
    setTimeout: globalThis.setTimeout,
    clearTimeout: globalThis.clearTimeout,
  });
  const page: LinkPage = {
    viewNow: () => shown,
    show: (view) => {
      shown = view;
      link.follow();
    },
    keep: () => {},
    tell: () => {},
  };
  link = new LinkController({ addController: () => {} } as never, page);
  link.hostConnected();
  link.arrive("3f2a");
});

afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

test("the address follows the view once it rests", () => {
  link.follow();
  expect(address.hash).toBe("");
  vi.runAllTimers();
  expect(address.hash).toBe("#plan=3f2a");
});

test("a link followed just before the address would be written is shown, not lost", () => {
  shown = viewOf({ name: "zones" });
  link.follow();
  address.hash = `#${viewHash(viewOf({ name: "tree", treeId: "T-7" }))}`;
  // The browser tells of a new hash in a task of its own, which a timer can come before.
  vi.runAllTimers();
  told.dispatchEvent(new Event("hashchange"));
  vi.runAllTimers();
  expect(shown.view).toEqual({ name: "tree", treeId: "T-7" });
  expect(address.hash).toBe("#plan=3f2a&tree=T-7");
});

test("a hash that is no link is not written over at once, and the address goes on after it", () => {
  link.follow();
  address.hash = "#legend";
  vi.runAllTimers();
  told.dispatchEvent(new Event("hashchange"));
  expect(address.hash).toBe("#legend");
  link.follow();
  vi.runAllTimers();
  expect(address.hash).toBe("#plan=3f2a");
});
