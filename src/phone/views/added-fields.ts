import type { PhonePage } from "../../core/packet/phone/phone-page.ts";
import { formatDiameter, formatLength } from "../../core/units/format-length.ts";
import { button, element } from "../element.ts";
import { askHere } from "../here.ts";
import type { AddedMark } from "../keep/marks.ts";
import type { Report } from "../keep/report.ts";
import { readHeightM, readStemM } from "../read-figures.ts";
import { WORDS } from "../words.ts";
import { choice, photoField, textArea, textField } from "./fields.ts";

/** The fields of one added tree or hazard. */
export function addedFields(
  page: PhonePage,
  mark: AddedMark,
  report: Report,
  onPick: (id: string) => void,
): HTMLElement {
  const { report: words, fields } = WORDS;
  const change = (part: Partial<AddedMark>) => report.changeAdded(mark.id, part);
  const isTree = mark.kind === "tree";
  const kind = isTree ? words.addedTree : words.addedHazard;
  return element(
    "section",
    { class: "added", "aria-label": kind, id: `added-${mark.id}` },
    element("h3", {}, kind),
    isTree ? treeFields(page, mark, change) : hazardTree(page, mark, change),
    textArea({
      id: `notes-${mark.id}`,
      label: isTree ? fields.notes : fields.hazardNotes,
      value: mark.notes,
      onInput: (notes) => change({ notes }),
    }),
    placeLine(page, mark, change, () => onPick(mark.id)),
    photoField(`photos-${mark.id}`, mark.photos, (photos) => change({ photos })),
    button(words.remove, () => change({ removed: true }), { class: "quiet", "data-redraw": true }),
  );
}

function treeFields(page: PhonePage, mark: AddedMark, change: (part: Partial<AddedMark>) => void): HTMLElement {
  const { fields, units } = WORDS;
  const say = (read: (text: string) => number | null, format: (valueM: number) => string) => (text: string) => {
    if (text.trim() === "") return null;
    const valueM = read(text);
    return valueM === null
      ? { text: WORDS.notRead, isWrong: true }
      : { text: WORDS.readAs(format(valueM)), isWrong: false };
  };
  return element(
    "div",
    { class: "fields" },
    textField({
      id: `species-${mark.id}`,
      label: fields.species,
      value: mark.species,
      onInput: (species) => change({ species }),
    }),
    textField({
      id: `stem-${mark.id}`,
      label: fields.stem,
      unit: page.units === "us" ? units.usStem : units.metricStem,
      value: mark.dbh,
      onInput: (dbh) => change({ dbh }),
      say: say(
        (text) => readStemM(text, page.units),
        (valueM) => formatDiameter(valueM, page.units),
      ),
    }),
    textField({
      id: `height-${mark.id}`,
      label: fields.height,
      unit: units[page.units],
      value: mark.height,
      onInput: (height) => change({ height }),
      say: say(
        (text) => readHeightM(text, page.units),
        (valueM) => formatLength(valueM, page.units),
      ),
    }),
  );
}

const hazardTree = (page: PhonePage, mark: AddedMark, change: (part: Partial<AddedMark>) => void): HTMLElement =>
  choice(
    `tree-${mark.id}`,
    WORDS.fields.tree,
    WORDS.fields.noTree,
    page.stops.map(({ treeId, number, name }) => [treeId, `${number} ${name}`] as const),
    mark.treeId ?? "",
    (treeId) => change({ treeId: treeId === "" ? null : treeId }),
  );

function placeLine(
  page: PhonePage,
  { place }: AddedMark,
  change: (part: Partial<AddedMark>) => void,
  onPick: () => void,
): HTMLElement {
  const { report: words } = WORDS;
  const said = element("p", { class: "quiet", role: "status" });
  const tell = (found: AddedMark["place"]) => {
    if (found === null) said.textContent = words.noPlace;
    else {
      const from =
        found.from === "map" ? words.fromMap : words.fromDevice(formatLength(found.accuracyM ?? 0, page.units));
      said.textContent = words.placeFrom(from, found.lonDeg.toFixed(6), found.latDeg.toFixed(6));
    }
  };
  tell(place);
  const here = button(words.useHere, async () => {
    said.textContent = WORDS.map.asking;
    const answer = await askHere();
    if (typeof answer === "string") said.textContent = WORDS.map[answer];
    else {
      change({ place: answer });
      tell(answer);
    }
  });
  here.classList.add("quiet");
  return element("div", {}, said, element("p", { class: "row" }, here, button(words.pick, onPick, { class: "quiet" })));
}
