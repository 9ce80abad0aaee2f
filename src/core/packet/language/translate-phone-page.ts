import type { Translator } from "../../language/translator.ts";
import type { PhonePage } from "../phone/phone-page.ts";
import { translateCutGuide, translateDrawing, translatePairs } from "./translate-content.ts";

/** A phone page's content in another language; ids, names and the map's figures stay. */
export function translatePhonePage(page: PhonePage, translator: Translator): PhonePage {
  const { language, notice, text, nameOr, label } = translator;
  const { traffic } = page;
  return {
    ...page,
    language,
    subtitle: nameOr(page.subtitle),
    figures: page.figures.map(([label, value]) => [text(label), nameOr(value)]),
    cautions: [...page.cautions.map(text), notice],
    sharedCautions: page.sharedCautions.map(text),
    traffic: {
      title: text(traffic.title),
      road: traffic.road === null ? null : nameOr(traffic.road),
      note: text(traffic.note),
      facts: translatePairs(traffic.facts, text),
      assumptions: traffic.assumptions.map(text),
      sketch: traffic.sketch === null ? null : translateDrawing(traffic.sketch, text, label),
    },
    equipment: page.equipment.map(text),
    location: text(page.location),
    emergency: page.emergency.map(text),
    notChecked: page.notChecked === null ? null : text(page.notChecked),
    cutGuide: translateCutGuide(page.cutGuide, translator),
    stops: page.stops.map((stop) => ({
      ...stop,
      name: nameOr(stop.name),
      place: nameOr(stop.place),
      what: text(stop.what),
      dose: text(stop.dose),
      notes: text(stop.notes),
      crew: text(stop.crew),
      due: text(stop.due),
      facts: translatePairs(stop.facts, text),
      texts: translatePairs(stop.texts, text),
      cautions: stop.cautions.map(text),
      sections: stop.sections.map((drawing) => translateDrawing(drawing, text, label)),
      inset: translateDrawing(stop.inset, text, label),
    })),
  };
}
