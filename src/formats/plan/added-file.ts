import type { RecordedAddition, WorkRecord } from "../../core/plan/record/work-record.ts";

/**
 * `added.geojson`: the trees and hazards that crews found beside their lists, one feature each, without a place where nobody pointed at one. They are
 * no trees of the plan: nobody measured them. Surveyed, they belong into the inventory.
 */
export function addedFile({ additions }: WorkRecord): Uint8Array {
  const lines = additions.filter(({ replacedIn }) => replacedIn === null).map((one) => JSON.stringify(featureOf(one)));
  return new TextEncoder().encode(`{"type":"FeatureCollection","features":[\n${lines.join(",\n")}\n]}\n`);
}

function featureOf(one: RecordedAddition): unknown {
  const { added, kind, reportId, zoneId, who, revision } = one;
  const { place, notes, photos, recordedAt } = added;
  return {
    type: "Feature",
    id: `${reportId}/${added.addedId}`,
    properties: {
      kind,
      report: reportId,
      zone: zoneId,
      who,
      recorded_at: recordedAt,
      revision,
      tree: one.kind === "hazard" ? one.added.treeId : null,
      species: one.kind === "tree" ? one.added.species : null,
      dbh_m: one.kind === "tree" ? one.added.dbhM : null,
      height_m: one.kind === "tree" ? one.added.heightM : null,
      notes,
      photos,
      place_from: place?.from ?? null,
      place_accuracy_m: place?.accuracyM ?? null,
    },
    geometry: place === null ? null : { type: "Point", coordinates: [place.lonDeg, place.latDeg] },
  };
}
