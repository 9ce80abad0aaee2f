import type { HiddenShare, SightArea } from "../../model/surroundings.ts";
import type { Tree } from "../../model/trees.ts";
import { planeOf, toLonLat, toPlane } from "../../plane/plane.ts";
import type { Standard } from "../../standard/standard.ts";
import type { SightEnvelope, Surroundings } from "../../surroundings/surroundings.ts";
import type { CrownSize } from "../crown-size.ts";
import type { SearchContext } from "../search-context.ts";
import { blindParts } from "./blind-parts.ts";
import { hiddenByWalls } from "./hidden-by-walls.ts";
import { bandOf, hiddenParts } from "./hidden-parts.ts";
import { shareOut } from "./share-out.ts";
import { SightScan } from "./sight-scan.ts";

/** A tree that hides something of an area. */
interface Hider {
  readonly treeId: string;
  readonly tree: Pick<Tree, "lonDeg" | "latDeg" | "crownEastM" | "crownNorthM">;
  readonly crown: readonly number[];
  readonly trunk: readonly number[];
  /** Whether the standard lets such a trunk stand; it then hides nothing unless too many stand there. */
  readonly isExempt: boolean;
  readonly crownSize: CrownSize;
  readonly trunkSize: CrownSize | null;
}

/** What some trees hide of one area: plain data, in the order of the trees. */
export interface GatheredHiders {
  /** The area's place among the envelopes. */
  readonly envelope: number;
  readonly hiders: readonly Hider[];
  readonly trunks: number;
}

/**
 * Gathers, while trees are gone through, what each hides of the areas of sight it stands in, and at the end what is hidden of each area. At the
 * estimated sizes of the trees. Trunks that the standard lets stand in triangles do not count there: it ignores them as a driver does, who
 * sees past a post by moving on.
 */
export class HiddenCollector {
  readonly #byEnvelope = new Map<SightEnvelope, { hiders: Hider[]; trunks: number }>();
  readonly #scans = new Map<SightEnvelope, Map<number, SightScan>>();

  constructor(readonly standard: Standard) {}

  /** The lines of sight of an envelope in a plane; null where it has none. */
  scanOf(envelope: SightEnvelope, plane: number): SightScan | null {
    if (envelope.lines === undefined) return null;
    let byPlane = this.#scans.get(envelope);
    if (byPlane === undefined) {
      byPlane = new Map();
      this.#scans.set(envelope, byPlane);
    }
    let scan = byPlane.get(plane);
    if (scan === undefined) {
      scan = new SightScan(envelope.lines, plane);
      byPlane.set(plane, scan);
    }
    return scan;
  }

  /** Takes the tree at hand into account, whose area is loaded in the context. */
  add(context: SearchContext, envelope: SightEnvelope): void {
    const { view, around, nearest, trunk: foot } = context;
    const { tree, estimate } = view;
    const trunkM = (tree.dbhM ?? 0) / 2;
    const crownIsOut = !around.isInside && nearest.distanceM > view.farM;
    if (crownIsOut && !foot.isInside && foot.distanceM > trunkM) return;
    const scan = this.scanOf(envelope, view.plane);
    if (scan === null) return;
    let found = this.#byEnvelope.get(envelope);
    if (found === undefined) {
      found = { hiders: [], trunks: 0 };
      this.#byEnvelope.set(envelope, found);
    }
    if (foot.isInside) found.trunks += 1;
    const band = bandOf(scan, "middle");
    const crown = hiddenParts(scan, view, estimate, band);
    const trunkSize = trunkM > 0 ? trunkColumn(trunkM, tree.height.valueM) : null;
    const at = { xM: view.footXM, yM: view.footYM };
    const trunk = trunkSize === null ? [] : hiddenParts(scan, at, trunkSize, band);
    if (crown.length + trunk.length === 0) return;
    found.hiders.push({
      treeId: tree.id,
      tree: placeOf(tree),
      crown,
      trunk,
      isExempt: this.#isExempt(envelope.area, tree.dbhM),
      crownSize: { ...estimate },
      trunkSize,
    });
  }

