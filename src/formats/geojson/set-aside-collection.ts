import type { SetAside } from "../../core/model/plan.ts";
import { ownMember } from "../json/own-member.ts";
import { utf8Text } from "../json/utf8-text.ts";
import { ChunkWriter } from "./chunk-writer.ts";
import { plainFrame } from "./collection-frame.ts";
import type { GeoJsonRead } from "./geojson-read.ts";

/**
 * One FeatureCollection of the features set aside, by the reader or a later stage, in the order of the files: each with its original
 * bytes, coordinates not reprojected. An entry that is no Feature stands as the property `bough_original` of one without geometry.
 * Yields chunks of about a megabyte; set-asides of layers or ordinals that no file holds are passed over.
 */
export function* setAsideCollection(
  reads: readonly GeoJsonRead[],
  setAside: readonly SetAside[],
): Generator<Uint8Array, void, undefined> {
  const wanted = new Set(setAside.map(({ layer, ordinal }) => `${layer} ${ordinal}`));
  const { head, tail } = plainFrame();
  const writer = new ChunkWriter();
  writer.bytes(head);
  let written = 0;
  for (const read of reads) {
    const { bytes, ranges, form } = read;
    for (let index = 0; index < ranges.count; index += 1) {
      if (!wanted.has(`${read.layer} ${read.firstOrdinal + index}`)) continue;
      if (written > 0) writer.text(",\n");
      const original = bytes.subarray(ranges.start[index]!, ranges.end[index]!);
      if (form === "geometry") {
        writer.text('{"type":"Feature","properties":{},"geometry":');
        writer.bytes(original);
        writer.text("}");
      } else if (isFeature(original)) writer.bytes(original);
      else {
        writer.text('{"type":"Feature","geometry":null,"properties":{"bough_original":');
        writer.bytes(original);
        writer.text("}}");
      }
      written += 1;
      yield* writer.take();
    }
  }
  writer.bytes(tail);
  yield* writer.end();
}

const isFeature = (bytes: Uint8Array): boolean => ownMember(JSON.parse(utf8Text(bytes)), "type") === "Feature";
