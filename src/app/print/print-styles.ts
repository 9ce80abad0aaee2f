import { css, unsafeCSS } from "lit";
import { cssVariables } from "../../map/tokens.ts";
import { PAPERS } from "./paper.ts";

/** A rule for the size of each paper: the page's content policy lets no element carry styles of its own. */
const sizes = Object.entries(PAPERS)
  .map(([name, { widthMm, heightMm }]) => `.sheet.${name} { width: ${widthMm}mm; height: ${heightMm}mm; }`)
  .join("\n");

/** The sheet is black on white whatever the page's theme is; the bar over it keeps the page's. */
export const printStyles = css`
  section {
    position: fixed;
    inset: 0;
    z-index: 30;
    display: flex;
    flex-direction: column;
    background: var(--paper-2);
  }
  .bar {
    display: flex;
    flex: none;
    flex-wrap: wrap;
    gap: 8px 14px;
    align-items: center;
    padding: 10px 16px;
    border-bottom: 1px solid var(--edge);
    background: var(--paper);
  }
  label {
    display: flex;
    gap: 8px;
    align-items: center;
  }
  .desk {
    flex: 1;
    min-height: 0;
    padding: 20px;
    overflow: auto;
  }
  .sheet {
    ${unsafeCSS(cssVariables("print"))}
    --ink: #000;
    --ink-2: #333;
    --rule: #999;
    display: grid;
    gap: 3mm 5mm;
    margin: 0 auto;
    padding: 11mm 12mm 9mm;
    border: 1px solid var(--boughline-hairline);
    background: #fff;
    color: #000;
    color-scheme: light;
    print-color-adjust: exact;
  }
  ${unsafeCSS(sizes)}
  .lying {
    grid-template:
      "head head" auto
      "map legend" minmax(0, 1fr)
      "foot foot" auto / minmax(0, 1fr) 62mm;
  }
  .upright {
    grid-template:
      "head" auto
      "map" minmax(0, 1fr)
      "legend" auto
      "foot" auto / minmax(0, 1fr);
  }
  header {
    grid-area: head;
  }
  h1 {
    margin: 0;
    font-size: 19px;
    font-weight: 600;
    line-height: 1.2;
    overflow-wrap: anywhere;
  }
  header p {
    font-size: 12.5px;
  }
  figure {
    grid-area: map;
    position: relative;
    min-width: 0;
    min-height: 0;
    border: 1px solid #000;
    overflow: hidden;
  }
  img {
    display: block;
    width: 100%;
    height: 100%;
  }
  .wait {
    padding: 40% 0 0;
    text-align: center;
  }
  aside {
    grid-area: legend;
    overflow: hidden;
    zoom: 0.8;
  }
  .scale {
    position: absolute;
    bottom: 0;
    left: 0;
    display: flex;
    gap: 10px;
    align-items: flex-end;
    padding: 6px 12px 6px 10px;
    border: solid #000;
    border-width: 1px 1px 0 0;
    background: #fff;
    font-size: 11px;
    line-height: 1.3;
  }
  .scale p {
    display: flex;
    justify-content: space-between;
  }
  .scale svg {
    display: block;
    overflow: visible;
  }
  .north path {
    fill: none;
    stroke: #000;
    stroke-width: 1.4;
    stroke-linejoin: round;
  }
  .north .arrow {
    fill: #000;
  }
  .frame {
    fill: #fff;
    stroke: #000;
  }
  .part {
    fill: #000;
  }
  footer {
    grid-area: foot;
    display: flex;
    flex-wrap: wrap;
    gap: 1mm 8mm;
    justify-content: space-between;
    padding-top: 1.5mm;
    border-top: 1px solid #000;
    font-size: 11px;
  }
  @media (max-width: 720px) {
    .desk {
      padding: 10px;
    }
    .sheet {
      zoom: 0.42;
    }
  }
  @media print {
    section {
      position: static;
      display: block;
      background: none;
    }
    .bar {
      display: none;
    }
    .desk {
      padding: 0;
      overflow: visible;
    }
    .sheet {
      zoom: 1;
      margin: 0;
      border: 0;
      break-after: avoid;
      break-inside: avoid;
    }
  }
`;
