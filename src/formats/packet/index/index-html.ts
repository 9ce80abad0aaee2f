import type { Drawing } from "../../../core/crown/drawing.ts";
import { drawingToSvg, escapeText } from "../../../core/crown/drawing-to-svg.ts";
import type { IndexedZone, PacketsIndex } from "../../../core/packet/index/packets-index.ts";
import { OUTLINE_WORDS } from "../../../core/packet/index/zones-map.ts";
import type { PacketFile } from "../../../core/packet/packet-manifest.ts";
import { CLOSURE_WORDS, CREW_WORDS, capitalized, URGENCY_WORDS, unique } from "../../../core/packet/packet-words.ts";
import { formatDate } from "../../../core/units/format-date.ts";
import shell from "../../phone/phone-shell.json" with { type: "json" };
import { sourceHash } from "../../source-hash.ts";
import { INDEX_STYLE } from "./index-style.ts";

const STATE_WORDS: Readonly<Record<IndexedZone["state"], string>> = {
  draft: "Draft, not issued",
  issued: "Issued",
  "under-way": "Under way",
  done: "Done",
};

/**
 * The page on which contractors find their packets: one HTML document with its own type, style and map, no script, nothing fetched. Links are names
 * of files beside it. Texts of the plan are escaped.
 */
export async function indexHtml(index: PacketsIndex, map: Drawing): Promise<string> {
  const style = `${shell.base}\n${INDEX_STYLE}`;
  const policy = `default-src 'none'; style-src ${await sourceHash(style)}; font-src data:; base-uri 'none'; form-action 'none'`;
  const numbers = new Map(index.zones.map(({ zoneId }, at) => [zoneId, at + 1]));
  const crews = unique(index.zones.map(({ crew }) => crew)) as IndexedZone["crew"][];
  return [
    "<!doctype html>",
    '<html lang="en">',
    "<head>",
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${policy}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    '<meta name="referrer" content="no-referrer">',
    '<meta name="robots" content="noindex">',
    `<title>${escapeText(`Work packets, revision ${index.revision}`)}</title>`,
    `<style>${style}</style>`,
    "</head>",
    "<body><main>",
    head(index, map),
    ...crews.map((crew) => {
      const zones = index.zones.filter((zone) => zone.crew === crew);
      return `<section><h2>${capitalized(CREW_WORDS[crew])} <span>${countOf(zones)}</span></h2>\n<ol>\n${zones
        .map((zone) => zoneItem(zone, numbers.get(zone.zoneId)!))
        .join("\n")}\n</ol></section>`;
    }),
    "</main></body>",
    "</html>",
    "",
  ].join("\n");
}

function countOf(zones: readonly IndexedZone[]): string {
  const sum = (of: (zone: IndexedZone) => number): number => zones.reduce((total, zone) => total + of(zone), 0);
  const [hours, trees] = [sum((zone) => zone.hours), sum((zone) => zone.trees)];
  return `${zones.length} ${zones.length === 1 ? "zone" : "zones"}, ${trees} ${trees === 1 ? "tree" : "trees"}, ${hours.toFixed(1)} crew-hours`;
}

function head(index: PacketsIndex, map: Drawing): string {
  const { planId, revision, asOf, zones, notPacked } = index;
  const missing =
    notPacked.length === 0
      ? ""
      : `<p>${notPacked.length} ${notPacked.length === 1 ? "zone" : "zones"} of the plan without a packet here.</p>`;
  return `<div class="head"><header>
<h1>Work packets</h1>
<p>${escapeText(countOf(zones))}.</p>
<p class="quiet">Plan ${escapeText(planId)}, revision ${revision}, as of <time datetime="${escapeText(asOf)}">${escapeText(formatDate(asOf))}</time>.</p>
${missing}
<p class="caution">A packet holds only while revision ${revision} is the newest: ask the office before work starts. A draft is for looking at; work begins from an issued packet. It plans work and does not say that a place is safe: local codes, the road authority and licensed or line-clearance arborists decide.</p>
<p>The zip has everything. The sheets print in black and white; the phone page works without a signal once it is saved on the phone.</p>
<p><a href="index.json">The same list as data</a></p>
</header>
<figure>${drawingToSvg(map, { idPrefix: "zones", title: "Map of the work zones" })}<figcaption>Numbers as in the list. ${OUTLINE_WORDS}</figcaption></figure></div>`;
}

function zoneItem(zone: IndexedZone, number: number): string {
  const { packet, sheets, phone } = zone.files;
  const facts: (readonly [string, string])[] = [
    ["Due", `${formatDate(zone.due)}${zone.overdue ? ", overdue" : ""}`],
    ["Allowed", `${formatDate(zone.windowStart)} – ${formatDate(zone.windowEnd)}`],
    [
      "Work",
      `${zone.hours.toFixed(1)} h, ${zone.trees} ${zone.trees === 1 ? "tree" : "trees"}, ${URGENCY_WORDS[zone.urgency]}`,
    ],
    ["Traffic", CLOSURE_WORDS[zone.closure]],
  ];
  const streets = zone.streets.length === 0 ? "Off the street network" : zone.streets.join(", ");
  return `<li class="zone" id="${escapeText(zone.zoneId)}"><span class="number">${number}</span>
<div><h3>${escapeText(zone.name)}</h3><p class="quiet">${escapeText(streets)}</p><span class="state ${zone.state}">${STATE_WORDS[zone.state]}</span></div>
<dl>${facts.map(([label, value]) => `<dt>${label}</dt><dd${label === "Due" && zone.overdue ? ' class="late"' : ""}>${escapeText(value)}</dd>`).join("")}</dl>
<div class="links">${link(packet, `Packet of ${zone.name}`, "Packet", "zip", ' class="packet"')}${link(sheets, `Sheets of ${zone.name}`, "Sheets to print", "PDF")}${link(phone, `Phone page of ${zone.name}`, "Phone page", "HTML")}</div>${otherLanguages(zone)}
<details><summary>Check sums (SHA-256), zone ${escapeText(zone.zoneId)}</summary>${[packet, sheets, phone].map(({ name, sha256 }) => `<p>${escapeText(name)}<br><code>${escapeText(sha256)}</code></p>`).join("")}</details></li>`;
}

/** Names of languages in themselves. */
const LANGUAGE_NAMES: Readonly<Record<string, string>> = { en: "English", es: "Español" };

const otherLanguages = ({ name, files }: IndexedZone): string =>
  Object.entries(files.inLanguage ?? {})
    .map(([language, { packet, sheets, phone }]) => {
      const named = LANGUAGE_NAMES[language] ?? language;
      return `<div class="links" lang="${escapeText(language)}">${link(packet, `${named}: ${name}`, named, "zip")}${link(sheets, `${named}: ${name}`, named, "PDF")}${link(phone, `${named}: ${name}`, named, "HTML")}</div>`;
    })
    .join("");

const link = (file: PacketFile, label: string, words: string, kind: string, attributes = ""): string =>
  `<a href="${escapeText(encodeURIComponent(file.name))}" aria-label="${escapeText(`${label}, ${kind}, ${sizeText(file.bytes)}`)}"${attributes}>${words} <span>${kind}, ${sizeText(file.bytes)}</span></a>`;

/** Kilobytes and megabytes of 1,000 and 1,000,000 bytes. */
const sizeText = (bytes: number): string =>
  bytes < 1_000_000 ? `${Math.max(1, Math.round(bytes / 1000))} kB` : `${(bytes / 1_000_000).toFixed(1)} MB`;
