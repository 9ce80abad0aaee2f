import type { NotDoneReason } from "./completion.ts";

/** Why work was not done, for sentences. */
export const REASON_WORDS: Readonly<Record<NotDoneReason, string>> = {
  "vehicle-in-the-way": "a vehicle was in the way",
  "no-access": "there was no access",
  nest: "there was a nest",
  "conductor-too-near": "a conductor was too near",
  weather: "of the weather",
  equipment: "equipment was missing",
  "out-of-time": "there was no time left",
  "more-than-planned": "it was more than planned",
  "tree-gone": "the tree is gone",
  "not-needed": "it was not needed",
  other: "of what the note says",
};
