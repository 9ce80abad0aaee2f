import { css, html, LitElement } from "lit";
import { customElement, property } from "lit/decorators.js";
import { sharedStyles } from "../shared-styles.ts";
import type { FormTexts } from "./plan-options.ts";

/** Date, units, side of the road and place of a plan. Fires `form-change` (detail: part of a `FormTexts`). */
@customElement("settings-form")
export class SettingsForm extends LitElement {
  static override styles = [
    sharedStyles,
    css`
      .fields {
        display: grid;
        grid-template-columns: 1fr 1fr;
        gap: 10px 14px;
      }
      label span {
        display: block;
        margin-bottom: 2px;
      }
      input,
      select {
        width: 100%;
      }
    `,
  ];

  @property({ attribute: false }) form!: FormTexts;

  protected override render() {
    const { form } = this;
    return html`<div class="fields">
      <label><span class="small">As of</span><input type="date" .value=${form.asOf} required @change=${this.on("asOf")} /></label>
      <label>
        <span class="small">Lengths in</span>
        <select @change=${this.on("units")}>
          <option value="us" .selected=${form.units !== "metric"}>Feet and inches</option>
          <option value="metric" .selected=${form.units === "metric"}>Meters</option>
        </select>
      </label>
      <label>
        <span class="small">Region (if known)</span>
        <input type="text" maxlength="6" placeholder="US-WI" spellcheck="false" .value=${form.region} @change=${this.on("region")} />
      </label>
      <label>
        <span class="small">Hardiness zone (if known)</span>
        <input type="number" min="1" max="13" step="1" inputmode="numeric" .value=${form.hardinessZone} @change=${this.on("hardinessZone")} />
      </label>
      <label>
        <span class="small">Traffic drives on the</span>
        <select @change=${this.on("drive")}>
          <option value="right" .selected=${form.drive !== "left"}>Right</option>
          <option value="left" .selected=${form.drive === "left"}>Left</option>
        </select>
      </label>
    </div>`;
  }

  private on(name: keyof FormTexts) {
    return (event: Event) => {
      const { value } = event.target as HTMLInputElement | HTMLSelectElement;
      this.dispatchEvent(new CustomEvent("form-change", { detail: { [name]: value }, bubbles: true, composed: true }));
    };
  }
}
