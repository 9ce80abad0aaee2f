/** Sheets a map can be printed on; lengths in millimeters as they lie. */
export const PAPERS = {
  letter: { name: "Letter", widthMm: 279.4, heightMm: 215.9 },
  "letter-upright": { name: "Letter, upright", widthMm: 215.9, heightMm: 279.4 },
  a4: { name: "A4", widthMm: 297, heightMm: 210 },
  "a4-upright": { name: "A4, upright", widthMm: 210, heightMm: 297 },
} as const;
export type PaperName = keyof typeof PAPERS;

/** The sheet for a reader: Letter where feet are used, lying unless the map stands upright. */
export const usualPaper = (units: "us" | "metric", isUpright: boolean): PaperName =>
  `${units === "us" ? "letter" : "a4"}${isUpright ? "-upright" : ""}`;
