import type { ZoneEdit } from "../../core/zone/edit/zone-edit.ts";

const LABELS: Readonly<Record<ZoneEdit["kind"], string>> = {
  make: "Make a zone",
  add: "Add trees",
  drop: "Take trees out",
  split: "Split the zone",
  merge: "Merge zones",
  rename: "Rename the zone",
  lock: "Lock or unlock the zone",
  "move-stop": "Move a tree in the order",
  order: "Change the order of work",
  "set-state": "Change the state",
  "set-dates": "Change the dates",
  delete: "Delete the zone",
  sequence: "Change the zones",
};

/** What an edit does, for a button: `Split the zone`. */
export const editLabel = (edit: ZoneEdit): string => LABELS[edit.kind];
