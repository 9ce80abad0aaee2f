import type { World } from "../../core/schedule/tree-on-date.ts";

/** What is taken of the work to come, as sentences begin with it. */
export const WORLD_WORDS: Readonly<Record<World, string>> = {
  "as-planned": "As planned",
  "nothing-done": "If nothing is done",
};
