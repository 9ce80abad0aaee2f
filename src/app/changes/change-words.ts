import type { ChangeAspect, ChangeCause, Identity } from "../../core/model/plan-change.ts";

/** Causes as the page calls them, each with what it stands for. */
export const CAUSE_WORDS: Readonly<Record<ChangeCause, { readonly name: string; readonly means: string }>> = {
  work: { name: "Work done", means: "What crews reported." },
  word: { name: "Arborist's word", means: "What an arborist said or took back." },
  data: { name: "Inventory", means: "Trees that are new, gone, replanted, or recorded otherwise." },
  surroundings: { name: "Surroundings", means: "Buildings, ways or lines that are new, gone or changed." },
  rule: { name: "Standard", means: "Another clearance, season or place." },
  growth: { name: "Growth and time", means: "Crowns that grew, seasons and deadlines that came nearer." },
  model: { name: "Program", means: "Another version of this program plans it otherwise." },
};

export const IDENTITY_WORDS: Readonly<Record<Identity, string>> = {
  matched: "the same",
  moved: "moved",
  renumbered: "renumbered",
  replanted: "replanted",
  new: "new",
  removed: "removed",
};

export const ASPECT_WORDS: Readonly<Record<ChangeAspect, string>> = {
  urgency: "urgency",
  conflicts: "conflicts",
  prescription: "pruning",
  dates: "dates",
};
