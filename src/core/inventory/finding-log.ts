import type { ColumnMap } from "../model/column-map.ts";
import type { SourceFeature } from "../model/feature.ts";
import { featureName } from "../model/feature-name.ts";
import type { Finding, Severity } from "../model/finding.ts";
import { withThousands } from "../units/with-thousands.ts";

/** What a finding about one feature says beside where it is; its sentences come without their full stops. */
export interface FeatureNote {
  readonly code: string;
  readonly severity: Severity;
  readonly field: string | null;
  readonly value: unknown;
  readonly reason: string;
  readonly whatToDo: string;
}

/** What a finding that sums up many trees says. */
export interface Tally {
  readonly code: string;
  readonly severity: Severity;
  readonly field: string | null;
  /** The rest of the sentence after `3,120 trees: `. */
  readonly what: string;
  readonly whatToDo: string;
  /** One text of many, shown as an example. */
  readonly example?: string;
}

/** Findings in the order in which they were first made. */
export interface FindingLog {
  /** A finding about one feature, for the feature that is set aside with it; not added. */
  readonly about: (feature: SourceFeature, note: FeatureNote) => Finding;
  /** Adds a finding about one feature. */
  readonly note: (feature: SourceFeature, note: FeatureNote) => void;
  /** Gives a feature another name than its own, in all findings about it before and after. */
  readonly rename: (feature: SourceFeature, name: string) => void;
  /** Counts a tree into the one finding with the same code, field and sentence. */
  readonly tally: (tally: Tally) => void;
  /** All of them: first those about single features, then the sums. */
  readonly list: () => Finding[];
}

const MAX_VALUE = 256;
const MAX_EXAMPLES = 8;

/** An empty log for findings in the trees layer, which names trees by their mapped ids. */
export function findingLog(columns: ColumnMap): FindingLog {
  const single: { readonly ordinal: number; readonly finding: Finding }[] = [];
  const renamed = new Map<number, string>();
  const sums = new Map<string, { tally: Tally; count: number; examples: Set<string> }>();
  const about = (feature: SourceFeature, note: FeatureNote): Finding => ({
    code: note.code,
    severity: note.severity,
    layer: feature.layer,
    file: feature.file,
    feature: featureName(columns, feature),
    field: note.field,
    value: asText(note.value),
    reason: `${note.reason}.`,
    whatToDo: `${note.whatToDo}.`,
  });
  return {
    about,
    note(feature, note) {
      single.push({ ordinal: feature.ordinal, finding: about(feature, note) });
    },
    rename(feature, name) {
      renamed.set(feature.ordinal, name);
    },
    tally(tally) {
      const key = `${tally.code}\u0000${tally.field}\u0000${tally.what}`;
      const sum = sums.get(key) ?? { tally, count: 0, examples: new Set<string>() };
      sum.count += 1;
      if (tally.example !== undefined && sum.examples.size < MAX_EXAMPLES) sum.examples.add(tally.example);
      sums.set(key, sum);
    },
    list() {
      const summed = [...sums.values()].map(({ tally, count, examples }): Finding => {
        return {
          code: tally.code,
          severity: tally.severity,
          layer: "trees",
          file: null,
          feature: null,
          field: tally.field,
          value: examples.size === 0 ? null : asText([...examples].join("; ")),
          reason: `${withThousands(count)} ${count === 1 ? "tree" : "trees"}: ${tally.what}.`,
          whatToDo: `${tally.whatToDo}.`,
        };
      });
      const named = single.map(({ ordinal, finding }) => {
        const name = renamed.get(ordinal);
        return name === undefined ? finding : { ...finding, feature: name };
      });
      return [...named, ...summed];
    },
  };
}

/** A value as a finding shows it, at most 256 characters; null for nothing. */
export function asText(value: unknown): string | null {
  if (value === undefined || value === null) return null;
  if (typeof value === "string") return value.slice(0, MAX_VALUE);
  if (typeof value === "number" || typeof value === "boolean") return String(value);
  return Array.isArray(value) ? "(a list)" : "(an object)";
}
