import type { Finding } from "../../../core/model/finding.ts";
import type { PlanOptions } from "../../../core/model/plan.ts";
import { boughProperties } from "../../../core/plan/bough-properties.ts";
import { type PartCounts, partCounts } from "../../../core/plan/plan-counts.ts";
import { conflictFeatures } from "../../../core/plan/plan-features.ts";
import { visitRows } from "../../../core/plan/plan-tables.ts";
import { partSpans, type SpanSums } from "../../../core/plan/span-sums.ts";
import type { PlannedPart } from "../../../core/plan-part.ts";
import { forecastVisits } from "../../../core/schedule/forecast-visits.ts";
import { type PartLoads, partLoads } from "../../../core/schedule/workload.ts";
import type { Standard } from "../../../core/standard/standard.ts";
import { csvLine } from "../../csv.ts";
import { MemberTexts } from "../../geojson/member-texts.ts";
import { TextBytes } from "../../text-bytes.ts";

/** What some trees of a plan, in input order, put into its files: bytes and plain data, so that the objects they were made of can go. */
export interface EncodedPart {
  /** Place of each tree in the trees layer. */
  readonly ordinals: Float64Array;
  /** The `bough_` members of each tree as JSON text, one after another, and where each ends. */
  readonly members: Uint8Array<ArrayBuffer>;
  readonly memberEnds: Uint32Array;
  /** Features of `conflicts.geojson`, a line each but for the last one's end. */
  readonly conflicts: Uint8Array<ArrayBuffer>;
  /** Lines of `prescriptions.jsonl`. */
  readonly prescriptions: Uint8Array<ArrayBuffer>;
  /** Rows of `visits.csv`. */
  readonly visits: Uint8Array<ArrayBuffer>;
  readonly counts: PartCounts;
  readonly loads: PartLoads;
  readonly spans: ReadonlyMap<string, SpanSums>;
  readonly findings: readonly Finding[];
}

/** What a planned part puts into the files of a plan without zones. */
export function encodePart(part: PlannedPart, standard: Standard, options: PlanOptions): EncodedPart {
  const { trees, conflicts, settings, prescriptions, findings } = part;
  const treeByRow = byRow(trees, ({ row }) => row);
  const settingByRow = byRow(settings, ({ treeRow }) => treeRow);
  const expected = forecastVisits(treeByRow, prescriptions, conflicts, settingByRow, standard, options);
  const visits = new TextBytes();
  for (const row of visitRows(prescriptions, (at) => treeByRow[at], new Map())) visits.add(csvLine(row));
  return {
    ordinals: Float64Array.from(trees, ({ ordinal }) => ordinal),
    ...treeMembers(part),
    conflicts: conflictBytes(part),
    prescriptions: prescriptionBytes(part),
    visits: visits.bytes(),
    counts: partCounts(trees.length, conflicts, prescriptions),
    loads: partLoads(expected),
    spans: partSpans(trees, settings, conflicts, prescriptions),
    findings,
  };
}

/** The buffers of a part, which can be handed to another thread instead of being copied. */
export const buffersOf = (part: EncodedPart): ArrayBuffer[] =>
  [part.members, part.conflicts, part.prescriptions, part.visits].map(({ buffer }) => buffer);

function treeMembers({ trees, conflicts, settings, prescriptions }: PlannedPart) {
  const members = new TextBytes();
  const memberEnds = new Uint32Array(trees.length);
  const texts = new MemberTexts();
  let next = 0;
  for (const [at, tree] of trees.entries()) {
    const first = next;
    while (next < conflicts.length && conflicts[next]!.treeRow === tree.row) next += 1;
    const own = boughProperties(tree, prescriptions[at]!, conflicts.slice(first, next), settings[at]!, null);
    members.add(texts.of(Object.entries(own)));
    memberEnds[at] = members.length;
  }
  return { members: members.bytes(), memberEnds };
}

function conflictBytes({ conflicts }: PlannedPart): Uint8Array<ArrayBuffer> {
  const lines = new TextBytes();
  for (const conflict of conflicts) {
    const [feature] = conflictFeatures([conflict]).features;
    lines.add(lines.length === 0 ? JSON.stringify(feature) : `,\n${JSON.stringify(feature)}`);
  }
  return lines.bytes();
}

function prescriptionBytes({ trees, settings, prescriptions }: PlannedPart): Uint8Array<ArrayBuffer> {
  const lines = new TextBytes();
  for (const [at, tree] of trees.entries()) {
    lines.add(`${JSON.stringify({ tree, setting: settings[at], prescription: prescriptions[at] })}\n`);
  }
  return lines.bytes();
}

/** A list with each thing at its row in the plan. */
function byRow<Thing>(things: readonly Thing[], rowOf: (thing: Thing) => number): Thing[] {
  const placed: Thing[] = [];
  for (const thing of things) placed[rowOf(thing)] = thing;
  return placed;
}
