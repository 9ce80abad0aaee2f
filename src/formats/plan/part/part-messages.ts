import type { Hiders } from "../../../core/conflict/find-hiders.ts";
import type { HiddenArea } from "../../../core/conflict/known-views.ts";
import type { Tree } from "../../../core/model/trees.ts";
import type { PartGround } from "../../../core/plan-part.ts";
import type { EncodedPart } from "./encoded-part.ts";
import type { KeptPart } from "./part-desk.ts";
import type { PortableSurroundings } from "./portable-surroundings.ts";

/** What a thread is told: the ground once, then parts. Plain data. */
export type PartRequest =
  | {
      readonly type: "ground";
      readonly ground: Omit<PartGround, "surroundings"> & { readonly surroundings: PortableSurroundings };
    }
  | { readonly type: "know"; readonly sight: readonly HiddenArea[] }
  | PartWork;

/** A part to be looked at, with its number among those of its kind. */
export type PartWork =
  | { readonly type: "hiders"; readonly number: number; readonly trees: readonly Tree[] }
  | {
      readonly type: "encode" | "keep";
      readonly number: number;
      readonly trees: readonly Tree[];
      readonly trunkNumbers: ReadonlyMap<string, number>;
    };

/** What a thread answers: that the ground is taken in, then what it found of each part, in the order in which it was told them. */
export type PartAnswer =
  | { readonly type: "ready" }
  | { readonly type: "hiders"; readonly number: number; readonly found: Hiders }
  | { readonly type: "encode"; readonly number: number; readonly found: EncodedPart }
  | { readonly type: "keep"; readonly number: number; readonly found: KeptPart }
  | { readonly type: "failed"; readonly reason: string };

/** What is found of a part, by the kind of work. */
export type PartFound = { readonly [T in PartWork["type"]]: Extract<PartAnswer, { type: T }>["found"] };
