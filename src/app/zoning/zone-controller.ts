import type { Position } from "geojson";
import type { LitElement, ReactiveController } from "lit";
import type { Zone } from "../../core/model/zone.ts";
import type { ZoneDesk } from "../../core/zone/edit/zone-desk.ts";
import type { ZoneEdit } from "../../core/zone/edit/zone-edit.ts";
import type { ZoneEditFinding, ZoneEditResult } from "../../core/zone/edit/zone-edit-result.ts";
import { redone, startedHistory, undone, withStep, type ZoneHistory } from "../../core/zone/edit/zone-history.ts";
import type { OpenedPlan } from "../../formats/plan/open-plan.ts";
import type { PlanSource } from "../../formats/plan/plan-source.ts";
import { editLabel } from "./edit-label.ts";
import type { ZoneWorkshop } from "./workshop.ts";

/** What a drawn shape is for. */
export type DrawingPurpose =
  | { readonly for: "make" }
  | { readonly for: "add"; readonly zoneId: string }
  | { readonly for: "split"; readonly zoneId: string };

/** A shape being drawn, and what it would do as it stands. */
export interface Drawing {
  readonly purpose: DrawingPurpose;
  /** Null while it has too few corners. */
  readonly edit: ZoneEdit | null;
  readonly result: ZoneEditResult | null;
}

/** What the page does for the zones. */
export interface ZonePage {
  /** Whether the plan may be changed here. */
  canEdit(): boolean;
  /** Shows the zones as they are now, and keeps what led to them. */
  show(zones: readonly Zone[], label: string): void;
  /** Opens a zone, or the list where it is gone. */
  open(zoneId: string | null): void;
  tell(sentence: string): void;
}

/** The reader's edits of the work zones: each is worked out at once with all that follows from it, and can be undone. */
export class ZoneController implements ReactiveController {
  /** What the last edit had to say; empty when nothing or when it was put away. */
  findings: readonly ZoneEditFinding[] = [];
  drawing: Drawing | null = null;
  history: ZoneHistory = startedHistory([]);
  private source: PlanSource | null = null;
  private opened: OpenedPlan | null = null;
  private workshop: Promise<ZoneWorkshop | null> | null = null;
  /** The workshop once it stands, for what must answer while the pointer moves. */
  private ready: { readonly shop: ZoneWorkshop; readonly desk: ZoneDesk } | null = null;

