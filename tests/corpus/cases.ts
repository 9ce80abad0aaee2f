import type { Layer } from "../../src/core/model/terms.ts";
import type { BadInputCase, Row } from "./case.ts";
import { BUILDINGS, OTHERS } from "./surroundings.ts";
import { TREE_FEATURES } from "./tree-features.ts";
import { TREE_VALUES } from "./tree-values.ts";
import { WHOLE } from "./whole-files.ts";

const row = (layer: Layer, [name, verdict, code, rule, content]: Row): BadInputCase => {
  return { name, layer, class: verdict, code, rule, odd: content };
};

/** Every case, in the order of the manifest. */
export const CASES: readonly BadInputCase[] = [
  ...[...TREE_FEATURES, ...TREE_VALUES].map((one) => row("trees", one)),
  ...BUILDINGS.map((one) => row("buildings", one)),
  ...OTHERS.map(([layer, ...one]) => row(layer, one)),
  ...WHOLE.map(([name, verdict, code, rule, whole]): BadInputCase => {
    return { name, layer: "trees", class: verdict, code, rule, whole };
  }),
];
