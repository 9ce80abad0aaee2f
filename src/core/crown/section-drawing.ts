import { formatLength } from "../units/format-length.ts";
import type { Drawing, Shape } from "./drawing.ts";
import { asMeasured } from "./section/as-measured.ts";
import { calloutShapes, calloutsOf } from "./section/callouts.ts";
import { compassLetters } from "./section/compass-letters.ts";
import { crownEdge, crownFill, removedParts, trunkShapes } from "./section/crown-shapes.ts";
import { describeSection } from "./section/describe-section.ts";
import {
  fitsAlong,
  type HeightDimension,
  heightDimensions,
  rowLineMm,
  sizeText,
  widthDimension,
} from "./section/dimensions.ts";
import { layOutSection, type SectionLayout } from "./section/layout.ts";
import { EDGE, line, QUIET } from "./section/path.ts";
import { person } from "./section/person.ts";
import { removalOf } from "./section/removal.ts";
import {
  type DrawingOptions,
  footAlongM,
  kindName,
  remedyShown,
  type SectionSubject,
  sectionBearingDeg,
  servingTask,
  thingOf,
} from "./section/subject.ts";
import { fitText, textWidthMm } from "./section/text-width.ts";
import { clearanceBlock, clearToLine, thingShapes } from "./section/thing-shapes.ts";

/**
 * A side view through the trunk toward the conflict, at true scale: away on the left, the conflict on the right. Reads from 60 mm
 * of width; at 90 to 120 mm it is at its best.
 *
 * Shows the crown model, not the tree: no limbs are known, and the ground is drawn level. A headroom measured over the road shown moves the crown. Of several conflicts it shows the one given.
 */
export function drawSection(given: SectionSubject, options: DrawingOptions): Drawing {
  const { units, widthMm, heightMm } = options;
  const subject = asMeasured(given);
  const heights = heightsOf(subject, units);
  const callouts = calloutsOf(subject, units);
  const layout = layOutSection(
    subject,
    options,
    heights.length,
    callouts.map(({ text }) => text),
  );
  const removal = removalOf(subject);
  const shapes: Shape[] = [
    ...heightDimensions(layout, heights),
    crownFill(subject, layout),
    ...clearanceBlock(subject, layout),
    ...thingShapes(subject, layout),
    ...trunkShapes(subject, layout),
    ...(removal === null ? [] : removedParts(subject, layout, removal)),
    ...crownEdge(subject, layout),
    ...clearToLine(subject, layout),
    ...ground(subject, layout),
    ...person(layout.toX(personPlaceM(subject, layout)), layout.groundMm, layout.mmPerM),
    ...radii(subject, layout, options),
    ...thingCaption(subject, layout, options),
    ...ends(subject, layout),
    ...calloutShapes(callouts, layout),
  ];
  return { widthMm, heightMm, shapes, description: describeSection(subject, units) };
}

/** The vertical dimensions, nearest to the tree first: crown base, crown base afterwards where it rises, height. */
function heightsOf(subject: SectionSubject, units: DrawingOptions["units"]): HeightDimension[] {
  const { tree } = subject;
  const heights: HeightDimension[] = [];
  const add = (heightM: number, word: string, shortText: string) =>
    heights.push({ heightM, text: `${word}${shortText}`, shortText });
  if (tree.crownBase.valueM > 0.05) add(tree.crownBase.valueM, "base ", sizeText(tree.crownBase, units));
  const after = remedyShown(subject) === "lift" ? (servingTask(subject)?.belowM ?? null) : null;
  if (after !== null && after > tree.crownBase.valueM) add(after, "after ", formatLength(after, units));
  add(tree.height.valueM, "", sizeText(tree.height, units));
  return heights;
}

