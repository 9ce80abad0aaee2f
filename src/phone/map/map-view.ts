import type { PhonePage } from "../../core/packet/phone/phone-page.ts";
import type { Place } from "../../core/plan/completion/completion.ts";
import { toLonLat, toPlane } from "../../core/plane/plane.ts";
import { formatLength } from "../../core/units/format-length.ts";
import { button, element, setAttributes, shape } from "../element.ts";
import { askHere } from "../here.ts";
import type { Report } from "../keep/report.ts";
import { WORDS } from "../words.ts";
import { type Camera, fitted, inWindow, keptNear, moved, onGround, type WindowPx, zoomedAt } from "./camera.ts";
import { listenToGestures } from "./gestures.ts";
import { overlayShapes, type StopSpot } from "./overlay.ts";
import { scaleBar } from "./scale-bar.ts";
import { streetLines, worldShapes } from "./world.ts";

/** How far a tap may be from a tree's trunk, pixels. */
const REACH_PX = 28;
const CLOSE_PX_PER_M = 12;

/** The zone drawn from the page's own numbers: moved and zoomed by hand, wheel and keys, its trees tapped, its walk shown. */
export class MapView {
  readonly root: HTMLElement;
  readonly #page: PhonePage;
  readonly #report: Report;
  readonly #world = shape("g");
  readonly #overlay = shape("g");
  readonly #scale = element("div", { class: "scale", "aria-hidden": "true" });
  readonly #said = element("p", { role: "status" });
  readonly #chosen = element("div", { class: "chosen" });
  readonly #window: HTMLElement;
  readonly #spots: readonly StopSpot[];
  readonly #streets;
  #camera: Camera | null = null;
  #number: number | null = null;
  #here: Place | null = null;
  #pick: ((place: Place | null) => void) | null = null;

  constructor(page: PhonePage, report: Report) {
    this.#page = page;
    this.#report = report;
    this.#spots = page.map.trees.map(({ at: [x, y] }, index) => ({ stop: page.stops[index]!, xM: x / 10, yM: y / 10 }));
    this.#streets = streetLines(page.map.roads);
    this.#world.append(...worldShapes(page.map));
    const svg = shape("svg", { "aria-hidden": "true" }, this.#world, this.#overlay);
    this.#window = element(
      "div",
      { class: "map-window", tabindex: 0, role: "application", "aria-label": WORDS.map.label(page.zoneName) },
      svg,
    );
    const middle = (factor: number) => () => {
      const { widthPx, heightPx } = this.#size();
      this.#zoom(factor, widthPx / 2, heightPx / 2);
    };
    this.root = element(
      "section",
      { class: "map", "aria-label": WORDS.nav.map },
      element("h1", { class: "hidden", tabindex: -1 }, WORDS.map.title(page.zoneName)),
      this.#window,
      this.#scale,
      element(
        "div",
        { class: "map-buttons" },
        button("+", middle(1.6), { "aria-label": WORDS.map.zoomIn }),
        button("−", middle(1 / 1.6), { "aria-label": WORDS.map.zoomOut }),
      ),
      element(
        "div",
        { class: "map-foot" },
        element(
          "div",
          { class: "map-words" },
          button(WORDS.map.fit, () => this.fit()),
          button(WORDS.map.here, () => this.#ask()),
        ),
        this.#said,
        this.#chosen,
      ),
    );
    listenToGestures(this.#window, {
      pan: (dx, dy) => this.#set(moved(this.#camera!, dx, dy)),
      zoom: (factor, x, y) => this.#zoom(factor, x, y),
      tap: (x, y) => this.#tap(x, y),
    });
    new ResizeObserver(() => (this.#camera === null ? this.fit() : this.draw())).observe(this.#window);
  }

  /** Shows the whole zone. */
  fit(): void {
    const size = this.#size();
    if (size.widthPx > 0) this.#set(fitted(this.#page.map.viewM, size));
  }

  /** Shows one tree from near and says which. */
  showTree(number: number): void {
    const spot = this.#spots[number - 1];
    if (spot === undefined) return;
    this.#number = number;
    this.#set({ xM: spot.xM, yM: spot.yM, pxPerM: Math.max(CLOSE_PX_PER_M, this.#camera?.pxPerM ?? 0) });
    this.#tellChosen();
  }

  /** Asks for a place under the cross in the middle; answers null when it is given up. */
  pickPlace(): Promise<Place | null> {
    this.#pick?.(null);
    return new Promise((resolve) => {
      this.#pick = (place) => {
        this.#pick = null;
        this.#tellChosen();
        resolve(place);
      };
      this.#tellChosen();
    });
  }

  draw(): void {
    if (this.#camera === null) return;
    const { xM, yM, pxPerM } = this.#camera;
    const size = this.#size();
    const scale = pxPerM / 10;
    setAttributes(this.#world, {
      transform: `translate(${size.widthPx / 2 - xM * pxPerM} ${size.heightPx / 2 - yM * pxPerM}) scale(${scale})`,
    });
    this.#overlay.replaceChildren(
      ...overlayShapes({
        camera: this.#camera,
        size,
        spots: this.#spots,
        streets: this.#streets,
        outcomeOf: (visitId) => this.#report.visit(visitId).outcome,
        chosen: this.#number,
        here: this.#here === null ? null : { ...this.#local(this.#here), accuracyM: this.#here.accuracyM ?? 0 },
        added: this.#report.marks.added.flatMap(({ place, kind, removed }) =>
          place === null || removed ? [] : [{ ...this.#local(place), kind }],
        ),
        isPicking: this.#pick !== null,
      }),
    );
    this.#scale.replaceChildren(scaleBar(pxPerM, this.#page.units));
  }

  #size(): WindowPx {
    return { widthPx: this.#window.clientWidth, heightPx: this.#window.clientHeight };
  }

  #set(camera: Camera): void {
    this.#camera = keptNear(camera, this.#page.map.viewM, 60);
    this.draw();
  }

