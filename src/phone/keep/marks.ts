import {
  NOT_DONE_REASONS,
  type NotDoneReason,
  OUTCOMES,
  type Outcome,
  type Place,
} from "../../core/plan/completion/completion.ts";
import { FOUND_ON_SITE, type FoundOnSite } from "../found-on-site.ts";

/** Version of what is kept on the device; a newer one is left alone. */
export const MARKS_VERSION = 1;

/** What was tapped and typed about one visit; figures as they were typed. Empty texts are nothing said. */
export interface VisitMark {
  readonly outcome: Outcome | "";
  readonly reason: NotDoneReason | "";
  readonly date: string;
  readonly crownBase: string;
  readonly headroom: string;
  readonly dose: string;
  /** On an inspection round alone. */
  readonly height: string;
  readonly radius: string;
  readonly found: FoundOnSite | "";
  readonly notes: string;
  /** What the arborist on site says of the tree, beside the work: nothing, a note that stays with it, or that it is not to be pruned. */
  readonly word: SaidOnSite | "";
  /** The note, or why it is not to be pruned. */
  readonly wordText: string;
  /** One file name a line. */
  readonly photos: string;
  /** When it was last changed, UTC. */
  readonly at: string;
}

/** What can be said of a tree on a work packet's page. */
export const SAID_ON_SITE = ["note", "do-not-prune"] as const;
export type SaidOnSite = (typeof SAID_ON_SITE)[number];

/** A tree or a hazard that the plan does not have. */
export interface AddedMark {
  readonly id: string;
  readonly kind: "tree" | "hazard";
  readonly place: Place | null;
  readonly treeId: string | null;
  readonly species: string;
  readonly dbh: string;
  readonly height: string;
  readonly notes: string;
  readonly photos: string;
  readonly removed: boolean;
  readonly at: string;
}

/** What stands for the whole zone. */
export interface ZoneMark {
  readonly who: string;
  readonly crewHours: string;
  readonly notes: string;
  /** What was filled into the emergency lines, in their order. Never exported. */
  readonly emergency: readonly string[];
  readonly exportedAt: string;
  readonly at: string;
}

/** All that a crew has marked in one zone's page. */
export interface Marks {
  readonly reportId: string;
  readonly zone: ZoneMark;
  readonly visits: ReadonlyMap<string, VisitMark>;
  readonly added: readonly AddedMark[];
}

export const NO_VISIT_MARK: VisitMark = {
  outcome: "",
  reason: "",
  date: "",
  crownBase: "",
  headroom: "",
  dose: "",
  height: "",
  radius: "",
  found: "",
  notes: "",
  word: "",
  wordText: "",
  photos: "",
  at: "",
};

export const emptyMarks = (reportId: string): Marks => ({
  reportId,
  zone: { who: "", crewHours: "", notes: "", emergency: [], exportedAt: "", at: "" },
  visits: new Map(),
  added: [],
});

/** Both copies' marks; where both have something about one thing, what was changed later. The first copy's report id stays. */
export function mergeMarks(one: Marks, other: Marks): Marks {
  const visits = new Map(one.visits);
  for (const [id, mark] of other.visits) {
    const own = visits.get(id);
    if (own === undefined || mark.at > own.at) visits.set(id, mark);
  }
  const added = new Map(one.added.map((mark) => [mark.id, mark]));
  for (const mark of other.added) {
    const own = added.get(mark.id);
    if (own === undefined || mark.at > own.at) added.set(mark.id, mark);
  }
  return {
    reportId: one.reportId,
    zone: other.zone.at > one.zone.at ? other.zone : one.zone,
    visits,
    added: [...added.values()],
  };
}

/** Marks as the text that is kept. */
export const marksText = ({ reportId, zone, visits, added }: Marks): string =>
  JSON.stringify({ version: MARKS_VERSION, reportId, zone, visits: [...visits], added });

/**
 * Marks from a kept text: `newer` when a later version of the page wrote it, `unreadable` when it is something else. What is kept on a
 * device is not trusted: every member is read by its kind.
 */
export function readMarks(text: string): Marks | "newer" | "unreadable" {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return "unreadable";
  }
  const root = members(json);
  if (typeof root.version === "number" && root.version > MARKS_VERSION) return "newer";
  if (root.version !== MARKS_VERSION || textOf(root.reportId) === "") return "unreadable";
  const zone = members(root.zone);
  return {
    reportId: textOf(root.reportId),
    zone: {
      who: textOf(zone.who),
      crewHours: textOf(zone.crewHours),
      notes: textOf(zone.notes),
      emergency: listOf(zone.emergency).map(textOf),
      exportedAt: timeOf(zone.exportedAt),
      at: timeOf(zone.at),
    },
    visits: new Map(
      listOf(root.visits).flatMap((entry) => {
        const [id, mark] = listOf(entry);
        return typeof id === "string" ? [[id, visitMark(members(mark))] as const] : [];
      }),
    ),
    added: listOf(root.added).flatMap((entry) => addedMark(members(entry))),
  };
}

const visitMark = (mark: Record<string, unknown>): VisitMark => ({
  outcome: OUTCOMES.find((one) => one === mark.outcome) ?? "",
  reason: NOT_DONE_REASONS.find((one) => one === mark.reason) ?? "",
  date: textOf(mark.date),
  crownBase: textOf(mark.crownBase),
  headroom: textOf(mark.headroom),
  dose: textOf(mark.dose),
  height: textOf(mark.height),
  radius: textOf(mark.radius),
  found: FOUND_ON_SITE.find((one) => one === mark.found) ?? "",
  notes: textOf(mark.notes),
  word: SAID_ON_SITE.find((one) => one === mark.word) ?? "",
  wordText: textOf(mark.wordText),
  photos: textOf(mark.photos),
  at: timeOf(mark.at),
});

function addedMark(mark: Record<string, unknown>): AddedMark[] {
  if (textOf(mark.id) === "") return [];
  return [
    {
      id: textOf(mark.id),
      kind: mark.kind === "tree" ? "tree" : "hazard",
      place: placeOf(members(mark.place)),
      treeId: typeof mark.treeId === "string" ? mark.treeId : null,
      species: textOf(mark.species),
      dbh: textOf(mark.dbh),
      height: textOf(mark.height),
      notes: textOf(mark.notes),
      photos: textOf(mark.photos),
      removed: mark.removed === true,
      at: timeOf(mark.at),
    },
  ];
}

function placeOf({ lonDeg, latDeg, from, accuracyM }: Record<string, unknown>): Place | null {
  if (typeof lonDeg !== "number" || typeof latDeg !== "number") return null;
  return {
    lonDeg,
    latDeg,
    from: from === "device" ? "device" : "map",
    accuracyM: typeof accuracyM === "number" ? accuracyM : null,
  };
}

const members = (value: unknown): Record<string, unknown> =>
  typeof value === "object" && value !== null ? (value as Record<string, unknown>) : {};
const listOf = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);
/** A time as `Date` writes it, before the year 9000; else empty. */
const timeOf = (value: unknown): string => {
  const text = textOf(value);
  const time = /^[0-8]\d{3}-/.test(text) ? new Date(text) : null;
  return time !== null && !Number.isNaN(time.getTime()) && time.toISOString() === text ? text : "";
};
const textOf = (value: unknown): string => (typeof value === "string" ? value : "");
