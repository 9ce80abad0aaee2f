/** Sources of the style fragments by their ids, each one file of a plan. */
export const FILE_SOURCES = {
  surroundings: "boughline-surroundings",
  sight: "boughline-sight",
  zones: "boughline-zones",
  conflicts: "boughline-conflicts",
  trees: "boughline-trees",
} as const;

/** Id under which a map takes the sprite: its images are named `boughline:mark-clear` and so on. */
export const SPRITE_ID = "boughline";
