import { beforeAll, describe, expect, test } from "vitest";
import { SPANISH } from "../../../src/core/language/es/spanish.ts";
import { translatorFor } from "../../../src/core/language/translator.ts";
import type { Plan } from "../../../src/core/model/plan.ts";
import type { ArboristWord } from "../../../src/core/model/word.ts";
import type { Zone } from "../../../src/core/model/zone.ts";
import { inspectionContent } from "../../../src/core/packet/inspection-content.ts";
import { namesOfPlan } from "../../../src/core/packet/language/names-of-plan.ts";
import { translateContent } from "../../../src/core/packet/language/translate-content.ts";
import { translatePhonePage } from "../../../src/core/packet/language/translate-phone-page.ts";
import { packetContent } from "../../../src/core/packet/packet-content.ts";
import { phonePage } from "../../../src/core/packet/phone/phone-page.ts";
import { zoneStops } from "../../../src/core/packet/zone-stops.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { inspectPlan } from "../../../src/formats/plan/inspect-plan.ts";
import { openPlanAlone } from "../../../src/formats/plan/open-plan.ts";
import { openRecord } from "../../../src/formats/plan/open-record.ts";
import { memorySource } from "../../../src/formats/plan/plan-source.ts";
import { recordPlan } from "../../../src/formats/plan/record-plan.ts";
import { type Files, townPlan } from "../plan/recorded-town.ts";

/** Packets of the sample town with every kind of word, and its rounds of inspection, in Spanish: nothing but names and the reader's own words stays English. */
let town: Files;
let plan: Plan;

beforeAll(async () => {
  town = await townPlan(120);
  plan = await openPlanAlone(memorySource(town));
}, 240_000);

/** Clauses of a zone's packet that stay English, and all its Spanish text. */
function spanish(of: Plan, zone: Zone, isInspection: boolean): { left: string[]; text: string } {
  const translator = translatorFor(SPANISH, namesOfPlan(of, zone));
  const stops = zoneStops(of, zone);
  const work = packetContent(of, zone, usCommon());
  const english = isInspection ? inspectionContent(work, stops) : work;
  const content = translateContent(english, translator);
  const page = translatePhonePage(phonePage(of, zone, english, stops, isInspection), translator);
  return { left: [...translator.untranslated], text: JSON.stringify([content.cards, page.stops]) };
}

const BY = "R. Ashe";
const WHY = "Owner agreed, Dr. Birch too: see letter 12; no objection. Look again";

/** Every kind of word, each with a name and a reason that hold full stops, colons and semicolons. */
function everyWord(): ArboristWord[] {
  const treated = plan.prescriptions.filter(({ visits }) => visits.length > 0);
  const withLimit = treated.find(({ options, chosen }) =>
    options.some(({ ruledOutBy }, at) => at !== chosen && ruledOutBy?.startsWith("takes") === true),
  )!;
  const { remedy, liftToM, shortenM, doseShare, lastsYears } = withLimit.options.find(({ ruledOutBy }) =>
    ruledOutBy?.startsWith("takes"),
  )!;
  const others = treated.filter(({ treeId }) => treeId !== withLimit.treeId).map(({ treeId }) => treeId);
  const dates = { windowStart: isoDate("2027-01-05"), windowEnd: isoDate("2027-08-30"), due: isoDate("2027-07-01") };
  const contents = [
    { kind: "dates", value: dates },
    { kind: "do-not-prune", value: { until: isoDate("2027-09-01") } },
    { kind: "note", value: { text: "Gate code 4411: ask Mrs. Linden. Dog; keep shut" } },
    { kind: "referral-resolved", value: { code: null, decision: "Keep it. See file no. 7", mayPrescribe: true } },
    { kind: "measurement", value: { of: "crown-base", valueM: 2.4 } },
    { kind: "measurement", value: { of: "height", valueM: 11 } },
    { kind: "measurement", value: { of: "crown-radius", valueM: 4 } },
    { kind: "measurement", value: { of: "headroom", valueM: 3.1 } },
    { kind: "measurement", value: { of: "dbh", valueM: 0.4 } },
    { kind: "measurement", value: { of: "planted", date: isoDate("1998-04-02") } },
    { kind: "measurement", value: { of: "defect", defect: "included-bark", isThere: true } },
    { kind: "inspected", value: { found: "seen", conflictIds: [] } },
    { kind: "inspected", value: { found: "conflict", conflictIds: [] } },
  ];
  return [
    { treeId: withLimit.treeId, kind: "option", value: { remedy, liftToM, shortenM, doseShare, lastsYears } },
    ...contents.map((content, at) => ({ treeId: others[at]!, ...content })),
  ].map(
    (content, at) =>
      ({
        ...{ wordId: `w-${at}`, visitId: null, on: isoDate("2026-11-10"), by: BY, why: WHY, takenBack: null },
        ...content,
      }) as ArboristWord,
  );
}

