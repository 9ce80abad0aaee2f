/** RGBA pixels, not premultiplied, as a map's `addImage` and a canvas' `ImageData` take them. */
export interface Canvas {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8ClampedArray<ArrayBuffer>;
}

/** Red, green, blue from 0 to 255 and alpha from 0 to 1. */
export type Color = [red: number, green: number, blue: number, alpha: number];
/** Share of a pixel that lies inside an edge whose signed distance in CSS pixels is given; a smooth step one image pixel wide. */
export type Coverage = (distancePx: number) => number;

/** A square image painted pixel by pixel; `paint` gets positions in CSS pixels from the middle, y downward, and the pixel's place in rows. */
export function pixels(
  boxPx: number,
  ratio: number,
  paint: (x: number, y: number, covered: Coverage, color: Color, place: number) => void,
): Canvas {
  const side = Math.round(boxPx * ratio);
  const data = new Uint8ClampedArray(side * side * 4);
  const color: Color = [0, 0, 0, 0];
  const covered: Coverage = (distancePx) => Math.min(1, Math.max(0, distancePx * ratio + 0.5));
  for (let row = 0; row < side; row += 1) {
    for (let column = 0; column < side; column += 1) {
      const place = row * side + column;
      color.fill(0);
      paint((column + 0.5) / ratio - boxPx / 2, (row + 0.5) / ratio - boxPx / 2, covered, color, place);
      for (let channel = 0; channel < 3; channel += 1) data[place * 4 + channel] = color[channel]!;
      data[place * 4 + 3] = color[3] * 255;
    }
  }
  return { width: side, height: side, data };
}

/** The color a share of the way, 0 to 1, from one to another, channel by channel. */
export function mixed(fromHex: string, toHex: string, share: number): string {
  const channels = [1, 3, 5].map((at) => {
    const from = Number.parseInt(fromHex.slice(at, at + 2), 16);
    const to = Number.parseInt(toHex.slice(at, at + 2), 16);
    return Math.round(from + (to - from) * share)
      .toString(16)
      .padStart(2, "0");
  });
  return `#${channels.join("")}`;
}

/** Paints a color over what is there (Porter and Duff 1984, "over"), with an opacity of 0 to 1. */
export function over(under: Color, hex: string, alpha: number): void {
  if (alpha <= 0) return;
  const sum = alpha + under[3] * (1 - alpha);
  const rgb = Number.parseInt(hex.slice(1), 16);
  for (let channel = 0; channel < 3; channel += 1) {
    const value = (rgb >> (16 - channel * 8)) & 255;
    under[channel] = (value * alpha + under[channel]! * under[3] * (1 - alpha)) / sum;
  }
  under[3] = sum;
}
