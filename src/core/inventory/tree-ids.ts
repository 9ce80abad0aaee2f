import type { SourceFeature } from "../model/feature.ts";
import type { FieldReader } from "./field-reader.ts";
import type { FindingLog } from "./finding-log.ts";

/** Hands out ids, one a tree, unique in the run. */
export type TreeIds = (feature: SourceFeature) => string;

/**
 * Ids by the mapped column, else the feature's own id, else `file#index`. An id met before gets `~2`, `~3` ... and a finding.
 * The order of the features decides who keeps the plain one.
 */
export function treeIds(read: FieldReader, log: FindingLog): TreeIds {
  const counts = new Map<string, number>();
  const taken = new Set<string>();
  return (feature) => {
    const mapped = read.text(feature, "id") ?? (feature.id === null ? null : String(feature.id).slice(0, 256).trim());
    if (mapped === null || mapped === "") {
      log.tally({
        code: "id-missing",
        severity: "info",
        field: "id",
        what: "no id; named after the file and the place in it",
        whatToDo: "Map the column that holds the tree number, so that trees keep their names in the next run",
      });
    }
    const wanted = mapped === null || mapped === "" ? `${feature.file}#${feature.index}` : mapped;
    if (!taken.has(wanted)) {
      taken.add(wanted);
      return wanted;
    }
    let number = counts.get(wanted) ?? 1;
    let id: string;
    do {
      number += 1;
      id = `${wanted}~${number}`;
    } while (taken.has(id));
    counts.set(wanted, number);
    taken.add(id);
    if (mapped !== null && mapped !== "") log.rename(feature, id);
    log.note(feature, {
      code: "duplicate-id",
      severity: "warning",
      field: "id",
      value: wanted,
      reason: `Another tree before it has the same id; this one is called ${id.slice(-300)}`,
      whatToDo: "Give every tree an id of its own",
    });
    return id;
  };
}
