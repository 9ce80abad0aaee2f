import type { Drawing, Shape, Tone } from "./drawing.ts";

/** A CSS color, or `var(--name)`, for each tone. */
export type ToneColors = Readonly<Record<Exclude<Tone, "none">, string>>;

/** Tones as CSS custom properties, so that the page's theme decides; each falls back to its value on light paper. */
export const SCREEN_TONES: ToneColors = {
  ink: "var(--bough-ink, #2a2724)",
  quiet: "var(--bough-quiet, #8a857c)",
  crown: "var(--bough-crown, #dfe4d8)",
  removed: "var(--bough-removed, #f4f2ec)",
  clearance: "var(--bough-clearance, #f3e2c4)",
  ground: "var(--bough-earth, #d8d3c8)",
  paper: "var(--bough-paper, #f4f2ec)",
};

/** Tones for black and white print: every pair that meets differs by a hatch, a line or at least 6 % of gray. */
export const PRINT_TONES: ToneColors = {
  ink: "#000000",
  quiet: "#7a7a7a",
  crown: "#f1f1f1",
  removed: "#ffffff",
  clearance: "#dedede",
  ground: "#c8c8c8",
  paper: "#ffffff",
};

export interface SvgOptions {
  /** Starts every id in the markup, so that several drawings can stand in one page. Letters, digits, `-` and `_`. */
  readonly idPrefix: string;
  readonly tones?: ToneColors;
  /** Short name for screen readers; the description follows it. */
  readonly title?: string;
}

/** Distance between hatch lines and their weight, in millimeters. */
export const HATCH_PITCH_MM = 0.9;
export const HATCH_WEIGHT_MM = 0.16;

/**
 * A drawing as one SVG element: its size in millimeters, `role="img"`, title and description, no scripts, no styles, no outside
 * references. Texts are escaped. Throws RangeError for an id prefix with other characters.
 */
export function drawingToSvg(drawing: Drawing, options: SvgOptions): string {
  const { idPrefix, tones = SCREEN_TONES, title = "Section drawing" } = options;
  if (!/^[A-Za-z][\w-]{0,63}$/.test(idPrefix)) {
    throw new RangeError(`Expected an id prefix of letters, digits, - and _, got "${idPrefix.slice(0, 40)}"`);
  }
  const { widthMm, heightMm, description, shapes } = drawing;
  const hatch = `${idPrefix}-hatch`;
  const isHatched = shapes.some((shape) => shape.type === "path" && shape.hatched === true);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="${idPrefix}-title" aria-describedby="${idPrefix}-desc" `,
    `width="${widthMm}mm" height="${heightMm}mm" viewBox="0 0 ${widthMm} ${heightMm}" `,
    `font-family="'Source Sans 3', 'DejaVu Sans', sans-serif">`,
    `<title id="${idPrefix}-title">${escapeText(title)}</title>`,
    `<desc id="${idPrefix}-desc">${escapeText(description)}</desc>`,
    isHatched ? hatchPattern(hatch, tones.ink) : "",
    ...shapes.map((shape) => shapeMarkup(shape, tones, hatch)),
    "</svg>",
  ].join("");
}

/** A text with the five characters that mean something in markup written as entities, and those XML 1.0 cannot hold as U+FFFD. */
export function escapeText(text: string): string {
  let escaped = "";
  for (const character of text)
    escaped += ENTITIES.get(character) ?? (isXmlCharacter(character) ? character : "\uFFFD");
  return escaped;
}

const ENTITIES: ReadonlyMap<string, string> = new Map([
  ["&", "&amp;"],
  ["<", "&lt;"],
  [">", "&gt;"],
  ['"', "&quot;"],
  ["'", "&#39;"],
]);

/** XML 1.0, production [2] Char: tab, line feed, carriage return and everything from U+0020 but surrogates, U+FFFE and U+FFFF. */
export function isXmlCharacter(character: string): boolean {
  const code = character.codePointAt(0)!;
  if (code < 0x20) return code === 0x9 || code === 0xa || code === 0xd;
  return !(code >= 0xd800 && code <= 0xdfff) && code !== 0xfffe && code !== 0xffff;
}

function hatchPattern(id: string, ink: string): string {
  return (
    `<defs><pattern id="${id}" patternUnits="userSpaceOnUse" width="${HATCH_PITCH_MM}" height="${HATCH_PITCH_MM}" ` +
    `patternTransform="rotate(45)"><path d="M0 0L0 ${HATCH_PITCH_MM}" stroke="${ink}" stroke-width="${HATCH_WEIGHT_MM * 2}"/></pattern></defs>`
  );
}

function shapeMarkup(shape: Shape, tones: ToneColors, hatch: string): string {
  const color = (tone: Tone) => (tone === "none" ? "none" : escapeText(tones[tone]));
  if (shape.type === "text") {
    const { xMm, yMm, text, sizeMm, anchor, tone, bold, rotateDeg } = shape;
    const turn = rotateDeg === undefined ? "" : ` transform="rotate(${rotateDeg} ${at(xMm)} ${at(yMm)})"`;
    const weight = bold === true ? ' font-weight="600"' : "";
    return (
      `<text x="${at(xMm)}" y="${at(yMm)}" font-size="${at(sizeMm)}" text-anchor="${anchor}" fill="${color(tone)}"${weight}${turn}>` +
      `${escapeText(text)}</text>`
    );
  }
  const { d, fill, hatched, stroke } = shape;
  const edge =
    stroke === undefined
      ? ""
      : ` stroke="${color(stroke.tone)}" stroke-width="${stroke.widthMm}" stroke-linejoin="round"` +
        (stroke.dashMm === undefined ? "" : ` stroke-dasharray="${stroke.dashMm.join(" ")}"`);
  const painted = `<path d="${d}" fill="${color(fill)}"${hatched === true ? "" : edge}/>`;
  return hatched === true ? `${painted}<path d="${d}" fill="url(#${hatch})"${edge}/>` : painted;
}

const at = (valueMm: number): string => String(Math.round(valueMm * 100) / 100);
