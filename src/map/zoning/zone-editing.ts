import type { Position } from "geojson";
import type { Zone } from "../../core/model/zone.ts";
import type { ZoneDesk } from "../../core/zone/edit/zone-desk.ts";
import type { ZoneEdit } from "../../core/zone/edit/zone-edit.ts";
import type { ZoneEditFinding, ZoneEditResult } from "../../core/zone/edit/zone-edit-result.ts";
import { redone, startedHistory, undone, withStep, type ZoneHistory } from "../../core/zone/edit/zone-history.ts";
import type { OpenedPlan } from "../../formats/plan/open-plan.ts";
import type { PlanSource } from "../../formats/plan/plan-source.ts";
import { type Drawing, type DrawingPurpose, editOfShape } from "./drawing.ts";
import { editLabel } from "./edit-label.ts";
import type { ZoneWorkshop } from "./zone-workshop.ts";

/** What the place where zones are edited does for the edits. */
export interface ZonePage {
  /** Whether the plan may be changed here; where not, it says why itself. */
  canEdit(): boolean;
  /** Shows the zones as they are now, and keeps what led to them; the edit is null for an undo or redo. */
  show(zones: readonly Zone[], label: string, edit: ZoneEdit | null): void;
  /** Opens a zone, or the list where it is gone. */
  open(zoneId: string | null): void;
  tell(sentence: string): void;
  /** Hears of an edit of which nothing was done. */
  refuse?(edit: ZoneEdit, findings: readonly ZoneEditFinding[]): void;
  /** Something that is shown has changed. */
  refresh(): void;
  /** Opens what edits are worked out with, when the first is made. */
  openWorkshop(source: PlanSource): Promise<ZoneWorkshop>;
}

/** Edits of a plan's work zones: each is worked out at once with all that follows from it, and can be undone. */
export class ZoneEditing {
  /** What the last edit had to say; empty when nothing or when it was put away. */
  findings: readonly ZoneEditFinding[] = [];
  drawing: Drawing | null = null;
  history: ZoneHistory = startedHistory([]);
  private source: PlanSource | null = null;
  private opened: OpenedPlan | null = null;
  private workshop: Promise<ZoneWorkshop> | null = null;
  /** The workshop once it stands, for what must answer while the pointer moves. */
  private ready: { readonly shop: ZoneWorkshop; readonly desk: ZoneDesk } | null = null;

  constructor(private readonly page: ZonePage) {}

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
    if (result.isRefused || result.changes.length === 0) {
      this.show({ findings: result.findings });
      if (result.isRefused) this.page.refuse?.(edit, result.findings);
      return false;
    }
    // The page turns to the zones first: one that is told of the findings while it shows the old ones would begin the history anew.
    this.history = withStep(this.history, edit, result);
    this.page.show(result.zones, editLabel(edit), edit);
    this.show({ findings: result.findings });
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
    const edit = positions === null ? null : editOfShape(drawing.purpose, positions);
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

  private turnTo(history: ZoneHistory, label: string) {
    this.history = history;
    this.page.show(history.zones, label, null);
    this.show({ findings: [] });
  }

  private mayEdit(): boolean {
    return this.page.canEdit();
  }

  /** The workshop with its desk, built when the first edit asks for it; null where the plan may not or cannot be changed. */
  private async start(): Promise<{ readonly shop: ZoneWorkshop; readonly desk: ZoneDesk } | null> {
    const { opened, source } = this;
    if (opened === null || source === null || !this.mayEdit()) return null;
    if (this.ready !== null) return this.ready;
    this.workshop ??= this.page.openWorkshop(source);
    try {
      const shop = await this.workshop;
      if (opened.plan.trees !== this.opened?.plan.trees) return null;
      this.ready ??= { shop, desk: shop.zoneDesk(opened.plan, shop.standard) };
      return this.ready;
    } catch (error) {
      this.workshop = null;
      this.page.tell(`The zones cannot be changed. ${error instanceof Error ? error.message : String(error)}`);
      return null;
    }
  }

  private show(part: Partial<Pick<ZoneEditing, "findings" | "drawing">>) {
    Object.assign(this, part);
    this.page.refresh();
  }
}

/** The zone to go on with after an edit: a new one, or null for the list when the open one went; undefined stays. */
function zoneToOpen(edit: ZoneEdit, { changes }: ZoneEditResult): string | null | undefined {
  if (edit.kind === "make") return changes.find(({ before }) => before === null)?.zoneId;
  if (edit.kind === "delete") return null;
  return edit.kind === "merge" ? edit.zoneIds[0] : undefined;
}
