import {
  CHANGE_ASPECTS,
  CHANGE_CAUSES,
  type ChangeAspect,
  type ChangeCause,
  type ChangeTotals,
  IDENTITIES,
  type Identity,
} from "../../model/plan-change.ts";
import type { IsoDate } from "../../units/calendar.ts";

/** What `plan.json` holds of a plan's changes: nulls and zeros where it was not carried on from another revision. */
export const manifestChanges = (changes: ChangeTotals | null) => ({
  previous_revision: changes?.previousRevision ?? null,
  since_revision: changes?.sinceRevision ?? null,
  since_as_of: changes?.sinceAsOf ?? null,
  in_revision: changes?.inRevision ?? null,
  trees: changes?.trees ?? (noneOf(IDENTITIES) as Record<Identity, number>),
  changed: changes?.changed ?? 0,
  by_cause: changes?.byCause ?? (noneOf(CHANGE_CAUSES) as Record<ChangeCause, number>),
  by_aspect: changes?.byAspect ?? (noneOf(CHANGE_ASPECTS) as Record<ChangeAspect, number>),
});

export type ManifestChanges = ReturnType<typeof manifestChanges>;

/** The changes that a `plan.json` tells; null where it tells none, as those of an earlier version do not. */
export const changesOf = (told: ManifestChanges | undefined): ChangeTotals | null =>
  told === undefined || told.since_revision === null
    ? null
    : {
        previousRevision: told.previous_revision!,
        sinceRevision: told.since_revision,
        sinceAsOf: told.since_as_of as IsoDate,
        inRevision: told.in_revision!,
        trees: told.trees,
        changed: told.changed,
        byCause: told.by_cause,
        byAspect: told.by_aspect,
      };

const noneOf = (keys: readonly string[]): Record<string, number> => Object.fromEntries(keys.map((key) => [key, 0]));
