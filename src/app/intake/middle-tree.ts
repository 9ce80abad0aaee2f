import { css, html, nothing, svg, type TemplateResult } from "lit";
import { type DisplayUnits, formatDiameter, formatLength } from "../../core/units/format-length.ts";
import type { ColumnRow } from "../../worker/intake/intake-messages.ts";

/** Sizes of the middle tree in meters as the columns read it; null where no column says it. */
export interface MiddleTree {
  readonly dbhM: number | null;
  readonly heightM: number | null;
  readonly crownBaseM: number | null;
  readonly crownRadiusM: number | null;
}

/** The middle of every size column; null where no size has ten values. */
export function middleTreeOf(rows: readonly ColumnRow[]): MiddleTree | null {
  const middle = (field: string): number | null => rows.find((row) => row.field === field)?.middleM ?? null;
  const girthM = middle("girth");
  const spreadM = middle("crown_spread") ?? middle("crown_width_1");
  const tree = {
    dbhM: middle("dbh") ?? (girthM === null ? null : girthM / Math.PI),
    heightM: middle("height"),
    crownBaseM: middle("crown_base"),
    crownRadiusM: middle("crown_radius") ?? (spreadM === null ? null : spreadM / 2),
  };
  return Object.values(tree).every((size) => size === null) ? null : tree;
}

const WIDTH = 300;
const GROUND = 176;
const TOP = 16;
const MIDDLE = 158;
const PERSON_M = 1.75;
/** What is drawn, dashed, where no column says it; only the drawing knows it. */
const NOMINAL = { heightM: 9, baseShare: 0.25, radiusShare: 0.3 };

/**
 * The tree in the middle of the table beside a person 1.75 m tall, at one scale: a wrong unit makes a giant or a dwarf. Dashed where no
 * column says a size. Each size is the middle of its own column, so that no tree need be like it.
 */
export function middleTree(tree: MiddleTree, units: DisplayUnits): TemplateResult {
  const heightM = tree.heightM ?? Math.max(NOMINAL.heightM, (tree.crownBaseM ?? 0) * 1.6);
  const baseM = tree.crownBaseM ?? heightM * NOMINAL.baseShare;
  const radiusM = tree.crownRadiusM ?? heightM * NOMINAL.radiusShare;
  const pxPerM = Math.min((GROUND - TOP) / Math.max(heightM, baseM, 4), 88 / Math.max(radiusM, 1.5));
  const y = (aboveM: number) => GROUND - aboveM * pxPerM;
  const trunkPx = Math.max(1, (tree.dbhM ?? 0.3) * pxPerM);
  const isCrownKnown = tree.heightM !== null && tree.crownBaseM !== null && tree.crownRadiusM !== null;
  const crown = { ry: Math.abs(heightM - baseM) / 2, cy: y((heightM + baseM) / 2) };
  const left = MIDDLE - Math.max(radiusM * pxPerM, trunkPx / 2) - 14;
  return html`<figure class="middle-tree">
    <svg viewBox="0 0 ${WIDTH} 204" role="img" aria-label=${describe(tree, units)}>
      <rect
        class=${tree.dbhM === null ? "guess" : "trunk"}
        x=${MIDDLE - trunkPx / 2}
        y=${y(heightM * 0.9)}
        width=${trunkPx}
        height=${GROUND - y(heightM * 0.9)}
      />
      <ellipse class="crown ${isCrownKnown ? "" : "guess"}" cx=${MIDDLE} cy=${crown.cy} rx=${radiusM * pxPerM} ry=${Math.max(1, crown.ry * pxPerM)} />
      <path class="ground" d="M8 ${GROUND} H${WIDTH - 8}" />
      ${person(pxPerM)} ${tree.heightM === null ? nothing : dimension(250, y(heightM), GROUND, formatLength(heightM, units))}
      ${tree.crownBaseM === null ? nothing : dimension(Math.max(58, left), y(baseM), GROUND, formatLength(baseM, units), "before")}
      <text x=${MIDDLE} y="194" text-anchor="middle">${sizesBelow(tree, units)}</text>
    </svg>
    <figcaption class="small">
      The middle tree as these columns read, beside a person ${formatLength(PERSON_M, units)} tall.${isCrownKnown ? "" : " Dashed: estimated later."}
    </figcaption>
  </figure>`;
}

/** A standing person at the drawing's scale. */
function person(pxPerM: number) {
  const size = PERSON_M * pxPerM;
  const at = (share: number) => GROUND - size * share;
  return svg`<path class="person" d="M24 ${at(0.8)} V${at(0.45)} M24 ${at(0.45)} L${24 - size * 0.12} ${GROUND} M24 ${at(0.45)} L${24 + size * 0.12} ${GROUND} M${24 - size * 0.14} ${at(0.62)} L24 ${at(0.76)} L${24 + size * 0.14} ${at(0.62)}" />
    <circle class="person" cx="24" cy=${at(0.91)} r=${size * 0.085} />`;
}

function dimension(x: number, top: number, bottom: number, text: string, side: "before" | "behind" = "behind") {
  const tick = (at: number) => `M${x - 4} ${at + 4} l8 -8`;
  const middle = Math.max(top + 4, (top + bottom) / 2 + 4);
  return svg`<path class="fine" d="M${x} ${top} V${bottom} ${tick(top)} ${tick(bottom)}" />
    <text x=${side === "behind" ? x + 7 : x - 7} y=${middle} text-anchor=${side === "behind" ? "start" : "end"}>${text}</text>`;
}

function sizesBelow({ dbhM, crownRadiusM }: MiddleTree, units: DisplayUnits): string {
  const parts = [
    dbhM === null ? null : `stem ${formatDiameter(dbhM, units)}`,
    crownRadiusM === null ? null : `crown radius ${formatLength(crownRadiusM, units)}`,
  ];
  return parts.filter((part) => part !== null).join(", ");
}

function describe(tree: MiddleTree, units: DisplayUnits): string {
  const length = (sizeM: number | null) => (sizeM === null ? "not given" : formatLength(sizeM, units));
  const stem = tree.dbhM === null ? "not given" : formatDiameter(tree.dbhM, units);
  return (
    `The middle tree as these columns read: height ${length(tree.heightM)}, crown base ${length(tree.crownBaseM)}, ` +
    `crown radius ${length(tree.crownRadiusM)}, stem diameter ${stem}.`
  );
}

export const middleTreeStyles = css`
  .middle-tree svg {
    display: block;
    width: 100%;
    height: auto;
  }
  .middle-tree .trunk,
  .middle-tree .guess {
    fill: var(--boughline-vegetation-trunk);
    stroke: var(--ink);
    stroke-width: 1;
  }
  .middle-tree .crown {
    fill: var(--boughline-vegetation-fill);
    fill-opacity: 0.85;
    stroke: var(--ink);
    stroke-width: 1.5;
  }
  .middle-tree .guess {
    stroke: var(--ink-2);
    stroke-dasharray: 4 3;
  }
  .middle-tree rect.guess {
    fill: none;
  }
  .middle-tree .crown.guess {
    fill: var(--paper);
    fill-opacity: 0.7;
  }
  .middle-tree .ground {
    stroke: var(--ink);
    stroke-width: 1.5;
  }
  .middle-tree .person {
    fill: none;
    stroke: var(--ink);
    stroke-width: 1.2;
  }
  .middle-tree .fine {
    fill: none;
    stroke: var(--ink);
    stroke-width: 0.9;
  }
  .middle-tree text {
    fill: var(--ink);
    font-size: 12.5px;
  }
`;
