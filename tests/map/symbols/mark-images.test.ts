import { describe, expect, test } from "vitest";
import { REMEDIES } from "../../../src/core/model/terms.ts";
import { CLEAR_IMAGE, type MapImage, mapImages, markImageId } from "../../../src/map/symbols/mark-images.ts";
import { TOKENS } from "../../../src/map/tokens.ts";

const images = new Map(mapImages("light").map((image) => [image.id, image]));
const { ink, ground, urgency } = TOKENS.themes.light;

/** The color at a place in CSS pixels from the middle, as `#rrggbb`, or "" where it is clear. */
function colorAt(image: MapImage, x: number, y: number): string {
  const column = Math.floor(image.width / 2 + x * image.pixelRatio);
  const row = Math.floor(image.height / 2 + y * image.pixelRatio);
  const [red, green, blue, alpha] = image.data.subarray((row * image.width + column) * 4);
  if (alpha! < 128) return "";
  return `#${[red!, green!, blue!].map((value) => value.toString(16).padStart(2, "0")).join("")}`;
}
const mark = (...of: Parameters<typeof markImageId>) => images.get(markImageId(...of))!;

describe("shape says the remedy", () => {
  test("shorten is a disc without its top", () => {
    const image = mark("shorten", "now", "confirmed");
    expect(colorAt(image, 0, 0)).toBe(urgency.now);
    expect(colorAt(image, 0, -5.5)).toBe("");
    expect(colorAt(image, 0, 5)).toBe(urgency.now);
  });

  test("remove limb has a notch at the top", () => {
    const image = mark("remove-limb", "now", "confirmed");
    expect(colorAt(image, 0, -6)).not.toBe(urgency.now);
    expect(colorAt(image, -4.5, 0)).toBe(urgency.now);
  });

  test("lift is a cap on a stem", () => {
    const image = mark("lift", "this-cycle", "confirmed");
    expect(colorAt(image, 0, -3)).toBe(urgency["this-cycle"]);
    expect(colorAt(image, 0.9, 5)).toBe(ink);
    expect(colorAt(image, 4.5, 5)).toBe("");
  });

  test.each([
    ["remedial", 0, 0],
    ["structural", 0, 3],
    ["refer", 2.5, 0],
  ] as const)("%s is left open in the ground's tone", (remedy, x, y) => {
    expect(colorAt(mark(remedy, "now", "confirmed"), x, y)).toBe(ground);
  });
});

test("a possible mark keeps its tone as a ring around a hollow", () => {
  const image = mark("remedial", "now", "possible");
  expect(colorAt(image, 0, 4.5)).toBe(urgency.now);
  expect(colorAt(image, 0, 2.8)).toBe(ground);
});

test("below confirmed the outline is broken, and only the outline", () => {
  const whole = mark("structural", "this-cycle", "confirmed");
  const broken = mark("structural", "this-cycle", "probable");
  const around = (image: MapImage, radiusPx: number) =>
    Array.from({ length: 72 }, (_, step) => {
      const angle = (step * Math.PI) / 36;
      return colorAt(image, radiusPx * Math.sin(angle), radiusPx * Math.cos(angle));
    });
  const dark = (image: MapImage) => around(image, 6.4).filter((color) => color !== "" && color < "#60").length;
  expect(dark(whole)).toBe(72);
  expect(dark(broken)).toBeGreaterThan(20);
  expect(dark(broken)).toBeLessThan(52);
  expect(around(broken, 4)).toEqual(around(whole, 4));
});

test("every mark has an image of one size, named with the prefix", () => {
  for (const remedy of REMEDIES) expect(images.has(markImageId(remedy, "watch", "probable"))).toBe(true);
  expect(images.has(CLEAR_IMAGE)).toBe(true);
  for (const image of images.values()) {
    expect(image.id.startsWith("boughline-")).toBe(true);
    expect(image.data.length).toBe(image.width * image.height * 4);
  }
});

test("zone patterns differ in ink alone, sparse to dense, and meet at their edges", () => {
  const covered = (state: string) => {
    const { data } = images.get(`boughline-zone-${state}`)!;
    return data.reduce((sum, value, at) => (at % 4 === 3 ? sum + value : sum), 0);
  };
  expect(covered("done")).toBe(0);
  expect(covered("draft")).toBeGreaterThan(0);
  expect(covered("issued")).toBeGreaterThan(covered("draft") * 2);
  expect(covered("under-way")).toBeGreaterThan(covered("issued") * 1.5);
});
