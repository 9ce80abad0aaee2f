import { html, LitElement, nothing } from "lit";
import { property, state } from "lit/decorators.js";
import { live } from "lit/directives/live.js";
import { ZONE_STATES, type ZoneState } from "../../core/model/terms.ts";
import type { Zone } from "../../core/model/zone.ts";
import { type IsoDate, parseIsoDate } from "../../core/units/calendar.ts";
import type { ZoneEdit } from "../../core/zone/edit/zone-edit.ts";
import { capitalized, counted, readableHours } from "../readable.ts";
import { DEFAULT_WORDS as WORDS } from "../words.ts";
import { controlStyles } from "./control-styles.ts";
import type { DrawingPurpose } from "./drawing.ts";
import { zoneToolsStyles } from "./zone-tools-styles.ts";

/** Zones that are offered to merge with, the nearest first. */
const MOST_NEIGHBORS = 12;

/** All that can be changed about a zone as a whole. Fires `zone-edit` (detail: a ZoneEdit) and `zone-draw` (detail: what the shape is for). */
export class ZoneTools extends LitElement {
  static override styles = [controlStyles, zoneToolsStyles];

  @property({ attribute: false }) zone: Zone | null = null;
  @property({ attribute: false }) zones: readonly Zone[] = [];
  @state() private isRenaming = false;
  @state() private isDeleting = false;

  protected override willUpdate(changed: Map<string, unknown>) {
    const before = changed.get("zone") as Zone | null | undefined;
    if (!changed.has("zone") || before?.zoneId === this.zone?.zoneId) return;
    this.isRenaming = false;
    this.isDeleting = false;
  }

  protected override render() {
    const { zone } = this;
    if (zone === null) return nothing;
    const { zoneId } = zone;
    return html`<section aria-label="Change this zone">
      <div class="fields">
        <label>
          <span>State</span>
          <select @change=${(event: Event) => this.setState(zoneId, event)}>
            ${ZONE_STATES.map(
              (one) =>
                html`<option value=${one} .selected=${live(one === zone.state)}>${capitalized(WORDS.zoneState[one])}</option>`,
            )}
          </select>
        </label>
        <label>
          <span>Planned on</span>
          <input
            type="date"
            .value=${live(zone.plannedOn ?? "")}
            @change=${(event: Event) => this.edit({ kind: "set-dates", zoneId, plannedOn: dateIn(event) })}
          />
        </label>
        <label>
          <span>Not before</span>
          <input type="date" .value=${live(zone.askedWindow?.start ?? "")} @change=${(event: Event) => this.setWindow(zone, "start", event)} />
        </label>
        <label>
          <span>Not after</span>
          <input type="date" .value=${live(zone.askedWindow?.end ?? "")} @change=${(event: Event) => this.setWindow(zone, "end", event)} />
        </label>
        <label class="lock">
          <input
            type="checkbox"
            .checked=${live(zone.isLocked === true)}
            @change=${(event: Event) =>
              this.edit({ kind: "lock", zoneId, isLocked: (event.target as HTMLInputElement).checked })}
          />
          <span>Locked: nothing moves in or out</span>
        </label>
      </div>
      ${this.isRenaming ? this.renaming(zone) : nothing}
      <div class="tools">
        <button type="button" class="word" @click=${() => this.rename()}>Rename</button>
        <button type="button" class="word" @click=${() => this.draw({ for: "add", zoneId })}>Add trees on the map</button>
        ${this.splitMenu(zoneId)} ${this.mergeMenu(zone)}
        <button type="button" class="word" @click=${() => this.startDelete()}>Delete</button>
      </div>
      ${
        this.isDeleting
          ? html`<div class="sure">
            <p>Its ${counted(zone.treeIds.length, "tree")} will be in no zone.</p>
            <button type="button" class="button" @click=${() => this.edit({ kind: "delete", zoneId })}>Delete the zone</button>
            <button type="button" class="word" @click=${() => this.keep()}>Keep it</button>
          </div>`
          : nothing
      }
    </section>`;
  }

