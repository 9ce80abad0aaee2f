import { SPANISH } from "../../core/language/es/spanish.ts";
import type { Language } from "../../core/language/language.ts";
import { type Translator, translatorFor } from "../../core/language/translator.ts";
import type { Plan } from "../../core/model/plan.ts";
import type { Zone } from "../../core/model/zone.ts";
import { inspectionContent } from "../../core/packet/inspection-content.ts";
import { namesOfPlan } from "../../core/packet/language/names-of-plan.ts";
import { translateContent } from "../../core/packet/language/translate-content.ts";
import { translatePhonePage } from "../../core/packet/language/translate-phone-page.ts";
import { packetContent } from "../../core/packet/packet-content.ts";
import { packetManifest } from "../../core/packet/packet-manifest.ts";
import { PACKET_COLUMNS, rowsOf } from "../../core/packet/packet-rows.ts";
import { type PhonePage, phonePage } from "../../core/packet/phone/phone-page.ts";
import { zoneStops } from "../../core/packet/zone-stops.ts";
import type { Standard } from "../../core/standard/standard.ts";
import { writeCsv } from "../csv.ts";
import type { FontSet } from "../pdf/font-set.ts";
import { drawPacketPdf } from "../pdf/packet-pdf.ts";
import type { Paper } from "../pdf/sheet.ts";
import { phoneHtml } from "../phone/phone-html.ts";
import { safeFileName } from "../safe-file-name.ts";
import { sha256 } from "../sha256.ts";
import { type ZipFile, zip } from "../zip.ts";
import { packetGeoJson } from "./packet-geojson.ts";
import { packetGpx } from "./packet-gpx.ts";
import { packetKml } from "./packet-kml.ts";

export interface BuiltPacket {
  /** Safe on every system; made of the zone's id and name. */
  readonly name: string;
  /** A zip archive. */
  readonly bytes: Uint8Array;
  /** Two of its files by themselves: the printed sheets and the phone page. */
  readonly sheets: Uint8Array;
  readonly phone: Uint8Array;
  /** Characters of the plan's texts that no font has, as `U+hhhh`; on paper each is a box. */
  readonly charactersNotDrawn: readonly string[];
  /** Clauses that stand in English because the language's catalog does not have them. */
  readonly notTranslated: readonly string[];
}

/**
 * A zone's packet as one zip, its sheets and phone page in `language`: printed sheets, phone page, GeoJSON, CSV, GPX, KML, and a manifest with the SHA-256 of each. The same plan,
 * zone and fonts give the same bytes on one runtime. Throws RangeError for a zone that names a visit the plan does not have.
 */
export async function buildPacket(
  plan: Plan,
  zone: Zone,
  standard: Standard,
  fonts: FontSet,
  options: { readonly paper: Paper; readonly language?: Language; readonly isInspection?: boolean },
): Promise<BuiltPacket> {
  const { language = "en" } = options;
  const translator = language === "en" ? null : translatorFor(CATALOGS[language], namesOfPlan(plan, zone));
  const stops = zoneStops(plan, zone);
  const work = packetContent(plan, zone, standard);
  const english = options.isInspection === true ? inspectionContent(work, stops) : work;
  const content = translator === null ? english : translateContent(english, translator);
  const say = translator?.text;
  const pdf = await drawPacketPdf(content, fonts, {
    paper: options.paper,
    asOf: plan.options.asOf,
    ...(say && { say }),
  });
  const rows = rowsOf(stops);
  const csv = writeCsv(
    PACKET_COLUMNS,
    rows.map(({ cells }) => cells),
  );
  const phone = utf8(
    await phoneHtml(inLanguage(phonePage(plan, zone, english, stops, options.isInspection), translator)),
  );
  const files: ZipFile[] = [
    { name: "sheets.pdf", bytes: pdf.bytes },
    { name: "phone.html", bytes: phone },
    { name: "zone.geojson", bytes: utf8(`${JSON.stringify(packetGeoJson(zone, stops), null, 1)}\n`) },
    { name: "order-of-work.csv", bytes: utf8(csv) },
    { name: "trees.gpx", bytes: utf8(packetGpx(plan, zone, rows)) },
    { name: "zone.kml", bytes: utf8(packetKml(plan, zone, rows)) },
  ];
  const listed = await Promise.all(
    files.map(async ({ name, bytes }) => ({ name, bytes: bytes.length, sha256: await sha256(bytes) })),
  );
  const notTranslated = [...(translator?.untranslated ?? [])];
  const manifest = packetManifest(plan, zone, listed, pdf.charactersNotDrawn, language, notTranslated);
  return {
    name: safeFileName(
      `${zone.zoneId} ${zone.name}`
        .slice(0, 50)
        .trim()
        .concat(language === "en" ? ".zip" : ` ${language}.zip`),
      new Set(),
    ),
    bytes: zip([...files, { name: "manifest.json", bytes: utf8(`${JSON.stringify(manifest, null, 2)}\n`) }]),
    sheets: pdf.bytes,
    phone,
    charactersNotDrawn: pdf.charactersNotDrawn,
    notTranslated,
  };
}

const CATALOGS = { es: SPANISH };

const inLanguage = (page: PhonePage, translator: Translator | null): PhonePage =>
  translator === null ? page : translatePhonePage(page, translator);

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
