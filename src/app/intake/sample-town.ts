import { isoDate } from "../../core/units/calendar.ts";
import type { PlanJobRequest } from "../../worker/plan-messages.ts";
import { takeIn } from "./intake.ts";

const ADDRESSES: Readonly<Record<string, string>> = import.meta.glob("../../../sample-geojson/*.geojson", {
  query: "?url",
  import: "default",
  eager: true,
});

/** The date the invented town is looked at; its page in `sample-geojson` says the same. */
const AS_OF = isoDate("2026-11-02");

/** A plan request for the invented town that comes with the app. Throws Error when one of its files cannot be had. */
export async function sampleRequest(): Promise<PlanJobRequest> {
  const { files, columns, standardJson } = await takeIn(await sampleFiles());
  return {
    revision: 1,
    files: files.flatMap(({ name, blob, layer }) => (layer === null ? [] : [{ name, blob, layer, filter: null }])),
    columns,
    standardJson,
    options: { asOf: AS_OF, units: "us", drive: "right", place: { hardinessZone: null, region: null } },
    crs: null,
    withZones: true,
  };
}

async function sampleFiles(): Promise<{ name: string; blob: Blob }[]> {
  return Promise.all(
    Object.entries(ADDRESSES).map(async ([path, address]) => {
      const name = path.slice(path.lastIndexOf("/") + 1);
      const response = await fetch(address);
      if (!response.ok) throw new Error(`The sample town's ${name} could not be opened (${response.status}).`);
      return { name, blob: await response.blob() };
    }),
  );
}
