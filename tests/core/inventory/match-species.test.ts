import { describe, expect, it } from "vitest";
import { speciesMatcher } from "../../../src/core/inventory/species/match-species.ts";

const match = speciesMatcher();
const nameOf = (species: string | null, common: string | null = null): string => {
  const { matchedBy, matchedName } = match(species, common, null).traits;
  return `${matchedBy} ${matchedName}`.trim();
};

describe("speciesMatcher", () => {
  it.each([
    ["Acer rubrum", "species Acer rubrum"],
    ["  ACER   RUBRUM ", "species Acer rubrum"],
    ["acer rubrum 'Red Sunset'", "species Acer rubrum"],
    ["Acer rubrum “October Glory”", "species Acer rubrum"],
    ["Acer rubrum var. trilobum", "species Acer rubrum"],
    ["Acer x freemanii", "species Acer x freemanii"],
    ["Acer × freemanii", "species Acer x freemanii"],
    ["Acer freemanii", "species Acer x freemanii"],
    ["Platanus × hispanica", "species Platanus x acerifolia"],
    ["Acer spp.", "genus Acer"],
    ["Acer sp", "genus Acer"],
    ["Acer", "genus Acer"],
    ["Acer nosuchum", "genus Acer"],
    ["Maple, Red", "species Acer rubrum"],
    ["red-maple", "species Acer rubrum"],
    ["Red Maple (Acer rubrum)", "species Acer rubrum"],
    ["Acer rubrum :: Red Maple", "species Acer rubrum"],
    ["Some fancy maple", "genus Acer"],
    ["Ginko biloba", "species Ginkgo biloba"],
    ["Querus rubra", "species Quercus rubra"],
    ["Crataegus\tdouglasii", "genus Crataegus"],
    // Several names in one cell.
    ["Kousa dogwood/Japanese Dogwood", "species Cornus kousa"],
    ["sweet gum; Alligator-Wood", "species Liquidambar styraciflua"],
    // More than one letter off, in long words or where genus and epithet are both near.
    ["Chamecypairs obtusa", "species Chamaecyparis obtusa"],
    ["Thus plicata", "species Thuja plicata"],
    ["Tsonga heterophylla", "species Tsuga heterophylla"],
    ["Quercus robur? check", "species Quercus robur"],
    // No guess where two are as near, or the word is short.
    ["Ace", "none"],
    ["Zelkva serata", "species Zelkova serrata"],
    // Common names whose last word means another genus than it does alone.
    ["Pacific Red-Cedar", "species Thuja plicata"],
    ["weeping Alaskan yellow-cedar", "species Callitropsis nootkatensis"],
    ["Fancy new cedar", "type conifers"],
    ["Norfolk pine", "type conifers"],
    ["cornelian-cherry", "species Cornus mas"],
    ["Douglas-fir", "species Pseudotsuga menziesii"],
    ["Stoneham Gold western red-cedar", "species Thuja plicata"],
    ["Texas red oak", "genus Quercus"],
    // Codes of two and three letters; several species of a genus, several genera.
    ["GLTR", "species Gleditsia triacanthos"],
    ["glTR1", "species Gleditsia triacanthos"],
    ["QUERUB", "species Quercus rubra"],
    ["ACPL", "species Acer platanoides"],
    ["ACSA2", "none"],
    ["XXXX", "none"],
    // A synonym that leads to a genus is a genus.
    ["Rhamnus purshiana", "genus Frangula"],
    ["Platanus hybrida", "species Platanus x acerifolia"],
    ["Malus x domestica", "species Malus domestica"],
    ["__proto__", "none"],
    ["constructor", "none"],
    ["?", "none"],
    ["", "none"],
    ["Zebra", "none"],
  ])("reads %j as %s", (text, expected) => expect(nameOf(text)).toBe(expected));

  it("prefers the botanical name, and a common name's species over a mere genus of it", () => {
    expect(nameOf("Quercus rubra", "red maple")).toBe("species Quercus rubra");
    expect(nameOf("Acer sp.", "red maple")).toBe("species Acer rubrum");
    expect(nameOf("Quercus sp.", "red maple")).toBe("genus Quercus");
    expect(nameOf(null, "western red cedar")).toBe("species Thuja plicata");
  });

  it("falls back to the stated kind, then to none, and says that the name told nothing", () => {
    const byKind = match("Unknownia", null, "conifer-evergreen");
    expect(byKind.traits).toMatchObject({ matchedBy: "type", isConifer: true, isEvergreen: true, habit: "cone" });
    expect(byKind.isUnknownName).toBe(true);
    expect(match(null, null, null)).toMatchObject({ isUnknownName: false, traits: { matchedBy: "none" } });
  });

  it("knows deciduous conifers, evergreen broadleaves, narrow cultivars and bloom", () => {
    expect(match("Larix laricina", null, null).traits).toMatchObject({ isConifer: true, isEvergreen: false });
    expect(match("Magnolia grandiflora", null, null).traits).toMatchObject({
      isEvergreen: true,
      springBlooming: false,
    });
    expect(match("Magnolia stellata", null, null).traits).toMatchObject({ isEvergreen: false, springBlooming: true });
    expect(match("Carpinus betulus 'Fastigiata'", null, null).traits.habit).toBe("column");
    expect(match("Carpinus betulus", null, null).traits).toMatchObject({ habit: "ellipsoid", bleeds: true });
  });

  it("gives growth by class with its source", () => {
    // Fast 0.75 m a year in height; half of it in radius for an ellipsoid.
    const { heightGrowthMPerYear, radiusGrowthMPerYear, growthSource } = match(
      "Liriodendron tulipifera",
      null,
      null,
    ).traits;
    expect([heightGrowthMPerYear, radiusGrowthMPerYear]).toEqual([0.75, 0.375]);
    expect(growthSource).toContain("fast");
  });
});