  private renaming({ zoneId, name }: Zone) {
    const done = (event: Event) => {
      event.preventDefault();
      const input = this.renderRoot.querySelector<HTMLInputElement>("input[name=name]");
      this.isRenaming = false;
      if (input !== null && input.value.trim() !== name)
        this.edit({ kind: "rename", zoneId, name: input.value.trim() });
    };
    return html`<form @submit=${done}>
      <label><span class="unseen">New name</span><input name="name" maxlength="60" required .value=${name} /></label>
      <button class="button">Rename</button>
    </form>`;
  }

  private splitMenu(zoneId: string) {
    const split = (value: string) => {
      if (value === "line") this.draw({ for: "split", zoneId });
      else if (value === "days" || value === "islands") this.edit({ kind: "split", zoneId, at: { by: value } });
    };
    return html`<select class="menu" aria-label="Split" @change=${(event: Event) => split(chosen(event))}>
      <option value="">Split</option>
      <option value="line">Along a line I draw</option>
      <option value="days">Into crew-days</option>
      <option value="islands">Where its work lies far apart</option>
    </select>`;
  }

  private mergeMenu(zone: Zone) {
    const near = nearest(zone, this.zones);
    if (near.length === 0) return nothing;
    return html`<select
      class="menu"
      aria-label="Merge with"
      @change=${(event: Event) => {
        const other = chosen(event);
        if (other !== "") this.edit({ kind: "merge", zoneIds: [zone.zoneId, other] });
      }}
    >
      <option value="">Merge with</option>
      ${near.map(
        ({ zoneId, name, hours, crew }) =>
          html`<option value=${zoneId}>${name} (${readableHours(hours)}, ${WORDS.crew[crew]})</option>`,
      )}
    </select>`;
  }

  private async rename() {
    this.isRenaming = !this.isRenaming;
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLInputElement>("input[name=name]")?.select();
  }

  private async startDelete() {
    this.isDeleting = true;
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>(".sure .word")?.focus();
  }

  private keep() {
    this.isDeleting = false;
  }

  private setState(zoneId: string, event: Event) {
    const select = event.target as HTMLSelectElement;
    const asked = select.value as ZoneState;
    // What is refused must not stay on the screen as if it had been done.
    select.value = this.zone?.state ?? asked;
    this.edit({ kind: "set-state", zoneId, state: asked });
  }

  private setWindow({ zoneId, askedWindow, windowStart, windowEnd }: Zone, side: "start" | "end", event: Event) {
    const date = dateIn(event);
    const other = side === "start" ? (askedWindow?.end ?? windowEnd) : (askedWindow?.start ?? windowStart);
    const window = date === null ? null : side === "start" ? { start: date, end: other } : { start: other, end: date };
    this.edit({ kind: "set-dates", zoneId, askedWindow: window });
  }

  private edit(edit: ZoneEdit) {
    this.emit("zone-edit", edit);
  }

  private draw(purpose: DrawingPurpose) {
    this.emit("zone-draw", purpose);
  }

  private emit(name: string, detail: unknown) {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}

const dateIn = (event: Event): IsoDate | null => parseIsoDate((event.target as HTMLInputElement).value);

/** The value chosen in a select that goes back to its title at once. */
function chosen(event: Event): string {
  const select = event.target as HTMLSelectElement;
  const { value } = select;
  select.value = "";
  return value;
}

/** Other zones by the distance between first corners, in degrees: good enough to order neighbors. */
function nearest(zone: Zone, zones: readonly Zone[]): Zone[] {
  const corner = ({ area }: Zone) => area.coordinates[0]?.[0]?.[0] ?? [0, 0];
  const [lon = 0, lat = 0] = corner(zone);
  const squeeze = Math.cos((lat * Math.PI) / 180);
  const away = (other: Zone) => {
    const [otherLon = 0, otherLat = 0] = corner(other);
    return Math.hypot((otherLon - lon) * squeeze, otherLat - lat);
  };
  return zones
    .filter(({ zoneId }) => zoneId !== zone.zoneId)
    .map((other) => ({ other, away: away(other) }))
    .sort((a, b) => a.away - b.away)
    .slice(0, MOST_NEIGHBORS)
    .map(({ other }) => other);
}
