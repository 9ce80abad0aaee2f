export { addBoughlineLayers, type BoughlineHandle } from "./add-boughline-layers.ts";
export { createLayers, LOCAL_TEXT_FONT, type PlanStyle } from "./create-layers.ts";
export type { BoughlineEvents } from "./events.ts";
export { PREFIX, SOURCES } from "./ids.ts";
export type { PlanLayer } from "./layers/plan-layer.ts";
export { type AddOptions, type LayerOptions, PARTS, type Part, type TreeFilter } from "./options.ts";
export { cssVariables, type Theme, type ThemeName, TOKENS, type Tokens, typeVariables } from "./tokens.ts";
export { DEFAULT_WORDS, type Words } from "./words.ts";
