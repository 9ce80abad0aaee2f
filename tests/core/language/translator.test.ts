import { describe, expect, test } from "vitest";
import { compilePhrase } from "../../../src/core/language/compile-phrase.ts";
import { SPANISH } from "../../../src/core/language/es/spanish.ts";
import { translatorFor } from "../../../src/core/language/translator.ts";

const say = (text: string, names: readonly string[] = []) => {
  const translator = translatorFor(SPANISH, new Set(names));
  return { out: translator.text(text), left: [...translator.untranslated] };
};

describe("the Spanish translator", () => {
  test("puts sentences together from their clauses, figures and names as they are", () => {
    expect(say("Branches hang 11 ft 7 in above Meadow Drive; 14 ft is needed.")).toEqual({
      out: "Las ramas cuelgan a 11 pies 7 pulg sobre Meadow Drive; se necesitan 14 pies.",
      left: [],
    });
    expect(
      say("On the northwest side, below 8 ft 2 in, back to 10 in before the edge of the walk along Bell Street.").out,
    ).toBe(
      "En el lado noroeste, por debajo de 8 pies 2 pulg, hasta 10 pulg antes del borde de la acera de Bell Street.",
    );
    expect(say("2 Nov 2026 to 30 Apr 2027, cuts bleed sap; harmless, but unsightly.").out).toBe(
      "2 nov 2026 a 30 abr 2027, los cortes sueltan savia; inofensivo, pero feo.",
    );
  });

  test("melts article and preposition together, but not within a name", () => {
    expect(say("Branches may come nearer to the wall than the 3 ft needed.").out).toBe(
      "Es posible que las ramas estén a menos de los 3 pies necesarios de la pared.",
    );
    expect(say("On the south side, back to 2 ft before the edge of the lane.").out).toContain(
      "antes del borde del carril",
    );
    expect(say("Branches hang 2 m above Avenue de El Paso; 4.3 m is needed.").out).toContain("sobre Avenue de El Paso");
  });

  test("leaves in English what no phrase fits, whole, and says so", () => {
    expect(say("Branches hang 8 ft above Oak Street; the moon is full. No topping.")).toEqual({
      out: "Las ramas cuelgan a 8 pies sobre Oak Street; the moon is full. Nada de desmoche.",
      left: ["the moon is full."],
    });
    // A season's reason from a city's own standard.
    expect(say("2 Mar to 1 May, our own reason.").left).toEqual(["2 Mar to 1 May, our own reason."]);
  });

  test("keeps a name that holds full stops or colons in one piece", () => {
    const name = "Walter H. Gage: East Tower";
    expect(say(`Branches touch the wall of ${name}; 1 m is needed.`, [name])).toEqual({
      out: `Las ramas tocan la pared de ${name}; se necesitan 1 m.`,
      left: [],
    });
    expect(say(`${name}: not yet clear.`, [name]).out).toBe(`${name}: aún no despejado.`);
  });

  test("takes hostile texts for what they are", () => {
    for (const text of ["$1 $& {length} {thing}", "N\uE0000\uE000", "(((((", "x".repeat(20_000), ": ; . ! ?"]) {
      expect(() => say(text, ["a. b"])).not.toThrow();
    }
    expect(say("Branches hang 8 ft above $& {length}; 14 ft is needed.").out).not.toContain("8 pies; ");
  });
});

describe("a phrase", () => {
  test("must have the same slots on both sides, and slots that exist", () => {
    expect(() => compilePhrase(["{length} is needed", "se necesita"], SPANISH)).toThrow(RangeError);
    expect(() => compilePhrase(["{weight} is needed", "se necesitan {weight}"], SPANISH)).toThrow(RangeError);
  });

  test("stands once in the catalog", () => {
    const english = SPANISH.phrases.map(([phrase]) => phrase);
    expect(english.filter((phrase, at) => english.indexOf(phrase) !== at)).toEqual([]);
  });

  test("changes no figure it says itself", () => {
    const digits = (text: string) => (text.replace(/\{[^}]*\}/g, "").match(/\d+/g) ?? []).sort().join();
    expect(SPANISH.phrases.filter(([one, other]) => digits(one) !== digits(other))).toEqual([]);
  });
});
