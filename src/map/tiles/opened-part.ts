import { readPlan } from "../../core/plan/read-plan.ts";
import type { OpenedPlan } from "../../formats/plan/open-plan.ts";
import type { RecordPlaces } from "./record-places.ts";
import { type TiledPlan, treeRecords } from "./tiled-plan.ts";

const NONE = '{"type":"FeatureCollection","features":[]}';

/**
 * What of a plan by its tiles is held: its options, its zones, and of the trees only those that were asked for. Surroundings, sight and findings stay
 * unread, and of a tree's own columns none is known. Without the revision's files beside the tiles it stays null.
 */
export class OpenedPart {
  readonly #plan: TiledPlan;
  #frame: { readonly manifest: string; readonly zones: string } | null = null;
  #records = new Map<string, { readonly line: string; readonly conflicts: readonly string[] }>();
  opened: OpenedPlan | null = null;

  constructor(plan: TiledPlan) {
    this.#plan = plan;
  }

  /** Reads the manifest and the zones. Throws as `readPlan` does. */
  async open(): Promise<void> {
    const [manifest, zones] = await Promise.all([this.#plan.read("plan.json"), this.#plan.read("zones.geojson")]);
    if (manifest === null) return;
    this.#frame = { manifest, zones: zones ?? NONE };
    this.#make();
  }

  /** Reads a tree's records by their places; false where they cannot be had. */
  async take(treeId: string, places: RecordPlaces): Promise<boolean> {
    if (this.#records.has(treeId)) return true;
    const records = this.#frame === null ? null : await treeRecords(this.#plan, places);
    if (records === null) return false;
    this.#records.set(treeId, records);
    this.#make();
    return true;
  }

  #make(): void {
    if (this.#frame === null) return;
    const records = [...this.#records.values()];
    const whole = readPlan({
      ...this.#frame,
      prescriptions: records.map(({ line }) => line).join("\n"),
      conflicts: `{"type":"FeatureCollection","features":[${records.flatMap(({ conflicts }) => conflicts).join(",")}]}`,
      surroundings: NONE,
      sight: NONE,
      findings: [],
    });
    const trees = whole.trees.map((tree, row) => ({ ...tree, row }));
    const plan = {
      ...whole,
      trees,
      prescriptions: whole.prescriptions.map((one, treeRow) => ({ ...one, treeRow })),
      settings: whole.settings.map((one, treeRow) => ({ ...one, treeRow })),
    };
    const empty = { type: "FeatureCollection" as const, features: [] };
    this.opened = {
      plan,
      trees: {
        type: "FeatureCollection",
        features: trees.map((tree) => ({
          type: "Feature",
          id: tree.id,
          properties: {},
          geometry: { type: "Point", coordinates: [tree.lonDeg, tree.latDeg] },
        })),
      },
      conflicts: empty,
      surroundings: empty,
      sight: empty,
      zones: JSON.parse(this.#frame.zones),
    };
  }
}
