import { css, html } from "lit";

export const sketchStyles = css`
  .sketch {
    display: block;
    width: 100%;
    height: auto;
  }
  .sketch .ink {
    fill: none;
    stroke: var(--ink);
    stroke-width: 1.5;
    stroke-linejoin: round;
  }
  .sketch .fine {
    fill: none;
    stroke: var(--ink);
    stroke-width: 0.9;
  }
  .sketch .crown {
    fill: var(--boughline-vegetation-fill);
    stroke: var(--ink);
    stroke-width: 1.5;
  }
  .sketch .trunk {
    fill: var(--boughline-vegetation-trunk);
    stroke: var(--ink);
  }
  .sketch .free {
    fill: var(--boughline-drawing-clearance);
    stroke: var(--ink-2);
    stroke-dasharray: 5 4;
  }
  .sketch .off {
    fill: var(--urgency-next-window);
    stroke: var(--ink);
    stroke-width: 1.25;
  }
  .sketch .wall {
    fill: var(--boughline-surroundings-building);
    stroke: var(--ink);
    stroke-width: 1.25;
  }
  .sketch text {
    fill: var(--ink);
    font-size: 18px;
  }
`;

/**
 * A street in section at 18 px a meter: a 12 m tree over a lane whose lowest 14 ft must stay free, and a wall 4 ft from its tips.
 * Decoration beside the words of an empty page.
 */
export const streetSketch = html`<svg class="sketch" viewBox="0 0 640 296" aria-hidden="true">
  <defs>
    <clipPath id="lane-space"><rect x="70" y="183" width="222" height="77" /></clipPath>
  </defs>
  <rect class="free" x="70" y="183" width="222" height="77" />
  <path class="wall" d="M448 260 V118 L520 74 L592 118 V260 Z" />
  <path class="fine" d="M472 150 h34 v36 h-34 z M534 150 h34 v36 h-34 z M505 260 v-50 h30 v50" />
  <path class="trunk" d="M320 260 L323 120 L333 120 L338 260 Z" />
  <ellipse class="crown" cx="329" cy="128" rx="97" ry="86" />
  <path class="fine" d="M329 208 V84 M329 168 L288 132 M329 150 L376 110 M329 190 L270 176 M329 184 L392 160" />
  <ellipse class="off" cx="329" cy="128" rx="97" ry="86" clip-path="url(#lane-space)" />
  <path class="ink" d="M20 266 H292 V260 H620" />
  <path class="fine" d="M292 183 H262" />
  <path class="fine" d="M180 264 h14 M150 264 h14 M210 264 h14 M120 264 h14" />
  <path class="fine" d="M386 229 a4 4 0 1 1 0.01 0 M386 229 v17 l-5 14 M386 246 l5 14 M378 240 l8 -6 l8 6" />
  <path class="fine" d="M48 183 H64 M48 266 H64 M56 183 V266 M52 187 l8 -8 M52 270 l8 -8" />
  <text x="46" y="231" text-anchor="end">14 ft</text>
  <path class="fine" d="M426 96 v32 M448 92 v22 M426 104 H448 M422 108 l8 -8 M444 108 l8 -8" />
  <text x="437" y="86" text-anchor="middle">4 ft</text>
  <text x="181" y="288" text-anchor="middle">lane</text>
  <text x="386" y="288" text-anchor="middle">walk</text>
</svg>`;
