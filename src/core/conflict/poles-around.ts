import Flatbush from "flatbush";
import { ASSUMED_POLE_RADIUS_M, crownInPoleM, type PoleZone } from "../crown/wire/pole-cylinder.ts";
import { toPlane } from "../plane/plane.ts";
import type { Standard } from "../standard/standard.ts";
import type { PoleAround } from "../surroundings/surroundings.ts";
import { formatLength } from "../units/format-length.ts";
import { widestM } from "./crown-size.ts";
import { crownOfSize } from "./gap-to-span.ts";
import type { SearchContext } from "./search-context.ts";

/** Meters in a degree of latitude, to a percent: for boxes that are searched, no length. */
const DEGREE_M = 110_000;

/**
 * Looks for crowns in the cylinders that a standard keeps clear about poles (14 CCR 1254 in the shipped ones) and reports them on the tree, once.
 * Which poles the rule is for (switch, fuse, transformer, arrester, dead end, corner) no layer tells: the words leave it to the reader. Ground is
 * taken as level between pole and tree.
 */
export class PolesAround {
  readonly #clearing: Standard["conductor"]["poleClearing"];
  readonly #poles: readonly PoleAround[];
  readonly #index: Flatbush | null;

  constructor(standard: Standard, poles: readonly PoleAround[]) {
    this.#clearing = standard.conductor.poleClearing;
    this.#poles = poles;
    this.#index = this.#clearing === null || poles.length === 0 ? null : new Flatbush(poles.length);
    for (const { lonDeg, latDeg } of poles) this.#index?.add(lonDeg, latDeg, lonDeg, latDeg);
    this.#index?.finish();
  }

  check(context: SearchContext): void {
    if (this.#index === null || this.#clearing === null) return;
    const { view, options } = context;
    const { lonDeg, latDeg } = view.tree;
    const crown = crownOfSize(view.estimate);
    const reachDeg = (widestM(view.estimate) + this.#clearing.radiusM + ASSUMED_POLE_RADIUS_M) / DEGREE_M;
    const wideDeg = reachDeg / Math.max(0.02, Math.cos((latDeg * Math.PI) / 180));
    const zones: readonly PoleZone[] = view.tree.condition === "dead" ? ["all", "dead"] : ["all"];
    const found = this.#index.search(lonDeg - wideDeg, latDeg - reachDeg, lonDeg + wideDeg, latDeg + reachDeg);
    for (const at of found.sort((one, other) => one - other)) {
      const pole = this.#poles[at]!;
      const [xM, yM] = toPlane(view.plane, pole.lonDeg, pole.latDeg);
      const here = { xM, yM, radiusM: ASSUMED_POLE_RADIUS_M, attachmentM: pole.attachmentM };
      for (const zone of zones) {
        const inM = crownInPoleM(here, zone, crown, view.xM, view.yM, 0, this.#clearing);
        if (!(inM > 0)) continue;
        const upTo = formatLength(zone === "all" ? this.#clearing.allBelowM : pole.attachmentM, options.units);
        context.findOnTree(
          "pole-clearing",
          "warning",
          pole.id,
          `The ${zone === "all" ? "crown" : "dead crown"} reaches ${formatLength(inM, options.units)} into the ${formatLength(this.#clearing.radiusM, options.units)} about pole ${pole.id} that are kept clear below ${upTo} (${this.#clearing.source.title}).`,
          "Find out whether the pole carries a switch, fuse, transformer or arrester, or is a dead end or corner; then the line's owner has it cleared.",
        );
      }
    }
  }
}
