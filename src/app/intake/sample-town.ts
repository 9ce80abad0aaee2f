const ADDRESSES: Readonly<Record<string, string>> = import.meta.glob("../../../sample-geojson/*.geojson", {
  query: "?url",
  import: "default",
  eager: true,
});

/** The date the invented town is looked at. */
export const SAMPLE_AS_OF = "2026-11-02";

/** The files of the invented town that comes with the app. Throws Error when one cannot be had. */
export async function sampleTown(): Promise<{ name: string; blob: Blob }[]> {
  return Promise.all(
    Object.entries(ADDRESSES).map(async ([path, address]) => {
      const name = path.slice(path.lastIndexOf("/") + 1);
      const response = await fetch(address);
      if (!response.ok) throw new Error(`The sample town's ${name} could not be opened (${response.status}).`);
      return { name, blob: await response.blob() };
    }),
  );
}