function ground(subject: SectionSubject, layout: SectionLayout): Shape[] {
  const { leftMm, rightMm, groundMm, nearM, farM, toX } = layout;
  const shapes: Shape[] = [
    line(
      [
        [leftMm, groundMm],
        [rightMm + 1, groundMm],
      ],
      EDGE,
    ),
  ];
  const isPaved = subject.conflict !== null && ["way", "walk", "wall", "roof"].includes(thingOf(subject.conflict.kind));
  for (let x = leftMm + 1; x < rightMm; x += 2.6) {
    if (isPaved && x > toX(nearM) - 1.2 && x < toX(farM) + 1) continue;
    shapes.push(
      line(
        [
          [x, groundMm + 0.2],
          [x - 0.8, groundMm + 1],
        ],
        QUIET,
      ),
    );
  }
  return shapes;
}

/** Crown radius on both sides, or the spread where the halves are too short for their texts. */
function radii(subject: SectionSubject, layout: SectionLayout, { units }: DrawingOptions): Shape[] {
  const { awayRadiusM, towardRadiusM } = layout;
  const { basis } = subject.tree.radius;
  const away = sizeText({ valueM: awayRadiusM, basis }, units);
  const toward = sizeText({ valueM: towardRadiusM, basis }, units);
  if (fitsAlong(layout, 0, awayRadiusM, away) && fitsAlong(layout, 0, towardRadiusM, toward)) {
    return [
      ...widthDimension(layout, 1, -awayRadiusM, 0, away),
      ...widthDimension(layout, 1, 0, towardRadiusM, toward),
    ];
  }
  const spread = sizeText({ valueM: awayRadiusM + towardRadiusM, basis }, units);
  return widthDimension(layout, 1, -awayRadiusM, towardRadiusM, `spread ${spread}`);
}

/** Distance from the trunk to the thing, and what it is, in the row below the ground. */
function thingCaption(subject: SectionSubject, layout: SectionLayout, options: DrawingOptions): Shape[] {
  const { conflict } = subject;
  if (conflict === null) return [];
  const { toX, nearM, textMm } = layout;
  const footM = footAlongM(subject);
  const distance = formatLength(nearM - footM, options.units);
  const isDimensioned = fitsAlong(layout, footM, nearM, distance);
  const names = captions(kindName(conflict.kind), conflict.withName).map((name) =>
    isDimensioned || nearM - footM < 0.05 ? name : `${name}, ${distance} away`,
  );
  const leftLimit = isDimensioned ? toX(nearM) + 1 : layout.leftMm;
  const roomMm = options.widthMm - leftLimit;
  const name = names.find((text) => textWidthMm(text, textMm) <= roomMm) ?? fitText(names.at(-1)!, roomMm, textMm);
  const xMm = Math.max(leftLimit, Math.min(toX(nearM) + 1, options.widthMm - textWidthMm(name, textMm)));
  return [
    ...(isDimensioned ? widthDimension(layout, 0, footM, nearM, distance) : []),
    {
      type: "text",
      xMm,
      yMm: rowLineMm(layout, 0) - 0.5,
      text: name,
      sizeMm: textMm,
      anchor: "start",
      tone: "ink",
    },
  ];
}

const captions = (kind: string, name: string | null): string[] =>
  name === null ? [kind] : [`${kind}, ${name}`, name.length < 24 ? name : kind, kind];

/** Compass points at the two ends, as on a geological section. */
function ends(subject: SectionSubject, layout: SectionLayout): Shape[] {
  if (subject.conflict === null) return [];
  const bearing = sectionBearingDeg(subject);
  const text = (xMm: number, point: string, anchor: "start" | "end"): Shape => ({
    type: "text",
    xMm,
    yMm: layout.drawnTopMm - layout.textMm * 0.2,
    text: point,
    sizeMm: layout.textMm,
    anchor,
    tone: "ink",
    bold: true,
  });
  return [
    text(layout.leftMm, compassLetters(bearing + 180), "start"),
    text(layout.rightMm, compassLetters(bearing), "end"),
  ];
}

/** On the walk where the conflict is with one, else on the side away from it. */
function personPlaceM(subject: SectionSubject, layout: SectionLayout): number {
  if (subject.conflict !== null && thingOf(subject.conflict.kind) === "walk" && layout.nearM > 0) {
    return (layout.nearM + layout.farM) / 2;
  }
  return Math.min(0, footAlongM(subject)) - Math.min(Math.max(0.9, layout.awayRadiusM * 0.5), 2.4);
}
