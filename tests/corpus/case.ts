import type { Layer } from "../../src/core/model/terms.ts";

/**
 * What must become of the odd thing in a file: `accept` says nothing worse than an info, `warn` uses it with a warning, `set-aside` leaves it
 * out with a reason and keeps the rest, `refuse` reads nothing of the file.
 */
export type BadInputClass = "accept" | "warn" | "set-aside" | "refuse";

export interface BadInputCase {
  /** Name of the file without its ending; says what is wrong. */
  readonly name: string;
  readonly layer: Layer;
  readonly class: BadInputClass;
  /** The finding that must be there; null for `accept`. */
  readonly code: string | null;
  /** The rule it rests on: a section of RFC 7946, 8259 or 8142, or where our own policy stands. */
  readonly rule: string;
  /** The odd feature, or features, among good ones; a text as it stands in the file. */
  readonly odd?: string | readonly string[];
  /** The whole file where the oddness is not in a feature: text, or bytes. `GOOD` stands for the good features, with commas. */
  readonly whole?: string | Uint8Array;
  readonly crs?: string;
}

export const AT = [-89.41, 43.07] as const;
export const json = JSON.stringify;

/** A tree 800 m away from the good ones, with other geometry or properties where given. */
export const odd = (properties: unknown, geometry: unknown = { type: "Point", coordinates: AT }): string =>
  json({ type: "Feature", id: "odd", properties, geometry });
export const SIZES = { species: "Tilia cordata", dbh: 40, height: 14, crown_base: 3, crown_spread: 9 };
export const tree = (more: object = {}): string => odd({ ...SIZES, ...more });
export const at = (coordinates: unknown): string => odd(SIZES, { type: "Point", coordinates });
/** A feature whose geometry is written out, for texts that no program would write. */
export const raw = (geometry: string, properties = json(SIZES)): string =>
  `{"type":"Feature","id":"odd","properties":${properties},"geometry":${geometry}}`;
export const ring = (...positions: readonly (readonly [number, number])[]): [number, number][] =>
  positions.map(([x, y]) => [-89.41 + x / 1e4, 43.07 + y / 1e4]);
export const SQUARE = ring([0, 0], [1, 0], [1, 1], [0, 1], [0, 0]);
export const polygon = (...rings: unknown[]): object => ({ type: "Polygon", coordinates: rings });
export const line = (...positions: readonly (readonly [number, number])[]): object => ({
  type: "LineString",
  coordinates: ring(...positions),
});
export const bytes = (...parts: readonly (string | readonly number[])[]): Uint8Array =>
  Uint8Array.from(
    parts.flatMap((part) => (typeof part === "string" ? [...new TextEncoder().encode(part)] : [...part])),
  );
export const deep = (levels: number): string => `${"[".repeat(levels)}${"]".repeat(levels)}`;

export type Row = readonly [
  name: string,
  verdict: BadInputClass,
  code: string | null,
  rule: string,
  odd: string | readonly string[],
];
export type WholeRow = readonly [
  name: string,
  verdict: BadInputClass,
  code: string | null,
  rule: string,
  whole: string | Uint8Array,
  crs?: string,
];

export const UNREADABLE = "our policy: a value that is no figure is left out, the tree stays";
export const BELIEF = "our policy: limits of belief in src/core/inventory/measured-sizes.ts";
export const MISSING = "our policy: markers of unknown in src/core/units/is-missing.ts";
