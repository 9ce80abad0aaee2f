import type { SightArea } from "../../model/surroundings.ts";
import type { Certainty, Hazard } from "../../model/terms.ts";
import type { LinesOfSight } from "./lines-of-sight.ts";

/** The view around a curve or to a face, with its lines of sight. */
export interface BuiltView {
  readonly area: SightArea;
  readonly lines: LinesOfSight;
  /** What a conflict says it is with: the sign or signal with its road, or the road that bends. */
  readonly name: string | null;
  /** The surest that a conflict with it can be. */
  readonly atMost: Certainty;
  readonly hazard: Hazard | null;
  /** Meters that should be looked along; more than the lines hold where the road leaves the data. */
  readonly wantedM: number;
}
