/** Prefix of every layer, source and image, so that hosts can tell them from their own. */
export const PREFIX = "boughline-";

/** Sources by name; stable, part of the plugin's interface. */
export const SOURCES = {
  surroundings: "boughline-surroundings",
  sight: "boughline-sight",
  zones: "boughline-zones",
  zoneBands: "boughline-zone-bands",
  zoneEdges: "boughline-zone-edges",
  zoneNames: "boughline-zone-names",
  crowns: "boughline-crowns",
  encroachments: "boughline-encroachments",
  trees: "boughline-trees",
  figures: "boughline-figures",
  thread: "boughline-thread",
  solids: "boughline-solids",
} as const;