  #zoom(factor: number, xPx: number, yPx: number): void {
    if (this.#camera !== null) this.#set(zoomedAt(this.#camera, this.#size(), factor, xPx, yPx));
  }

  #tap(xPx: number, yPx: number): void {
    if (this.#camera === null || this.#pick !== null) return;
    const camera = this.#camera;
    const near = this.#spots
      .map(({ stop, xM, yM }) => {
        const [x, y] = inWindow(camera, this.#size(), xM, yM);
        return { number: stop.number, px: Math.hypot(x - xPx, y - yPx) };
      })
      .sort((a, b) => a.px - b.px)[0];
    this.#number = near !== undefined && near.px <= REACH_PX ? near.number : null;
    this.#tellChosen();
  }

  #tellChosen(): void {
    this.draw();
    if (this.#pick !== null) {
      const take = button(WORDS.map.pickHere, () => this.#pick?.(this.#middle()));
      const cancel = button(WORDS.map.cancelPick, () => this.#pick?.(null), { class: "quiet" });
      this.#chosen.replaceChildren(element("p", {}, WORDS.map.picking), element("p", { class: "row" }, take, cancel));
      return;
    }
    const stop = this.#number === null ? undefined : this.#page.stops[this.#number - 1];
    if (stop === undefined) {
      this.#chosen.replaceChildren();
      return;
    }
    this.#chosen.replaceChildren(
      element(
        "a",
        { class: "button", href: `#tree/${stop.number}` },
        element("strong", {}, `${stop.number} ${stop.name}`),
        element("span", {}, `${stop.what} · ${stop.place}`),
      ),
    );
  }

  #middle(): Place {
    const size = this.#size();
    const [xM, yM] = onGround(this.#camera!, size, size.widthPx / 2, size.heightPx / 2);
    const { plane, originXM, originYM } = this.#page.map;
    const [lonDeg, latDeg] = toLonLat(plane, originXM + xM, originYM - yM);
    return { lonDeg: Number(lonDeg.toFixed(7)), latDeg: Number(latDeg.toFixed(7)), from: "map", accuracyM: null };
  }

  #local({ lonDeg, latDeg }: Place): { xM: number; yM: number } {
    const { plane, originXM, originYM } = this.#page.map;
    const [x, y] = toPlane(plane, lonDeg, latDeg);
    return { xM: x - originXM, yM: originYM - y };
  }

  async #ask(): Promise<void> {
    this.#said.textContent = WORDS.map.asking;
    const answer = await askHere();
    if (typeof answer === "string") {
      this.#said.textContent = WORDS.map[answer];
      return;
    }
    this.#here = answer;
    const at = this.#local(answer);
    const { units } = this.#page;
    const nearest = this.#spots
      .map(({ stop, xM, yM }) => ({ number: stop.number, distanceM: Math.hypot(xM - at.xM, yM - at.yM) }))
      .sort((a, b) => a.distanceM - b.distanceM)[0];
    const isOnMap = nearest !== undefined && nearest.distanceM < 500;
    this.#said.textContent = isOnMap
      ? `${WORDS.map.found(formatLength(answer.accuracyM ?? 0, units))} ${WORDS.map.nearest(nearest.number, formatLength(nearest.distanceM, units))}`
      : WORDS.map.away;
    if (isOnMap) this.#set({ ...this.#camera!, ...at });
  }
}
