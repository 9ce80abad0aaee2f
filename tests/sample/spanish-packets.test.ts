import { beforeAll, expect, test } from "vitest";
import { SPANISH } from "../../src/core/language/es/spanish.ts";
import { type Translator, translatorFor } from "../../src/core/language/translator.ts";
import type { Plan } from "../../src/core/model/plan.ts";
import { namesOfPlan } from "../../src/core/packet/language/names-of-plan.ts";
import { translateContent } from "../../src/core/packet/language/translate-content.ts";
import { translatePhonePage } from "../../src/core/packet/language/translate-phone-page.ts";
import { packetContent } from "../../src/core/packet/packet-content.ts";
import { phonePage } from "../../src/core/packet/phone/phone-page.ts";
import { zoneStops } from "../../src/core/packet/zone-stops.ts";
import { usCommon } from "../../src/core/standard/parse-standard.ts";
import { openPlan } from "../../src/formats/plan/open-plan.ts";
import { memorySource } from "../../src/formats/plan/plan-source.ts";
import { townPlan } from "../formats/plan/recorded-town.ts";

let plan: Plan;
const said = new Map<string, string>();
let translator: Translator;

beforeAll(async () => {
  plan = (await openPlan(memorySource(await townPlan(500)))).plan;
  const made = translatorFor(SPANISH, namesOfPlan(plan));
  const noting = (say: (text: string) => string) => (text: string) => {
    const out = say(text);
    said.set(text, out);
    return out;
  };
  translator = { ...made, text: noting(made.text), nameOr: noting(made.nameOr) };
  for (const zone of plan.zones.filter(({ visitIds }) => visitIds.length > 0)) {
    const content = packetContent(plan, zone, usCommon());
    translateContent(content, translator);
    translatePhonePage(phonePage(plan, zone, content, zoneStops(plan, zone)), translator);
  }
}, 300_000);

test("every sentence of the sample town's packets is known in Spanish", () => {
  expect(said.size).toBeGreaterThan(1500);
  expect([...translator.untranslated]).toEqual([]);
});

test("no figure, date or id changes on the way", () => {
  const figures = (text: string): string => (text.match(/\d+(?:\.\d+)?/g) ?? []).sort().join(" ");
  expect([...said].filter(([english, spanish]) => figures(english) !== figures(spanish))).toEqual([]);
});

test("no English is left between the Spanish words", () => {
  const names = [...namesOfPlan(plan)].sort((a, b) => b.length - a.length);
  const species = plan.trees.flatMap(({ commonName, species }) => [commonName, species].filter((one) => one !== null));
  const signs = /[A-C] [A-Z][a-z ]+ \([^)]*\)/g;
  const english =
    /\b(?:the|of|and|with|branches|above|needed|by|from|side|crown|tree|walk|wall|roof|near|cut|limbs?|before)\b/i;
  const left = [...said.values()].filter((text) => {
    let rest = text.replace(signs, "");
    for (const name of [...names, ...species]) if (rest.includes(name)) rest = rest.replaceAll(name, "");
    return english.test(rest);
  });
  expect(left).toEqual([]);
});
