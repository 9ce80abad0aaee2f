/** Names of the files a revision can hold beside exports and packets, which are made from them. Nothing else is taken out of a zip, a folder or a server. */
export const REVISION_NAMES = [
  "plan.json",
  "prescriptions.jsonl",
  "trees.geojson",
  "conflicts.geojson",
  "surroundings.geojson",
  "sight.geojson",
  "zones.geojson",
  "visits.csv",
  "spans.csv",
  "workload.csv",
  "waiting.json",
  "findings.csv",
  "set-aside.geojson",
  "columns.json",
  "standard.json",
  "record.jsonl",
] as const;
