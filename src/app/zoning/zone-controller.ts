import type { Position } from "geojson";
import type { LitElement, ReactiveController } from "lit";
import type { ZoneEdit } from "../../core/zone/edit/zone-edit.ts";
import type { DrawingPurpose } from "../../map/zoning/drawing.ts";
import { isUndoKey } from "../../map/zoning/is-undo-key.ts";
import { type ZonePage as EditingPage, ZoneEditing } from "../../map/zoning/zone-editing.ts";

/** What the page does for the zones. */
export type ZonePage = Pick<EditingPage, "canEdit" | "show" | "open" | "tell">;

/** The reader's edits of the work zones, as the parts of the page ask for them and by key. */
export class ZoneController extends ZoneEditing implements ReactiveController {
  constructor(
    private readonly host: LitElement,
    page: ZonePage,
  ) {
    super({
      canEdit: () => {
        if (page.canEdit()) return true;
        page.tell("This plan is open in another tab, where it can be changed.");
        return false;
      },
      show: (zones, label, edit) => page.show(zones, label, edit),
      open: (zoneId) => page.open(zoneId),
      tell: (sentence) => page.tell(sentence),
      refresh: () => host.requestUpdate(),
      openWorkshop: (source) =>
        import("../../map/zoning/zone-workshop.ts").then((module) => module.openWorkshop(source)),
    });
    host.addController(this);
  }

  hostConnected() {
    for (const [name, listener] of this.listeners) this.host.addEventListener(name, listener as EventListener);
    window.addEventListener("keydown", this.onKey);
  }

  hostDisconnected() {
    for (const [name, listener] of this.listeners) this.host.removeEventListener(name, listener as EventListener);
    window.removeEventListener("keydown", this.onKey);
  }

  /** What the parts of the page ask for bubbles up to it. */
  private readonly listeners = [
    ["zone-edit", ({ detail }: CustomEvent<ZoneEdit>) => void this.edit(detail)],
    ["zone-draw", ({ detail }: CustomEvent<DrawingPurpose>) => void this.draw(detail)],
    ["zones-undo", () => this.undo()],
    ["zones-redo", () => this.redo()],
    ["notes-close", () => this.putAway()],
    ["map-shape", ({ detail }: CustomEvent<readonly Position[] | null>) => this.reshape(detail)],
    ["drawing-done", () => void this.finishDrawing()],
    ["drawing-cancel", () => this.cancelDrawing()],
  ] as const;

  private readonly onKey = (event: KeyboardEvent) => {
    if (this.drawing !== null && event.key === "Escape") this.cancelDrawing();
    if (!isUndoKey(event)) return;
    event.preventDefault();
    if (event.shiftKey) this.redo();
    else this.undo();
  };
}
