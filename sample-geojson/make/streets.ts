import type { RoadClass } from "../../src/core/model/surroundings.ts";
import { curve, type Line } from "./line.ts";

/** A street with one cross-section along its whole length; a street that changes is several with one name. */
export interface Street {
  readonly name: string | null;
  readonly class: RoadClass;
  readonly line: Line;
  readonly speedMph: number;
  readonly lanes: number;
  /** Curb to curb. */
  readonly widthM: number;
  /** From curb to walk; 0 where the walk starts at the curb. */
  readonly vergeM: number;
  readonly walkM: number;
  readonly walks: "both" | "left" | "right" | "none";
  readonly parking: "both" | "one side" | "none";
  readonly fronts: "houses" | "shops" | "none";
  /** Share of the places in the verge (or tree pits) that have a tree. */
  readonly treeShare: number;
  /** How the street's trees were looked after: `kept` lifted in time, `partly` once and low, `never` not at all. */
  readonly care: "kept" | "partly" | "never";
  readonly isBusRoute: boolean;
  readonly hasWidthColumn: boolean;
}

const residential = {
  class: "local-residential",
  speedMph: 25,
  lanes: 2,
  widthM: 9.1,
  vergeM: 3,
  walkM: 1.5,
  walks: "both",
  parking: "both",
  fronts: "houses",
  treeShare: 0.64,
  care: "kept",
  isBusRoute: false,
  hasWidthColumn: true,
} as const;
const crossStreet = { ...residential, fronts: "none" } as const;
const collector = { ...crossStreet, class: "collector", speedMph: 30, widthM: 11, vergeM: 2.7, walkM: 1.8 } as const;
const arterial = {
  ...crossStreet,
  class: "major-arterial",
  speedMph: 35,
  lanes: 4,
  widthM: 18.3,
  vergeM: 3,
  walkM: 2.1,
  parking: "none",
  isBusRoute: true,
} as const;
const downtown = { vergeM: 0, walkM: 3.7, fronts: "shops", treeShare: 0.9, parking: "both" } as const;
const lane = { ...residential, class: "local-access", widthM: 7.3, vergeM: 2.4, treeShare: 0.6 } as const;
const alley = {
  ...residential,
  name: null,
  class: "service-alley",
  speedMph: 15,
  lanes: 1,
  widthM: 4,
  vergeM: 0,
  walkM: 0,
  walks: "none",
  parking: "none",
  fronts: "none",
  treeShare: 0,
} as const;
const rural = {
  ...residential,
  class: "rural-two-lane",
  speedMph: 45,
  widthM: 7.3,
  vergeM: 3.6,
  walkM: 0,
  walks: "none",
  parking: "none",
  fronts: "none",
  treeShare: 0.5,
  care: "partly",
} as const;

const riverRoad = curve([
  [-470, -176],
  [-360, -186],
  [-240, -205],
  [-120, -214],
  [0, -208],
  [120, -192],
  [240, -186],
  [360, -198],
  [470, -226],
  [585, -262],
]);