  /** What was gathered so far, so that another collector can {@link take} it; `placeOf` gives an area's place among the envelopes. */
  gathered(placeOf: (envelope: SightEnvelope) => number): GatheredHiders[] {
    return [...this.#byEnvelope].map(([envelope, found]) => ({ envelope: placeOf(envelope), ...found }));
  }

  /** Takes what was gathered of trees that come after all those seen so far. */
  take(gathered: readonly GatheredHiders[], { envelopes }: Surroundings): void {
    for (const { envelope: at, hiders, trunks } of gathered) {
      const envelope = envelopes[at];
      if (envelope?.type !== "sight") throw new RangeError(`Expected an area of sight at ${at}, got none`);
      const found = this.#byEnvelope.get(envelope);
      if (found === undefined) this.#byEnvelope.set(envelope, { hiders: [...hiders], trunks });
      else {
        for (const hider of hiders) found.hiders.push(hider);
        found.trunks += trunks;
      }
    }
  }

  /** The areas with what is hidden of them; those without lines of sight come back as they are. */
  finish(surroundings: Surroundings): SightArea[] {
    const byArea = new Map<SightArea, SightEnvelope>();
    for (const envelope of surroundings.envelopes) if (envelope.type === "sight") byArea.set(envelope.area, envelope);
    return surroundings.sight.map((area) => {
      const envelope = byArea.get(area);
      return envelope?.lines === undefined ? area : { ...area, hidden: this.#hiddenOf(envelope, surroundings) };
    });
  }

  #hiddenOf(envelope: SightEnvelope, surroundings: Surroundings): HiddenShare {
    const { lines, area } = envelope;
    const { lengthM } = lines!;
    const found = this.#byEnvelope.get(envelope);
    const isCrowded = found !== undefined && found.trunks > (this.standard.sight.trunks.maxCount ?? Infinity);
    const hiders = (found?.hiders ?? [])
      .map((one) => (one.isExempt && !(isCrowded && area.kind === "sight-triangle") ? { ...one, trunk: [] } : one))
      .filter(({ crown, trunk }) => crown.length + trunk.length > 0);
    if (hiders.length === 0) {
      return { share: 0, lookedAtM: lengthM, partsM: [], trees: [], opensMost: null, blind: null };
    }
    const plane = planeOf(lines!.lane[0]![0]);
    const scan = this.scanOf(envelope, plane)!;
    const shapes = surroundings.planes.get(plane);
    const byWalls = shapes === undefined ? [] : hiddenByWalls(scan, shapes, surroundings.envelopes);
    const shares = shareOut(hiders, byWalls, lengthM);
    const hiding = hiders.flatMap((one) => {
      const { lonDeg, latDeg, crownEastM = 0, crownNorthM = 0 } = one.tree;
      const [xM, yM] = toPlane(plane, lonDeg, latDeg);
      const axis = { xM: xM + crownEastM, yM: yM + crownNorthM };
      const solids = one.crown.length > 0 ? [{ at: axis, size: one.crownSize }] : [];
      if (one.trunk.length > 0) solids.push({ at: { xM, yM }, size: one.trunkSize! });
      return solids;
    });
    return { ...shares, blind: blindParts(scan, shares.partsM, hiding, (xM, yM) => toLonLat(plane, xM, yM)) };
  }

  #isExempt(area: SightArea, dbhM: number | null): boolean {
    if (area.kind !== "sight-triangle") return false;
    const { maxWidthM } = this.standard.sight.trunks;
    return maxWidthM === null || (dbhM !== null && dbhM <= maxWidthM);
  }
}

/** Where a tree and its crown stand. */
function placeOf({ lonDeg, latDeg, crownEastM = 0, crownNorthM = 0 }: Tree): Hider["tree"] {
  return { lonDeg, latDeg, crownEastM, crownNorthM };
}

/** A trunk as thick as at breast height up to the tree's top. */
function trunkColumn(radiusM: number, heightM: number): CrownSize {
  return { heightM, baseM: 0, northM: radiusM, eastM: radiusM, southM: radiusM, westM: radiusM, habit: "column" };
}
