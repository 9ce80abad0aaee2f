import type { Finding } from "../../../core/model/finding.ts";
import { PlanCounter } from "../../../core/plan/plan-counts.ts";
import { VISIT_COLUMNS } from "../../../core/plan/plan-tables.ts";
import { addSpans, type SpanSums } from "../../../core/plan/span-sums.ts";
import { WorkloadSums } from "../../../core/schedule/workload.ts";
import { csvLine } from "../../csv.ts";
import type { GeoJsonRead } from "../../geojson/geojson-read.ts";
import { FeatureSplicer } from "../../geojson/splice-features.ts";
import { COLLECTION } from "../plan-files.ts";
import type { PlanSink } from "../plan-sink.ts";
import type { EncodedPart } from "./encoded-part.ts";

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

/** Writes the parts of a plan without zones into its files, in the order of the trees, and adds up what is told of all. */
export class PlanWriter {
  readonly counts = new PlanCounter();
  readonly loads = new WorkloadSums();
  readonly spans = new Map<string, SpanSums>();
  readonly findings: Finding[] = [];
  readonly #splicer: FeatureSplicer;
  #file = 0;
  #hasConflicts = false;

  /** `reads` are the files of the trees layer. */
  constructor(
    readonly sink: PlanSink,
    readonly reads: readonly GeoJsonRead[],
  ) {
    this.#splicer = new FeatureSplicer(reads);
    sink.write("conflicts.geojson", bytesOf(COLLECTION.head));
    sink.write("prescriptions.jsonl", new Uint8Array(0));
    sink.write("visits.csv", bytesOf(csvLine(VISIT_COLUMNS)));
  }

  add(part: EncodedPart): void {
    const { sink } = this;
    this.#addTrees(part);
    if (part.conflicts.length > 0) {
      if (this.#hasConflicts) sink.write("conflicts.geojson", bytesOf(",\n"));
      sink.write("conflicts.geojson", part.conflicts);
      this.#hasConflicts = true;
    }
    sink.write("prescriptions.jsonl", part.prescriptions);
    sink.write("visits.csv", part.visits);
    this.counts.add(part.counts);
    this.loads.add(part.loads);
    addSpans(this.spans, part.spans);
    for (const finding of part.findings) this.findings.push(finding);
  }

  /** Writes what stands behind the last part. */
  end(): void {
    this.sink.write("conflicts.geojson", bytesOf(COLLECTION.tail));
    for (const bytes of this.#splicer.end()) this.sink.write("trees.geojson", bytes);
  }

  #addTrees({ ordinals, members, memberEnds }: EncodedPart): void {
    let start = 0;
    for (let at = 0; at < ordinals.length; at += 1) {
      const end = memberEnds[at]!;
      const read = this.#readOf(ordinals[at]!);
      this.#splicer.write(read, ordinals[at]! - read.firstOrdinal, members.subarray(start, end));
      start = end;
    }
    for (const bytes of this.#splicer.take()) this.sink.write("trees.geojson", bytes);
  }

  #readOf(ordinal: number): GeoJsonRead {
    for (; this.#file < this.reads.length; this.#file += 1) {
      const read = this.reads[this.#file]!;
      if (ordinal < read.firstOrdinal + read.counts.features) return read;
    }
    throw new RangeError(`Expected a tree of the layer in order, got ${ordinal}`);
  }
}
