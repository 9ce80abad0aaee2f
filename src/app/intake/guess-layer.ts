export { type FirstLook, firstLook, guessLayer, type LayerGuess } from "../../formats/check/guess-layer.ts";
