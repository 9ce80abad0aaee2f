import { whoOf } from "./judge-entry.ts";
import type { RecordInput, VisitPreview } from "./record-preview.ts";
import { canBothBe, saysTheSame } from "./same-report.ts";

/**
 * Weighs the entries of several files about one visit against each other, and applies what was decided. Two files that cannot both be true are both
 * in conflict: which came first does not matter.
 */
export function settleVisits(
  judged: readonly VisitPreview[],
  { decisions }: Pick<RecordInput, "decisions">,
): VisitPreview[] {
  const byVisit = new Map<string, number[]>();
  judged.forEach(({ visitId }, at) => {
    const list = byVisit.get(visitId);
    if (list === undefined) byVisit.set(visitId, [at]);
    else list.push(at);
  });
  const settled = [...judged];
  for (const [visitId, places] of byVisit) {
    if (places.length > 1) weigh(settled, places);
    if (decisions.has(visitId)) decide(settled, places, decisions.get(visitId) ?? null);
  }
  return settled.map((one) => (one.status === "take" ? one : { ...one, becomes: null }));
}

/** Entries that may be taken are compared pair by pair; of those that say the same the first is taken. */
function weigh(settled: VisitPreview[], places: readonly number[]): void {
  const open = places.filter((at) => settled[at]!.status === "take" && settled[at]!.entry !== null);
  const taken: number[] = [];
  for (const at of open) {
    const { entry } = settled[at]!;
    const like = taken.find((other) => saysTheSame(settled[other]!.entry!, entry!));
    if (like === undefined) taken.push(at);
    else {
      const { becomes } = settled[like]!;
      const reason = `Reported alike by ${becomes === null ? "another file" : whoOf(becomes)}.`;
      settled[at] = { ...settled[at]!, status: "already-taken", reason, against: settled[like]!.entry };
    }
  }
  const against = taken.map((at) => taken.find((other) => !canBothBe(settled[at]!.entry!, settled[other]!.entry!)));
  taken.forEach((at, place) => {
    const other = against[place];
    if (other === undefined) return;
    const { entry, file } = settled[other]!;
    const reason = `${file} reports it otherwise on ${entry!.date}.`;
    settled[at] = { ...settled[at]!, status: "conflict", reason, against: entry, canDecide: true };
  });
}

/** Takes the one that was decided for; without a report's id only where one alone can be taken. */
function decide(settled: VisitPreview[], places: readonly number[], reportId: string | null): void {
  const open = places.filter((at) => settled[at]!.canDecide);
  const wanted = open.filter((at) => reportId === null || settled[at]!.reportId === reportId);
  const [chosen] = wanted;
  if (chosen === undefined) return;
  if (wanted.length > 1) {
    for (const at of wanted) {
      const one = settled[at]!;
      settled[at] = {
        ...one,
        reason: `${one.reason} Several files report it: name the one to take, ${one.visitId}=${one.reportId}.`,
      };
    }
    return;
  }
  const one = settled[chosen]!;
  const becomes = one.becomes === null ? null : { ...one.becomes, decided: one.reason };
  settled[chosen] = { ...one, status: "take", reason: `Decided, although: ${one.reason}`, canDecide: false, becomes };
  if (one.entry === null) return;
  // Others that the record has nothing against may still contradict the one decided for.
  for (const at of places) {
    const other = settled[at]!;
    if (at === chosen || other.status !== "take" || other.entry === null || canBothBe(other.entry, one.entry)) continue;
    const reason = `${one.file}, decided for, reports it otherwise on ${one.entry.date}.`;
    settled[at] = { ...other, status: "conflict", reason, against: one.entry, canDecide: true };
  }
}
