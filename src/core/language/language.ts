/** Languages packets are written in, as BCP 47 tags. English is what the stages write; the others are translated from it. */
export const LANGUAGES = ["en", "es"] as const;

export type Language = (typeof LANGUAGES)[number];
