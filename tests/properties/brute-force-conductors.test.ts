import { describe, expect, it } from "vitest";
import type { RuleCases } from "../../src/core/model/load-cases.ts";
import { planeOf, toPlane } from "../../src/core/plane/plane.ts";
import type { Standard } from "../../src/core/standard/standard.ts";
import { features, line, OPTIONS, ORIGIN, STANDARD, search } from "../core/conflict/scene.ts";
import { closeSampler, gapSampled } from "./brute-force/gap-sampled.ts";
import { randomTree } from "./brute-force/scene-tree.ts";
import { SCENES, seeded, TIMEOUT_MS } from "./brute-force/seeded.ts";
import type { WireNumbers } from "./brute-force/swept-points.ts";

/**
 * The least gap between a crown and a swept wire, against samples of both that get finer about the nearest: wires at rest, hot, and blown out,
 * parabolas and catenaries, level and sloping, with and without a free insulator string. The wires' own numbers (sags, swing) are
 * taken from the engine, as they are checked against published tables elsewhere; where they hang and how far that is from the crown is not.
 *
 * Samples are never nearer than the truth. The engine's search ends at a centimeter along the wire, and the samples' at less than a millimeter;
 * where the crown is nearly level under the wire both may stop short by a little: 1 cm.
 */
const TOLERANCE_M = 0.01;
/** Columns a wire takes in the engine's rows: both ends, two sags, swing, string, H / w. */
const STRIDE = 11;
const MINIMUM_M = 18 * 0.0254;
const CLEAR_TO_M = 10 * 0.3048;

const inCases = (loadCases: RuleCases): Standard => ({
  ...STANDARD,
  rules: STANDARD.rules.map((rule) => (rule.kind === "conductor" ? { ...rule, loadCases } : rule)),
});
const CASES = (["still", "go-95-rule-35", "prc-4293", "blow-out"] as const).map(inCases);

/** A wire's scene takes ten times as long as others: few of them, unless all are asked for. */
const COUNT = process.env.SCENES === undefined ? 60 : SCENES;

describe("conductors", () => {
  it(
    `are as near as sampling finds in ${COUNT} scenes`,
    () => {
      const [originX, originY] = toPlane(planeOf(ORIGIN.lonDeg), ORIGIN.lonDeg, ORIGIN.latDeg);
      const tally = { yes: 0, no: 0, hair: 0, inside: 0, far: 0, swung: 0, again: 0, worstM: 0 };
      for (let seed = 1; seed <= COUNT; seed += 1) {
        const next = seeded(77_000_000 + seed);
        const scene = randomTree(next);
        const found = search([scene.given], { conductors: conductors(next) }, CASES[seed % CASES.length]!);
        const reported = found.settings[0]!.spans?.[0]?.gapM ?? null;
        const shapes = [...found.around.surroundings.planes.values()][0]!;
        const axis = [originX + scene.axis[0], originY + scene.axis[1]] as const;
        const wires: WireNumbers[] = Array.from({ length: shapes.wires.length / STRIDE }, (_, at) =>
          Array.from(shapes.wires.subarray(at * STRIDE, (at + 1) * STRIDE)),
        );
        if (wires.some((wire) => wire[8]! > 0)) tally.swung += 1;
        const quickM = Math.min(...wires.map((wire) => gapSampled(scene.solid, axis, wire)));
        // Where the engine is nearer than the samples these may have stood still about a tip or an edge: they are taken again, more closely.
        const isStill = reported !== null && quickM - Math.max(0, reported) > TOLERANCE_M && reported <= CLEAR_TO_M;
        const gapM = isStill
          ? Math.min(...wires.map((wire) => gapSampled(scene.solid, axis, wire, closeSampler)))
          : quickM;
        if (isStill) tally.again += 1;
        const conflict = found.conflicts.find(({ reachedOn }) => reachedOn === OPTIONS.asOf) ?? null;
        if (reported === null || reported > CLEAR_TO_M) {
          // A wire is looked for as far as the clear-to from the crown: beyond it only that it is farther is promised.
          expect(gapM, `scene ${seed}`).toBeGreaterThan(CLEAR_TO_M - TOLERANCE_M);
          expect(conflict, `scene ${seed}`).toBeNull();
          tally.far += 1;
          continue;
        }
        if (reported < 0) {
          tally.inside += 1;
          expect(gapM, `scene ${seed}, inside by ${-reported}`).toBeLessThan(TOLERANCE_M);
        } else {
          tally.worstM = Math.max(tally.worstM, Math.abs(reported - gapM));
          expect(Math.abs(reported - gapM), `scene ${seed}: ${reported}, sampled ${gapM}`).toBeLessThan(TOLERANCE_M);
        }
        if (Math.abs(Math.max(0, reported) - MINIMUM_M) < TOLERANCE_M) tally.hair += 1;
        else if (gapM < MINIMUM_M) tally.yes += 1;
        else tally.no += 1;
        if (gapM < MINIMUM_M - TOLERANCE_M) expect(conflict, `scene ${seed}`).not.toBeNull();
        if (gapM > MINIMUM_M + TOLERANCE_M) expect(conflict, `scene ${seed}`).toBeNull();
      }
      if (process.env.SCENES !== undefined) console.log(`conductors: ${JSON.stringify(tally)}`);
      expect(tally.yes).toBeGreaterThan(COUNT * 0.1);
      expect(tally.no).toBeGreaterThan(COUNT * 0.1);
      expect(tally.inside).toBeGreaterThan(COUNT * 0.05);
      expect(tally.swung).toBeGreaterThan(COUNT * 0.3);
      expect(tally.hair).toBeLessThan(COUNT * 0.05);
      expect(tally.again).toBeLessThan(COUNT * 0.02);
    },
    TIMEOUT_MS * 3,
  );
});

/** A span of 20 to 90 m past the middle of the scene, hung from 4 to 16 m up, its ends up to 5 m apart in height. */
function conductors(next: () => number): ReturnType<typeof features> {
  const bearing = next() * 2 * Math.PI;
  const asideM = (next() - 0.5) * 18;
  const [ux, uy] = [Math.sin(bearing), Math.cos(bearing)];
  const [before, after] = [10 + next() * 35, 10 + next() * 55];
  const place = (along: number): [number, number] => [ux * along - uy * asideM, uy * along + ux * asideM];
  const lowM = 4 + next() * 12;
  return features("conductors", {
    geometry: line([place(-before), place(after)]),
    properties: {
      id: "L",
      voltage: 12_000,
      attachment_height_1: lowM,
      attachment_height_2: lowM + next() * 5,
      // Up to a tenth of the span, where a catenary is not a parabola any more.
      sag: Math.min(lowM - 1, (before + after) * (0.002 + next() ** 2 * 0.1)),
      conductor: "4/0 6/1 ACSR",
      ...(next() < 0.3 ? { insulator_length: 0.3 + next() } : {}),
    },
  });
}