describe("a packet in Spanish", () => {
  test("has every kind of word in Spanish, with the arborist's name and reasons as they were written", async () => {
    const opened = await openRecord(memorySource(town));
    const words = everyWord();
    const given = words.map((word, at) => ({ file: "words.csv", line: at + 2, said: { type: "word" as const, word } }));
    const output = await recordPlan(opened, [], new Map(), opened.plan.revision + 1, given);
    const said = await openPlanAlone(memorySource(output!.files));
    const told = new Set(words.map(({ treeId }) => treeId));
    const zones = said.zones.filter(({ treeIds }) => treeIds.some((id) => told.has(id)));
    expect(zones.length).toBeGreaterThan(0);
    const all = zones.map((zone) => spanish(said, zone, false));
    expect(all.flatMap(({ left }) => left)).toEqual([]);
    const packets = all.map((one) => one.text).join("\n");
    expect(packets).toContain(`Palabra del arborista, ${BY}, 10 nov 2026: `);
    expect(packets).toContain("Nota: Gate code 4411: ask Mrs. Linden. Dog; keep shut.");

    // Trees that are in no zone any more, as one not to be pruned, have their cautions too.
    const translator = translatorFor(SPANISH, namesOfPlan(said, { treeIds: [...told] }));
    const cautions = said.prescriptions.flatMap((one) => (told.has(one.treeId) ? one.cautions : []));
    const text = cautions.map(translator.text).join("\n");
    expect([...translator.untranslated]).toEqual([]);
    expect(text).toContain(`Motivo: ${WHY}.`);
    expect(text).toMatch(
      /Rompe un límite: quita \d+ % de la copa viva; en una temporada se permite \d+ % como máximo\./,
    );
    for (const english of ["Arborist's word", "Why:", "Note:", "Breaks a limit", "Do not prune"]) {
      expect(text).not.toContain(english);
    }
  });

  test("of a round to inspect is whole, in feet and in meters", async () => {
    const { rounds } = await inspectPlan(memorySource(town), plan);
    for (const units of ["us", "metric"] as const) {
      const inUnits: Plan = { ...rounds, options: { ...rounds.options, units } };
      const left = rounds.zones.flatMap((zone) => spanish(inUnits, zone, true).left);
      expect([...new Set(left)]).toEqual([]);
    }
  });
});

describe("sentences of referrals and decisions", () => {
  const say = (text: string, names: readonly string[] = []) => {
    const translator = translatorFor(SPANISH, new Set(names));
    return { out: translator.text(text), left: [...translator.untranslated] };
  };

  test("who decided what a prescription follows is told in Spanish", () => {
    expect(say("R. Ashe chose this option on 2 Feb 2027.", ["R. Ashe"])).toEqual({
      out: "R. Ashe eligió esta opción el 2 feb 2027.",
      left: [],
    });
    expect(say("R. Ashe decided on 2 Feb 2027: Do not prune.", ["R. Ashe"])).toEqual({
      out: "R. Ashe decidió el 2 feb 2027: No podar.",
      left: [],
    });
  });

  test("a list of things, names among them, is put together", () => {
    const text =
      "A conflict is only possible, so nobody is sent to cut: measure the free height under the branches over the walk along Hazel Street and Mill Road and the free distance to the wall, and the tree's height and crown base.";
    expect(say(text, ["Hazel Street", "Mill Road"])).toEqual({
      out: "Un conflicto es solo posible, así que no se envía a nadie a cortar: mida la altura libre bajo las ramas sobre la acera de Hazel Street y Mill Road y la distancia libre hasta la pared, y del árbol la altura y la base de la copa.",
      left: [],
    });
  });
});
