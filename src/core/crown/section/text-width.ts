/**
 * Advance widths of the printable ASCII characters, space to tilde, in thousandths of the type size: Source Sans 3 Regular and
 * SemiBold, read from the hmtx tables of the bundled fonts.
 */
const REGULAR = [
  200, 289, 426, 497, 497, 824, 609, 249, 303, 303, 418, 497, 249, 311, 249, 350, 497, 497, 497, 497, 497, 497, 497,
  497, 497, 497, 249, 249, 497, 497, 497, 425, 847, 543, 588, 571, 615, 527, 494, 617, 652, 263, 479, 579, 486, 727,
  647, 664, 566, 664, 569, 534, 536, 645, 515, 786, 513, 476, 539, 303, 350, 303, 497, 500, 542, 504, 553, 456, 555,
  496, 292, 504, 544, 246, 247, 495, 255, 829, 547, 542, 555, 555, 347, 419, 338, 544, 467, 719, 446, 467, 425, 303,
  241, 303, 497,
];
const SEMIBOLD = [
  200, 315, 482, 513, 513, 841, 639, 275, 324, 324, 438, 513, 275, 322, 275, 344, 513, 513, 513, 513, 513, 513, 513,
  513, 513, 513, 275, 275, 513, 513, 513, 444, 875, 558, 597, 576, 625, 538, 510, 628, 663, 282, 494, 597, 502, 745,
  657, 674, 582, 674, 592, 545, 546, 655, 536, 800, 541, 501, 540, 324, 344, 324, 513, 500, 549, 516, 563, 462, 564,
  507, 317, 520, 558, 262, 263, 522, 271, 843, 560, 549, 564, 564, 373, 431, 361, 556, 495, 748, 481, 495, 443, 324,
  255, 324, 513,
];

/** Width of a character outside ASCII: that of a wide letter, so that a label is rather given too much room. */
const OTHER = 700;

/** Width in millimeters of a text set in the drawings' typeface; kerning is left out, which makes it a little too wide. */
export function textWidthMm(text: string, sizeMm: number, bold = false): number {
  const widths = bold ? SEMIBOLD : REGULAR;
  let total = 0;
  for (const character of text) total += widths[character.codePointAt(0)! - 32] ?? OTHER;
  return (total * sizeMm) / 1000;
}

/** The text itself when it fits, else its beginning with an ellipsis; at least one character. */
export function fitText(text: string, widthMm: number, sizeMm: number, bold = false): string {
  if (textWidthMm(text, sizeMm, bold) <= widthMm) return text;
  const characters = [...text];
  while (characters.length > 1 && textWidthMm(`${characters.join("").trimEnd()}...`, sizeMm, bold) > widthMm) {
    characters.pop();
  }
  return `${characters.join("").trimEnd()}...`;
}
