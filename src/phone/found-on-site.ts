/** What somebody who stood before the tree says of what was only possible; `seen` leaves it to the figures. */
export const FOUND_ON_SITE = ["conflict", "no-conflict", "seen"] as const;
export type FoundOnSite = (typeof FOUND_ON_SITE)[number];
