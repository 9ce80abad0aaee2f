import { LAYERS } from "../../core/model/terms.ts";
import { type Filter, parseFilter } from "../../formats/filter.ts";
import type { GeoJsonRead } from "../../formats/geojson/geojson-read.ts";
import { readLayerFile } from "../../formats/read/read-layer-file.ts";
import { columnChoices } from "./column-choices.ts";
import type { IntakeSource, SourceReport } from "./intake-messages.ts";

/** One source as read, or why it cannot be. */
export interface SourceReading {
  readonly key: string;
  readonly read: GeoJsonRead | null;
  readonly fault: SourceReport["fault"];
  readonly choices: SourceReport["choices"];
}

/** The sources of an intake as read, each kept until what it is read by changes. */
export class SourceReads {
  private kept = new Map<string, { readonly by: string; readonly reading: SourceReading }>();
  /** What a person can pick from, of the last reading without a filter. */
  private readonly choices = new Map<string, SourceReport["choices"]>();

  constructor(private readonly onDoing: (doing: string) => void = () => {}) {}

  /** Every source in the order of the layers, as a run reads them; null when `isCurrent` turns false on the way. */
  async read(sources: readonly IntakeSource[], isCurrent: () => boolean): Promise<SourceReading[] | null> {
    const readings: SourceReading[] = [];
    const kept: typeof this.kept = new Map();
    for (const layer of LAYERS) {
      let firstOrdinal = 0;
      for (const source of sources.filter((one) => one.layer === layer)) {
        const reading = await this.reading(source, firstOrdinal, isCurrent);
        if (reading === null) return null;
        kept.set(source.key, { by: readBy(source, firstOrdinal), reading });
        readings.push(reading);
        firstOrdinal += reading.read?.counts.features ?? 0;
      }
    }
    this.kept = kept;
    return readings;
  }

  private async reading(
    source: IntakeSource,
    firstOrdinal: number,
    isCurrent: () => boolean,
  ): Promise<SourceReading | null> {
    const before = this.kept.get(source.key);
    if (before?.by === readBy(source, firstOrdinal)) return before.reading;
    this.onDoing(`Reading ${source.name}`);
    // Lets a newer question in before a file of a hundred megabytes is read for nothing.
    await new Promise((resolve) => setTimeout(resolve, 0));
    if (!isCurrent()) return null;
    return this.readNow(source, firstOrdinal);
  }

  private async readNow(source: IntakeSource, firstOrdinal: number): Promise<SourceReading> {
    const { key, layer, name: file, table, crs } = source;
    const failed = (reason: string, whatToDo: string): SourceReading => ({
      key,
      read: null,
      fault: { reason, whatToDo },
      choices: this.choices.get(this.contentOf(source)) ?? [],
    });
    try {
      const filter: Filter | null = source.filter === null ? null : parseFilter(source.filter);
      const bytes = new Uint8Array(await source.blob.arrayBuffer());
      const read = await readLayerFile(bytes, { layer, file, filter, firstOrdinal, crs, table });
      if (read.fault !== null) return failed(read.fault.reason, read.fault.whatToDo);
      if (filter === null) this.choices.set(this.contentOf(source), columnChoices(read.features));
      return { key, read, fault: null, choices: this.choices.get(this.contentOf(source)) ?? [] };
    } catch (error) {
      if (error instanceof RangeError) return failed(error.message, "Correct it, or take it out.");
      if (error instanceof DOMException)
        return failed("The file cannot be read any more; it was moved or changed.", "Add it again.");
      throw error;
    }
  }

  private readonly contentOf = ({ key, table }: IntakeSource): string => `${key}\n${table ?? ""}`;
}

/** All that decides how a source is read. */
const readBy = ({ layer, filter, table, crs }: IntakeSource, firstOrdinal: number): string =>
  JSON.stringify([layer, filter, table, crs, firstOrdinal]);