  constructor(
    private readonly host: LitElement,
    private readonly page: ZonePage,
  ) {
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

  /** Turns to a plan, or to the same plan with its zones as somebody else left them. */
  follow(opened: OpenedPlan, source: PlanSource) {
    const isSamePlan = this.opened?.plan.trees === opened.plan.trees;
    this.opened = opened;
    this.source = source;
    if (isSamePlan && opened.plan.zones === this.history.zones) return;
    this.history = startedHistory(opened.plan.zones);
    this.findings = [];
    this.drawing = null;
    if (isSamePlan) return;
    this.workshop = null;
    this.ready = null;
  }

  /** Applies an edit; what it refuses or doubts is shown. True when something changed. */
  async edit(edit: ZoneEdit): Promise<boolean> {
    const ready = await this.start();
    if (ready === null) return false;
    const result = ready.shop.applyZoneEdit(ready.desk, this.history.zones, edit);
    this.history = withStep(this.history, edit, result);
    this.show({ findings: result.findings });
    if (result.isRefused || result.changes.length === 0) return false;
    this.page.show(result.zones, editLabel(edit));
    const opens = zoneToOpen(edit, result);
    if (opens !== undefined) this.page.open(opens);
    return true;
  }

  /** What {@link undo} would take back, in words; null where there is nothing. */
  get undoes(): string | null {
    const last = this.history.past.at(-1);
    return last === undefined ? null : editLabel(last.edit);
  }

  get redoes(): string | null {
    const [next] = this.history.future;
    return next === undefined ? null : editLabel(next.edit);
  }

  undo() {
    const last = this.history.past.at(-1);
    if (last === undefined || !this.mayEdit()) return;
    this.turnTo(undone(this.history), `Undo: ${editLabel(last.edit)}`);
  }

  redo() {
    const [next] = this.history.future;
    if (next === undefined || !this.mayEdit()) return;
    this.turnTo(redone(this.history), `Redo: ${editLabel(next.edit)}`);
  }

  putAway() {
    this.show({ findings: [] });
  }

  /** Begins to draw; the shape is told to {@link reshape}. */
  async draw(purpose: DrawingPurpose): Promise<void> {
    if ((await this.start()) === null) return;
    this.show({ drawing: { purpose, edit: null, result: null }, findings: [] });
  }

  /** The shape changed: says what it would do, without doing it. */
  reshape(positions: readonly Position[] | null) {
    const { drawing, ready } = this;
    if (drawing === null || ready === null) return;
    const edit = positions === null ? null : editOf(drawing.purpose, positions);
    const result = edit === null ? null : ready.shop.applyZoneEdit(ready.desk, this.history.zones, edit);
    this.show({ drawing: { ...drawing, edit, result } });
  }

  /** Does what the shape stands for; a shape that does nothing stays, with the reason. */
  async finishDrawing(): Promise<void> {
    const edit = this.drawing?.edit ?? null;
    if (edit === null) return;
    if (await this.edit(edit)) this.show({ drawing: null });
  }

  cancelDrawing() {
    this.show({ drawing: null });
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
    const isUndo = (event.ctrlKey || event.metaKey) && !event.altKey && event.key.toLowerCase() === "z";
    // In a field the keys are the browser's own.
    if (!isUndo || isTyping(event)) return;
    event.preventDefault();
    if (event.shiftKey) this.redo();
    else this.undo();
  };

  private turnTo(history: ZoneHistory, label: string) {
    this.history = history;
    this.show({ findings: [] });
    this.page.show(history.zones, label);
  }

  private mayEdit(): boolean {
    if (this.page.canEdit()) return true;
    this.page.tell("This plan is open in another tab, where it can be changed.");
    return false;
  }

  /** The workshop with its desk, built when the first edit asks for it; null where the plan may not or cannot be changed. */
  private async start(): Promise<{ readonly shop: ZoneWorkshop; readonly desk: ZoneDesk } | null> {
    const { opened, source } = this;
    if (opened === null || source === null || !this.mayEdit()) return null;
    if (this.ready !== null) return this.ready;
    this.workshop ??= import("./workshop.ts").then(({ openWorkshop }) => openWorkshop(source));
    try {
      const shop = await this.workshop;
      if (shop === null || opened.plan.trees !== this.opened?.plan.trees) return null;
      this.ready ??= { shop, desk: shop.zoneDesk(opened.plan, shop.standard) };
      return this.ready;
    } catch (error) {
      this.workshop = null;
      this.page.tell(`The zones cannot be changed. ${error instanceof Error ? error.message : String(error)}`);
      return null;
    }
  }

  private show(part: Partial<Pick<ZoneController, "findings" | "drawing">>) {
    Object.assign(this, part);
    this.host.requestUpdate();
  }
}

const isTyping = (event: KeyboardEvent): boolean =>
  event.composedPath().some((part) => part instanceof HTMLElement && part.matches("input, textarea, dialog"));

function editOf(purpose: DrawingPurpose, positions: readonly Position[]): ZoneEdit {
  if (purpose.for === "split") return { kind: "split", zoneId: purpose.zoneId, at: { by: "line", line: positions } };
  const trees = { within: [positions] };
  return purpose.for === "make" ? { kind: "make", trees } : { kind: "add", zoneId: purpose.zoneId, trees };
}

/** The zone to go on with after an edit: a new one, or null for the list when the open one went; undefined stays. */
function zoneToOpen(edit: ZoneEdit, { changes }: ZoneEditResult): string | null | undefined {
  if (edit.kind === "make") return changes.find(({ before }) => before === null)?.zoneId;
  if (edit.kind === "delete") return null;
  return edit.kind === "merge" ? edit.zoneIds[0] : undefined;
}
