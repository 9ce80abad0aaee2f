import type { Canvas } from "../symbols/pixels.ts";

/** A picture at half its size: each pixel the mean of four, weighted by how opaque they are. Throws RangeError for odd sides. */
export function halved({ width, height, data }: Canvas): Canvas {
  if (width % 2 !== 0 || height % 2 !== 0) throw new RangeError(`Expected even sides, got ${width} by ${height}`);
  const half = new Uint8ClampedArray((width / 2) * (height / 2) * 4);
  for (let row = 0; row < height / 2; row += 1) {
    for (let column = 0; column < width / 2; column += 1) {
      const first = (row * 2 * width + column * 2) * 4;
      const four = [first, first + 4, first + width * 4, first + width * 4 + 4];
      const alpha = four.reduce((sum, at) => sum + data[at + 3]!, 0);
      const place = (row * (width / 2) + column) * 4;
      for (let channel = 0; channel < 3 && alpha > 0; channel += 1)
        half[place + channel] = four.reduce((sum, at) => sum + data[at + channel]! * data[at + 3]!, 0) / alpha;
      half[place + 3] = alpha / 4;
    }
  }
  return { width: width / 2, height: height / 2, data: half };
}
