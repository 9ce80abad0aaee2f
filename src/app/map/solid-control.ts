import type { IControl, Map as MapLibreMap } from "maplibre-gl";
import type { SolidsShown } from "../../map/index.ts";
import { counted, readableCount } from "../words.ts";

/** Steepest look at solids, in degrees from straight down; nearer the horizon the ground is lost. */
const STEEPEST_DEG = 72;
const FIRST_DEG = 58;
/** Closest zoom at which solids still show their street, gone to when somebody asks for them from farther out. */
const STREET_ZOOM = 18;
const TURN_DEG = 45;
const MOVE_MS = 200;

/**
 * The map's switch between drawing and model: a button, and while it is on a tilt, a turn and what is stacked. Lets the map be tilted and turned only
 * meanwhile, and lays it flat with north up when it is switched off.
 */
export class SolidControl implements IControl {
  private map: MapLibreMap | null = null;
  private readonly element = document.createElement("div");
  private readonly button = document.createElement("button");
  private readonly more = document.createElement("div");
  private readonly tilt = document.createElement("input");
  private readonly told = document.createElement("p");
  private isOn = false;

  /** `show` is told whether solids are to be drawn; `calm` says how long a move of the map may take. */
  constructor(
    private readonly show: (isOn: boolean) => void,
    private readonly calm: (durationMs: number) => number,
  ) {
    this.element.className = "maplibregl-ctrl maplibregl-ctrl-group solid-control";
    this.button.type = "button";
    this.button.className = "switch";
    this.button.textContent = "3-D";
    this.button.title = "Show trees, buildings and wires as solids";
    this.button.setAttribute("aria-pressed", "false");
    this.button.addEventListener("click", () => this.set(!this.isOn));
    this.more.className = "more";
    this.more.hidden = true;
    this.tilt.type = "range";
    this.tilt.min = "0";
    this.tilt.max = String(STEEPEST_DEG);
    this.tilt.addEventListener("input", () => this.map?.jumpTo({ pitch: Number(this.tilt.value) }));
    const label = document.createElement("label");
    label.append("Tilt", this.tilt);
    const turn = document.createElement("button");
    turn.type = "button";
    turn.className = "turn";
    turn.textContent = "Turn";
    turn.title = "Turn the map by an eighth";
    turn.addEventListener("click", () => this.turn());
    this.told.setAttribute("role", "status");
    this.more.append(label, turn, this.told);
    this.element.append(this.more, this.button);
  }

  onAdd(map: MapLibreMap): HTMLElement {
    this.map = map;
    map.on("pitch", this.onPitch);
    return this.element;
  }

  onRemove(): void {
    this.map?.off("pitch", this.onPitch);
    this.element.remove();
    this.map = null;
  }

  /** Says how many trees are stacked. */
  tell({ trees, treesInView, isTooFar }: SolidsShown): void {
    this.told.textContent = isTooFar
      ? "Zoom in to see trees stand."
      : trees < treesInView
        ? `The ${readableCount(trees)} nearest of ${counted(treesInView, "tree")} in view stand.`
        : `${counted(trees, "tree")} at true size. A layer is ${this.layer} high.`;
  }

  /** How high a layer of a crown is, in words. */
  layer = "1 m";

  private set(isOn: boolean): void {
    const { map } = this;
    if (map === null) return;
    this.isOn = isOn;
    this.button.setAttribute("aria-pressed", String(isOn));
    this.more.hidden = !isOn;
    this.told.textContent = "";
    if (isOn) {
      map.setMaxPitch(STEEPEST_DEG);
      map.dragRotate.enable();
      map.touchZoomRotate.enableRotation();
      map.touchPitch.enable();
    }
    this.show(isOn);
    map.easeTo({
      pitch: isOn ? FIRST_DEG : 0,
      bearing: isOn ? map.getBearing() : 0,
      zoom: isOn ? Math.max(STREET_ZOOM, map.getZoom()) : map.getZoom(),
      duration: this.calm(MOVE_MS),
    });
    if (isOn) return;
    map.once("moveend", () => {
      if (this.isOn) return;
      map.setMaxPitch(0);
      map.dragRotate.disable();
      map.touchZoomRotate.disableRotation();
      map.touchPitch.disable();
    });
  }

  private turn(): void {
    this.map?.easeTo({ bearing: this.map.getBearing() + TURN_DEG, duration: this.calm(MOVE_MS) });
  }

  private readonly onPitch = () => {
    if (this.map !== null) this.tilt.value = String(Math.round(this.map.getPitch()));
  };
}
