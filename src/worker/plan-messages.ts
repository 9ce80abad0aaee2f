import type { PlanOutput, PlanRequest } from "../formats/plan/plan-request.ts";

/** One dropped or fetched file; its bytes are read in the worker. */
export interface LayerBlob {
  readonly layer: PlanRequest["files"][number]["layer"];
  readonly name: string;
  readonly blob: Blob;
  readonly filter: string | null;
  /** As for `LayerFile`; left out asks when the file holds several. */
  readonly table?: string | null;
  /** The file's coordinate system where a person knows it better; left out for others. */
  readonly crs?: string;
}

/** What the page asks the worker: a plan request whose files are still unread. */
export interface PlanJobRequest extends Omit<PlanRequest, "files"> {
  readonly files: readonly LayerBlob[];
}

/** What the worker answers: any number of `progress`, then one of the others. */
export type PlanAnswer =
  | { readonly type: "progress"; readonly share: number; readonly doing: string }
  | { readonly type: "done"; readonly output: PlanOutput }
  | { readonly type: "failed"; readonly reason: string };