/** Every street of the town, main ones first. Where two meet, one crosses the other or ends on it. */
export const STREETS: readonly Street[] = [
  {
    ...arterial,
    name: "Commerce Street",
    fronts: "houses",
    line: [
      [-470, 0],
      [-240, 0],
    ],
  },
  {
    ...arterial,
    ...downtown,
    parking: "none",
    name: "Commerce Street",
    line: [
      [-240, 0],
      [120, 0],
    ],
  },
  {
    ...arterial,
    name: "Commerce Street",
    fronts: "houses",
    care: "partly",
    line: curve([
      [120, 0],
      [240, 0],
      [360, 4],
      [480, 18],
      [600, 22],
    ]),
  },
  {
    ...arterial,
    ...downtown,
    class: "minor-arterial",
    speedMph: 30,
    lanes: 2,
    widthM: 13.4,
    name: "Station Street",
    line: [
      [0, -110],
      [0, 200],
    ],
  },
  {
    ...arterial,
    class: "minor-arterial",
    speedMph: 35,
    lanes: 2,
    widthM: 13.4,
    name: "Station Street",
    line: curve([
      [0, 200],
      [0, 312],
      [-4, 380],
      [-22, 460],
    ]),
  },
  {
    ...arterial,
    class: "minor-arterial",
    lanes: 2,
    widthM: 12.2,
    isBusRoute: false,
    name: "Station Street",
    line: [
      [0, -110],
      [0, -208],
    ],
  },
  {
    ...collector,
    name: "School Street",
    line: [
      [-240, -205],
      [-240, 296],
    ],
  },
  {
    ...collector,
    name: "Weaver Street",
    line: [
      [240, -186],
      [240, 301],
    ],
  },
  {
    ...collector,
    name: "Foundry Avenue",
    isBusRoute: true,
    care: "partly",
    fronts: "houses",
    line: [
      [-360, 200],
      [240, 200],
    ],
  },
  {
    ...collector,
    name: "River Road",
    line: riverRoad,
    walks: "left",
    fronts: "houses",
    treeShare: 0.64,
    care: "partly",
  },
  {
    ...crossStreet,
    name: "Alder Street",
    line: [
      [-360, -186],
      [-360, 286],
    ],
  },
  {
    ...crossStreet,
    name: "Chapel Street",
    line: [
      [-120, -214],
      [-120, 302],
    ],
  },
  {
    ...crossStreet,
    name: "Cooper Street",
    hasWidthColumn: false,
    line: [
      [120, -192],
      [120, 312],
    ],
  },
  {
    ...residential,
    name: "Bell Street",
    line: [
      [-360, 100],
      [240, 100],
    ],
  },
  {
    ...residential,
    name: "Water Street",
    care: "partly",
    line: [
      [-360, -100],
      [-240, -104],
      [-120, -110],
      [240, -110],
    ],
  },
  {
    ...residential,
    name: "Hazel Street",
    hasWidthColumn: false,
    line: curve([
      [-360, 286],
      [-240, 296],
      [-120, 302],
      [0, 312],
      [120, 312],
      [240, 301],
      [300, 288],
    ]),
  },
  {
    ...residential,
    name: "Ridge Road",
    care: "partly",
    line: curve([
      [-120, 302],
      [-116, 352],
      [-70, 392],
      [-4, 380],
      [70, 402],
      [160, 398],
      [226, 356],
      [240, 301],
    ]),
  },
  {
    ...residential,
    name: "Meadow Drive",
    line: curve([
      [240, 100],
      [310, 104],
      [380, 122],
      [440, 168],
      [448, 232],
      [400, 282],
      [300, 288],
    ]),
  },
  {
    ...residential,
    name: "Tanner Street",
    care: "never",
    line: curve([
      [360, 4],
      [364, 60],
      [380, 122],
    ]),
  },
  {
    ...lane,
    name: "Finch Court",
    line: curve([
      [440, 168],
      [490, 160],
      [545, 176],
    ]),
  },
  {
    ...lane,
    name: "Thistle Court",
    care: "never",
    line: curve([
      [448, 232],
      [500, 242],
      [540, 262],
    ]),
  },
  {
    ...lane,
    name: "Kiln Court",
    line: curve([
      [310, 104],
      [314, 150],
      [330, 196],
      [328, 232],
    ]),
  },
  {
    ...residential,
    name: "Mill Lane",
    line: curve([
      [240, -80],
      [320, -86],
      [400, -104],
      [462, -150],
      [470, -226],
    ]),
  },
  {
    ...lane,
    name: "Heron Court",
    line: curve([
      [400, -104],
      [450, -84],
      [506, -86],
    ]),
  },
  {
    ...rural,
    name: "Quarry Road",
    line: curve([
      [-470, 0],
      [-540, 6],
      [-610, 40],
      [-660, 100],
      [-700, 180],
      [-760, 240],
    ]),
  },
  {
    ...rural,
    name: "Old Ferry Road",
    speedMph: 40,
    hasWidthColumn: false,
    line: curve([
      [-470, -176],
      [-540, -158],
      [-620, -160],
      [-720, -190],
    ]),
  },
  {
    ...rural,
    name: "Pond Road",
    class: "local-access",
    speedMph: 25,
    widthM: 6.1,
    vergeM: 2.4,
    treeShare: 0.6,
    line: curve([
      [-470, 0],
      [-478, -60],
      [-462, -120],
      [-470, -176],
    ]),
  },
  ...[
    [-360, -120, 150],
    [-240, 0, 50],
    [-120, 120, 252],
    [0, 240, 150],
    [0, 240, -56],
  ].map(
    ([from, to, y]): Street => ({
      ...alley,
      line: [
        [from!, y!],
        [to!, y!],
      ],
    }),
  ),
];
