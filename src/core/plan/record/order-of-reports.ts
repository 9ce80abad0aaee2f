import type { RecordedVisit } from "./work-record.ts";

/** Texts in the order of their code units: the same in every locale. */
export const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Recorded visits in the order they were worked on: by date, then by when they were written down, then by copy. */
export const inOrderOfWork = (visits: readonly RecordedVisit[]): RecordedVisit[] =>
  [...visits].sort(
    (a, b) =>
      byText(a.entry.date, b.entry.date) ||
      byText(a.entry.recordedAt, b.entry.recordedAt) ||
      byText(a.reportId, b.reportId) ||
      byText(a.entry.visitId, b.entry.visitId),
  );

/** Files in the order they were made, whatever order they were given in. */
export const byExport = (
  a: { readonly exportedAt: string; readonly reportId: string },
  b: { readonly exportedAt: string; readonly reportId: string },
): number => byText(a.exportedAt, b.exportedAt) || byText(a.reportId, b.reportId);
