import type { Form } from "../../src/core/model/terms.ts";

/** Where the town plants a species. */
export type Place = "street" | "under-wires" | "pit" | "yard" | "park" | "river" | "rural" | "orchard" | "hedge";

/** A species as this town knows it: rounded sizes at maturity from common knowledge, only good enough to draw a believable town. */
export interface Species {
  readonly name: string;
  readonly common: string;
  readonly form: Form;
  readonly matureHeightM: number;
  readonly matureRadiusM: number;
  readonly matureDbhCm: number;
  /** Years in which the stem reaches 63 % of its mature diameter. */
  readonly paceYears: number;
  readonly places: readonly Place[];
}

const row = (
  name: string,
  common: string,
  form: Form,
  [matureHeightM, matureRadiusM, matureDbhCm, paceYears]: readonly [number, number, number, number],
  ...places: readonly Place[]
): Species => ({ name, common, form, matureHeightM, matureRadiusM, matureDbhCm, paceYears, places });

export const SPECIES: readonly Species[] = [
  row("Acer rubrum", "red maple", "tree", [19, 5.6, 62, 36], "street", "yard", "park"),
  row("Acer platanoides", "Norway maple", "tree", [17, 5.8, 64, 38], "street", "yard"),
  row("Acer saccharum", "sugar maple", "tree", [22, 6, 72, 50], "street", "park", "rural"),
  row("Acer saccharinum", "silver maple", "tree", [24, 7, 95, 38], "yard", "river"),
  row("Acer campestre", "hedge maple", "tree", [10, 4, 40, 34], "under-wires", "street"),
  row("Acer griseum", "paperbark maple", "tree", [8, 3, 28, 34], "under-wires", "yard"),
  row("Quercus rubra", "northern red oak", "tree", [23, 7, 85, 48], "street", "park", "yard"),
  row("Quercus palustris", "pin oak", "tree", [21, 6, 75, 42], "street", "park"),
  row("Quercus macrocarpa", "bur oak", "tree", [22, 7.5, 95, 60], "park", "rural", "yard"),
  row("Quercus robur 'Fastigiata'", "columnar English oak", "tree", [16, 2.2, 48, 44], "street", "pit"),
  row("Tilia cordata", "littleleaf linden", "tree", [18, 5, 62, 42], "street", "pit", "park"),
  row("Tilia americana", "American basswood", "tree", [21, 6, 75, 46], "park", "street"),
  row("Ulmus americana", "American elm", "tree", [24, 7.5, 90, 46], "street", "park"),
  row("Ulmus parvifolia", "lacebark elm", "tree", [15, 5.4, 58, 36], "street", "pit"),
  row("Zelkova serrata", "Japanese zelkova", "tree", [17, 5.8, 60, 38], "street", "pit"),
  row("Platanus x hispanica", "London planetree", "tree", [24, 7.5, 92, 42], "street", "park"),
  row("Gleditsia triacanthos", "honeylocust", "tree", [17, 5.8, 55, 34], "street", "pit", "yard"),
  row("Ginkgo biloba", "ginkgo", "tree", [18, 4.6, 58, 56], "street", "pit", "park"),
  row("Liquidambar styraciflua", "sweetgum", "tree", [20, 5, 65, 40], "street", "yard"),
  row("Fraxinus pennsylvanica", "green ash", "tree", [18, 5.6, 62, 36], "street", "rural"),
  row("Celtis occidentalis", "hackberry", "tree", [18, 5.6, 62, 42], "street", "river"),
  row("Carpinus betulus", "European hornbeam", "tree", [12, 3.8, 42, 40], "street", "pit"),
  row("Pyrus calleryana", "Callery pear", "tree", [12, 3.8, 40, 26], "street", "under-wires"),
  row("Malus species", "crabapple", "tree", [6.5, 3, 28, 24], "under-wires", "yard", "park"),
  row("Malus domestica", "apple", "tree", [6, 2.9, 30, 24], "orchard", "yard"),
  row("Prunus serrulata", "Japanese flowering cherry", "tree", [7.5, 3.8, 38, 24], "under-wires", "yard", "park"),
  row("Prunus virginiana", "chokecherry", "tree", [7, 2.9, 22, 24], "under-wires", "yard"),
  row("Cercis canadensis", "eastern redbud", "tree", [7, 3.6, 26, 26], "under-wires", "yard"),
  row("Crataegus crus-galli", "cockspur hawthorn", "tree", [6.5, 3.2, 24, 30], "under-wires", "park"),
  row("Amelanchier x grandiflora", "apple serviceberry", "tree", [7, 2.8, 20, 26], "under-wires", "yard"),
  row("Syringa reticulata", "Japanese tree lilac", "tree", [7.5, 2.8, 26, 30], "under-wires", "yard"),
  row("Cornus florida", "flowering dogwood", "tree", [7, 3.4, 24, 30], "yard"),
  row("Magnolia x soulangeana", "saucer magnolia", "tree", [7, 3.6, 30, 32], "yard"),
  row("Betula nigra", "river birch", "tree", [15, 4.6, 45, 30], "river", "yard"),
  row("Salix nigra", "black willow", "tree", [15, 5.6, 70, 28], "river"),
  row("Populus deltoides", "eastern cottonwood", "tree", [26, 7.5, 110, 32], "river", "rural"),
  row("Alnus glutinosa", "black alder", "tree", [15, 4, 42, 30], "river"),
  row("Juglans nigra", "black walnut", "tree", [21, 6.5, 72, 46], "yard", "rural"),
  row("Picea pungens", "blue spruce", "conifer", [18, 3.2, 48, 40], "yard", "park", "rural"),
  row("Picea abies", "Norway spruce", "conifer", [23, 4.4, 62, 42], "yard", "park", "rural"),
  row("Pinus strobus", "eastern white pine", "conifer", [23, 5, 70, 42], "yard", "park", "rural"),
  row("Pinus nigra", "Austrian pine", "conifer", [17, 4.4, 52, 42], "yard", "park"),
  row("Thuja occidentalis", "northern white-cedar", "conifer", [10, 1.6, 30, 40], "yard", "rural"),
  row("Tsuga canadensis", "eastern hemlock", "conifer", [19, 4.6, 58, 52], "yard", "park"),
  row("Euonymus alatus", "winged euonymus", "shrub", [2.4, 1.3, 6, 14], "hedge"),
  row("Viburnum dentatum", "arrowwood viburnum", "shrub", [2.7, 1.3, 5, 12], "hedge"),
  row("Ligustrum vulgare", "common privet", "hedge", [2.1, 0.9, 5, 10], "hedge"),
  row("Taxus x media", "hybrid yew", "hedge", [1.9, 1, 8, 22], "hedge"),
];

/** The species a place is planted with. */
export const speciesFor = (place: Place): readonly Species[] => SPECIES.filter((one) => one.places.includes(place));
