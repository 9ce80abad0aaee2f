/** CIELAB: lightness, green to red, blue to yellow. */
export type Lab = readonly [l: number, a: number, b: number];
/** Linear (not gamma-coded) red, green and blue, 0 to 1. */
export type LinearRgb = readonly [red: number, green: number, blue: number];

/** Linear sRGB of `#rrggbb`; transfer function of IEC 61966-2-1. */
export function linearRgb(hex: string): LinearRgb {
  const channel = (at: number) => {
    const value = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  };
  return [channel(1), channel(3), channel(5)];
}

/** Relative luminance, 0 to 1 (IEC 61966-2-1; WCAG 2.2 "relative luminance"). */
export const luminance = ([red, green, blue]: LinearRgb): number => 0.2126 * red + 0.7152 * green + 0.0722 * blue;

/** Contrast ratio, 1 to 21 (WCAG 2.2, "contrast ratio"). */
export function contrastRatio(first: string, second: string): number {
  const lights = [luminance(linearRgb(first)), luminance(linearRgb(second))].sort((a, b) => b - a);
  return (lights[0]! + 0.05) / (lights[1]! + 0.05);
}

/** A color as a gray of the same luminance. */
export const asGray = (color: LinearRgb): LinearRgb => {
  const gray = luminance(color);
  return [gray, gray, gray];
};

/** CIELAB under D65 by way of CIE XYZ (IEC 61966-2-1 matrix; CIE 15:2004, 8.2.1). */
export function labOf([red, green, blue]: LinearRgb): Lab {
  const f = (t: number) => (t > 216 / 24389 ? Math.cbrt(t) : ((24389 / 27) * t + 16) / 116);
  const x = f((0.4124564 * red + 0.3575761 * green + 0.1804375 * blue) / 0.95047);
  const y = f(0.2126729 * red + 0.7151522 * green + 0.072175 * blue);
  const z = f((0.0193339 * red + 0.119192 * green + 0.9503041 * blue) / 1.08883);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

const DEG = Math.PI / 180;

/** CIEDE2000 difference with all weights 1 (Sharma, Wu and Dalal 2005, equations 2 to 22). */
export function colorDifference([l1, a1, b1]: Lab, [l2, a2, b2]: Lab): number {
  const meanC = (Math.hypot(a1, b1) + Math.hypot(a2, b2)) / 2;
  const g = 0.5 * (1 - Math.sqrt(meanC ** 7 / (meanC ** 7 + 25 ** 7)));
  const c1 = Math.hypot((1 + g) * a1, b1);
  const c2 = Math.hypot((1 + g) * a2, b2);
  const h1 = hueDeg((1 + g) * a1, b1);
  const h2 = hueDeg((1 + g) * a2, b2);
  const deltaL = l2 - l1;
  const deltaC = c2 - c1;
  const turn = h2 - h1;
  const deltaHue = c1 * c2 === 0 ? 0 : turn > 180 ? turn - 360 : turn < -180 ? turn + 360 : turn;
  const deltaH = 2 * Math.sqrt(c1 * c2) * Math.sin((deltaHue / 2) * DEG);
  const l = (l1 + l2) / 2;
  const c = (c1 + c2) / 2;
  const h = meanHueDeg(c1 * c2, h1, h2);
  const t =
    1 -
    0.17 * Math.cos((h - 30) * DEG) +
    0.24 * Math.cos(2 * h * DEG) +
    0.32 * Math.cos((3 * h + 6) * DEG) -
    0.2 * Math.cos((4 * h - 63) * DEG);
  const theta = 30 * Math.exp(-(((h - 275) / 25) ** 2));
  const rotation = -Math.sin(2 * theta * DEG) * 2 * Math.sqrt(c ** 7 / (c ** 7 + 25 ** 7));
  const byL = deltaL / (1 + (0.015 * (l - 50) ** 2) / Math.sqrt(20 + (l - 50) ** 2));
  const byC = deltaC / (1 + 0.045 * c);
  const byH = deltaH / (1 + 0.015 * c * t);
  return Math.sqrt(byL ** 2 + byC ** 2 + byH ** 2 + rotation * byC * byH);
}

function hueDeg(a: number, b: number): number {
  if (a === 0 && b === 0) return 0;
  const hue = Math.atan2(b, a) / DEG;
  return hue < 0 ? hue + 360 : hue;
}

function meanHueDeg(chromas: number, h1: number, h2: number): number {
  if (chromas === 0) return h1 + h2;
  if (Math.abs(h1 - h2) <= 180) return (h1 + h2) / 2;
  return h1 + h2 < 360 ? (h1 + h2 + 360) / 2 : (h1 + h2 - 360) / 2;
}
