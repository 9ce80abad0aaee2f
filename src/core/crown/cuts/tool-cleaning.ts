import { CUT_SOURCES, type CutRule } from "./cut-rule.ts";

/** A disease that tools or fresh wounds spread, by the trees it lives on; what is done about it at the cut. */
interface Hygiene {
  readonly genera: readonly string[];
  /** What is done on every tree of these genera where the disease occurs. */
  readonly always: readonly CutRule[];
  /** What is done besides where a limb is reported as diseased. */
  readonly diseased: readonly CutRule[];
}

const NEXT_TREE: CutRule = {
  text: "A limb is reported as diseased: disinfect the tools after this tree, before the next one.",
  source: CUT_SOURCES.practice,
};

/** What tools are disinfected with; stands once where several trees ask for it. */
export const WITH_WHAT: CutRule = {
  text: "Disinfect with one part household bleach to nine parts water, or alcohol of at least 70 %, over all that touches the tree, saw chain and sprocket too; then dry and oil the tool.",
  source: CUT_SOURCES.disinfectant,
};

const HYGIENE: readonly Hygiene[] = [
  {
    genera: ["Quercus"],
    always: [
      {
        text: "Oak: where oak wilt occurs, disinfect the tools after each oak, before the next one.",
        source: CUT_SOURCES.oakTools,
      },
    ],
    diseased: [],
  },
  {
    genera: ["Ulmus", "Zelkova"],
    always: [
      {
        text: "Elm and zelkova: where Dutch elm disease occurs, disinfect the tools before the next of them; the authority says what becomes of the wood.",
        source: CUT_SOURCES.memory,
      },
    ],
    diseased: [],
  },
  {
    genera: ["Malus", "Pyrus", "Crataegus", "Sorbus", "Cotoneaster", "Pyracantha"],
    always: [],
    diseased: [
      {
        text: "Fire blight suspected: cut 8 to 12 in (20 to 30 cm) below what can be seen of it and disinfect the tool before each cut.",
        source: CUT_SOURCES.fireBlight,
      },
    ],
  },
  {
    genera: ["Platanus"],
    always: [],
    diseased: [
      {
        text: "Canker stain suspected: disinfect the tools between cuts; nothing that touched the wood leaves the site unclean.",
        source: CUT_SOURCES.memory,
      },
    ],
  },
  {
    genera: ["Prunus"],
    always: [],
    diseased: [
      {
        text: "Canker suspected: cut in dry weather and disinfect the tool before each cut.",
        source: CUT_SOURCES.memory,
      },
    ],
  },
];

const PALM: CutRule = {
  text: "Disinfect the tools, or take new ones, before every palm: Fusarium wilt travels on saws.",
  source: CUT_SOURCES.palmTools,
};

/** How tools are cleaned for a tree, in order; empty where nothing is known to spread. Local rules and the forestry authority decide. */
export function toolCleaning(genus: string, isPalm: boolean, isDiseased: boolean): CutRule[] {
  const own = isPalm
    ? [PALM]
    : HYGIENE.filter(({ genera }) => genera.includes(genus)).flatMap(({ always, diseased }) => [
        ...always,
        ...(isDiseased ? diseased : []),
      ]);
  const rules = [...(isDiseased ? [NEXT_TREE] : []), ...own];
  return rules.length === 0 ? [] : [...rules, WITH_WHAT];
}
