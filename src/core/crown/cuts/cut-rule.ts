import type { KnownHow } from "../../model/terms.ts";

/** One sentence of the cut guide with where it comes from. */
export interface CutRule {
  readonly text: string;
  readonly source: CutSource;
}

export interface CutSource {
  readonly title: string;
  readonly known: KnownHow;
}

/** The documents the cut guide rests on; `docs/method.md` and `tests/outside/SOURCES.md` list them. */
export const CUT_SOURCES = {
  collar: { title: "University of Florida, CIR853 Pruning Landscape Trees and Shrubs, figure 20", known: "read" },
  angle: { title: "University of Florida, HS889 Citrus Guide: Pruning, figure 2", known: "read" },
  palm: { title: "University of Florida, CIR853 Pruning Landscape Trees and Shrubs, figure 22", known: "read" },
  reduction: { title: "University of Florida, Landscape Plants, reduction cuts", known: "read" },
  threeCut: { title: "University of California, Pest Notes 74109, three cuts", known: "read" },
  lighterLimb: { title: "Advice for home owners, quoted", known: "second-hand" },
  handTools: { title: "Extension advice on tools, quoted", known: "second-hand" },
  oakTools: { title: "Sunset Valley TX, city code on pruning oaks", known: "read" },
  disinfectant: {
    title: "Sunset Valley TX, city code on pruning oaks, for bleach; an oak wilt notice, quoted, for alcohol",
    known: "second-hand",
  },
  oakPaint: { title: "State forestry advice on oak wilt, quoted in the press", known: "second-hand" },
  fireBlight: { title: "University of California, Pest Notes 7414 Fire Blight, quoted", known: "second-hand" },
  palmTools: { title: "Notices on Fusarium wilt of date palms, quoted", known: "second-hand" },
  practice: { title: "Common practice, no source", known: "our-policy" },
  memory: { title: "From memory", known: "memory" },
} as const satisfies Readonly<Record<string, CutSource>>;
