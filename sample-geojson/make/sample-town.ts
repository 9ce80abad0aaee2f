import { buildings, placeBuildings } from "./buildings.ts";
import { wires } from "./conductors.ts";
import { withFlaws } from "./flaws.ts";
import { geojsonText } from "./geojson.ts";
import { streetNetwork } from "./network.ts";
import { roads } from "./roads.ts";
import { controls, signals, signs } from "./signs.ts";
import { siteGuard } from "./site-guard.ts";
import { cornerPlants, groundTrees, streetTrees, yardTrees } from "./tree-sites.ts";
import { trees } from "./trees.ts";
import { paths, streetWalks } from "./walks.ts";

/** The files of the invented town of Sedgeholt, name to text; the same bytes on every run. */
export function sampleTown(): ReadonlyMap<string, string> {
  const { blocks, nodes } = streetNetwork();
  const controlled = controls(nodes);
  const walks = streetWalks();
  const built = placeBuildings();
  const overhead = wires(built);
  const signFeatures = signs(controlled);
  const signPoints = signFeatures.features.flatMap(({ geometry }) =>
    geometry.type === "Point" ? [geometry.point] : [],
  );

  const guard = siteGuard({ walks, built, controlled, signPoints, ...overhead });
  const sites = [
    ...cornerPlants(controlled, guard),
    ...streetTrees(blocks, guard),
    ...yardTrees(built, guard),
    ...groundTrees(guard),
  ];

  return new Map(
    Object.entries({
      "trees.geojson": withFlaws(trees(sites, guard), built),
      "buildings.geojson": buildings(built),
      "roads.geojson": roads(blocks),
      "paths.geojson": paths(walks),
      "signs.geojson": signFeatures,
      "signals.geojson": signals(controlled),
      "conductors.geojson": overhead.collection,
    }).map(([name, one]) => [name, geojsonText(one)]),
  );
}
