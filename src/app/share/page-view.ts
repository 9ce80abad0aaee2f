import { CONFLICT_KINDS, CREWS, URGENCIES } from "../../core/model/terms.ts";
import { type IsoDate, parseIsoDate } from "../../core/units/calendar.ts";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import { sidePage } from "../frame/side-pages.ts";
import type { MapPlace } from "../map/map-place.ts";
import type { SideView } from "../side-view.ts";
import { DUE_CHOICES, NO_FILTER, type TreeFilter } from "../tree-filter.ts";

/** What the page shows of a plan: enough to come back to it, and nothing of the plan's data but the names of what is looked at. */
export interface PageView {
  readonly planId: string;
  readonly view: SideView;
  readonly filter: TreeFilter;
  /** Null for the units the plan was made with. */
  readonly units: DisplayUnits | null;
  /** The date shown on the map; null for that of the plan. */
  readonly date: IsoDate | null;
  /** The middle of the map; null where it was not moved. */
  readonly place: MapPlace | null;
}

const LISTS = ["trees", "zones", "findings", "legend"] as const;
/** Longest text taken from an address, and most choices of one kind. */
const MOST_LETTERS = 200;
const MOST_CHOICES = 50;
/** Digits of longitude and latitude: about a meter. */
const PLACE_DIGITS = 5;

/** A view as the part of an address after `#`, the same for the same view; parts that show everything are left out. */
export function viewHash({ planId, view, filter, units, date, place }: PageView): string {
  const parts = new URLSearchParams();
  parts.set("plan", planId);
  if (view.name === "tree") parts.set("tree", view.treeId);
  else if (view.name === "zone") parts.set("zone", view.zoneId);
  else if (view.name === "page") {
    parts.set("page", view.page);
    if (view.subject !== null) parts.set("of", view.subject);
  } else if (view.name !== "trees") parts.set("list", view.name);
  setChoices(parts, "urgency", filter.urgencies, URGENCIES);
  setChoices(parts, "kind", filter.kinds, CONFLICT_KINDS);
  setChoices(parts, "crew", filter.crews, CREWS);
  if (filter.text !== "") parts.set("find", filter.text.slice(0, MOST_LETTERS));
  if (filter.months !== null) parts.set("months", `${filter.months.from}..${filter.months.to}`);
  if (filter.street !== null) parts.set("street", filter.street);
  if (filter.species !== null) parts.set("species", filter.species);
  if (filter.zoneId !== null) parts.set("in-zone", filter.zoneId);
  if (filter.due !== null) parts.set("due", String(filter.due));
  if (units !== null) parts.set("units", units);
  if (date !== null) parts.set("date", date);
  if (place !== null) {
    const { lonDeg, latDeg, zoom } = place;
    parts.set("at", [lonDeg.toFixed(PLACE_DIGITS), latDeg.toFixed(PLACE_DIGITS), zoom.toFixed(1)].join(","));
  }
  return parts.toString();
}

/** The view an address holds; null where it names no plan. Whatever else it cannot mean is passed over: an address can come from anyone. */
export function readViewHash(hash: string): PageView | null {
  const parts = new URLSearchParams(hash.replace(/^#/, "").slice(0, 10_000));
  const planId = textIn(parts, "plan");
  if (planId === null) return null;
  const units = parts.get("units");
  return {
    planId,
    view: viewIn(parts),
    filter: {
      ...NO_FILTER,
      urgencies: choicesIn(parts, "urgency", URGENCIES),
      kinds: choicesIn(parts, "kind", CONFLICT_KINDS),
      crews: choicesIn(parts, "crew", CREWS),
      text: textIn(parts, "find") ?? "",
      months: monthsIn(parts.get("months") ?? ""),
      street: textIn(parts, "street"),
      species: textIn(parts, "species"),
      zoneId: textIn(parts, "in-zone"),
      due: DUE_CHOICES.find((choice) => String(choice) === parts.get("due")) ?? null,
    },
    units: units === "us" || units === "metric" ? units : null,
    date: parseIsoDate(parts.get("date") ?? ""),
    place: placeIn(parts.get("at") ?? ""),
  };
}

function setChoices<T extends string>(parts: URLSearchParams, name: string, chosen: ReadonlySet<T>, all: readonly T[]) {
  if (chosen.size > 0) parts.set(name, all.filter((one) => chosen.has(one)).join(","));
}

function choicesIn<T extends string>(parts: URLSearchParams, name: string, all: readonly T[]): ReadonlySet<T> {
  const asked = new Set((parts.get(name) ?? "").split(",").slice(0, MOST_CHOICES));
  return new Set(all.filter((one) => asked.has(one)));
}

function textIn(parts: URLSearchParams, name: string): string | null {
  const text = parts.get(name);
  return text === null || text === "" || text.length > MOST_LETTERS ? null : text;
}

function viewIn(parts: URLSearchParams): SideView {
  const page = sidePage(parts.get("page") ?? "");
  if (page !== undefined)
    return { name: "page", page: page.name, subject: page.from === "lists" ? null : textIn(parts, "of") };
  const treeId = textIn(parts, "tree");
  if (treeId !== null) return { name: "tree", treeId };
  const zoneId = textIn(parts, "zone");
  if (zoneId !== null) return { name: "zone", zoneId };
  return { name: LISTS.find((name) => name === parts.get("list")) ?? "trees" };
}

const MONTHS = /^(\d{4}-(?:0[1-9]|1[0-2]))\.\.(\d{4}-(?:0[1-9]|1[0-2]))$/;

function monthsIn(text: string): TreeFilter["months"] {
  const [, from, to] = MONTHS.exec(text) ?? [];
  return from === undefined || to === undefined || to < from ? null : { from, to };
}

function placeIn(text: string): MapPlace | null {
  const numbers = text.split(",").map((part) => (/^-?\d{1,3}(\.\d{1,8})?$/.test(part) ? Number(part) : Number.NaN));
  const [lonDeg = Number.NaN, latDeg = Number.NaN, zoom = Number.NaN] = numbers;
  const isPlace = numbers.length === 3 && Math.abs(lonDeg) <= 180 && Math.abs(latDeg) <= 90 && zoom >= 0 && zoom <= 24;
  return isPlace ? { lonDeg, latDeg, zoom } : null;
}
