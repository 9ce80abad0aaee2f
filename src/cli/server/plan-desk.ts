import { timingSafeEqual } from "node:crypto";
import { readdir } from "node:fs/promises";
import type { IncomingMessage } from "node:http";
import { join } from "node:path";
import type { PlanManifest } from "../../core/plan/plan-manifest.ts";
import { openPlan } from "../../formats/plan/open-plan.ts";
import { memorySource } from "../../formats/plan/plan-source.ts";
import { REVISION_NAMES } from "../../formats/plan/revision-names.ts";
import { carriedExports } from "../carried-exports.ts";
import { exportRequest, exportRevision } from "../export-options.ts";
import { type CannotWriteCause, CannotWriteError } from "../folder/cannot-write-error.ts";
import type { HistoryReport } from "../folder/history.ts";
import { openPlanFolder } from "../folder/plan-folder.ts";
import { currentRevision, REVISIONS } from "../folder/read-current.ts";
import { currentSource } from "../folder-source.ts";
import { filesInBody } from "./files-in-body.ts";
import { reportsSent } from "./record-sent.ts";
import type { TakeAnswer } from "./static-server.ts";

/** What the page is told of the folder it may save to. */
export interface FolderNow {
  /** The current revision. */
  readonly revision: number;
  /** Number the next one will have. */
  readonly next: number;
  /** Which of a revision's files the current one has. */
  readonly files: readonly string[];
}

/** Header that carries the run's token, and the one that carries the revision the page's plan came from. */
export const TOKEN_HEADER = "x-boughline-token";
export const BASE_HEADER = "x-boughline-base-revision";

const STATUS_OF: Readonly<Partial<Record<CannotWriteCause, number>>> = { "no-space": 507, locked: 423 };

/** What the folder holds now. Throws CommandError when it holds no plan. */
export async function folderNow(dir: string): Promise<FolderNow> {
  const { path } = await currentSource(dir);
  const revision = (await currentRevision(dir)) ?? 0;
  const numbers = (await readdir(join(dir, REVISIONS))).map(Number).filter(Number.isSafeInteger);
  const names = new Set(await readdir(path));
  return {
    revision,
    next: Math.max(revision, ...numbers) + 1,
    files: REVISION_NAMES.filter((name) => names.has(name)),
  };
}

/**
 * Takes a new revision from the page: a zip of the files that differ from the revision the page's plan came from. It is committed whole or not at all, by the same
 * steps as any other revision, with table files made anew where the folder has some. Answers 201 with the revision, 403 for a wrong token, 409 when the folder
 * has moved on, 415 and 413 for a body of another kind or too large, 422 for files that are no plan, 423 while another run writes the folder, 507 or 500
 * when it cannot be written.
 */
export function takeRevision(dir: string, token: string): (request: IncomingMessage) => Promise<TakeAnswer> {
  return async (request) => {
    if (!isSame(request.headers[TOKEN_HEADER], token)) return refusal(403, "This page is of another run. Reload it.");
    if (request.headers["content-type"] !== "application/zip") return refusal(415, "Expected a zip.");
    const base = Number(request.headers[BASE_HEADER]);
    const sent = await filesInBody(request);
    if ("refused" in sent) return refusal(sent.status, sent.refused);
    try {
      return await commit(dir, base, sent.files);
    } catch (error) {
      if (!(error instanceof CannotWriteError)) throw error;
      return refusal(STATUS_OF[error.why] ?? 500, error.message);
    }
  };
}

async function commit(dir: string, base: number, sent: ReadonlyMap<string, Uint8Array>): Promise<TakeAnswer> {
  const folder = await openPlanFolder(dir, { replace: true });
  try {
    const current = await currentRevision(dir);
    if (current === null || current !== base) return { status: 409, body: { reason: movedOn(base, current), current } };
    const source = await currentSource(dir);
    const files = new Map(sent);
    for (const name of REVISION_NAMES) {
      const bytes = files.has(name) ? null : await source.read(name);
      if (bytes !== null) files.set(name, bytes);
    }
    const fault = await faultOf(files, folder.nextRevision, folder.existing?.plan ?? null);
    if (fault !== null) return refusal(422, fault);
    const recorded = sent.get("record.jsonl");
    let reports: HistoryReport[] | null = null;
    try {
      if (recorded !== undefined) reports = reportsSent(await source.read("record.jsonl"), recorded);
    } catch (error) {
      return refusal(422, `The work record cannot be taken. ${error instanceof Error ? error.message : String(error)}`);
    }
    const exporting = await carriedExports(exportRequest({}), {}, source);
    const all = (await exportRevision(files, exporting)).files;
    const { plan, as_of } = manifestOf(files);
    // The work record changes by recording alone.
    const note = reports === null ? { event: "edit" } : { event: "record", reports };
    await folder.commit(all, { plan, as_of, ...note });
    return { status: 201, body: { revision: folder.nextRevision } };
  } finally {
    folder.close();
  }
}

/** Why files cannot be the next revision of the folder's plan; null when they can. */
async function faultOf(
  files: ReadonlyMap<string, Uint8Array>,
  next: number,
  plan: string | null,
): Promise<string | null> {
  try {
    const opened = await openPlan(memorySource(files));
    if (opened.plan.revision !== next) return `Expected revision ${next}, got ${opened.plan.revision}.`;
    if (plan !== null && plan !== "unknown" && opened.plan.planId !== plan)
      return "This is another plan than the folder's.";
    return null;
  } catch (error) {
    return `The files are no whole plan. ${error instanceof Error ? error.message : String(error)}`;
  }
}

const manifestOf = (files: ReadonlyMap<string, Uint8Array>): PlanManifest =>
  JSON.parse(new TextDecoder().decode(files.get("plan.json")));

function movedOn(base: number, current: number | null): string {
  return `The folder has moved on to revision ${current ?? "none"}; this page's plan came from revision ${base}. Nothing was saved.`;
}

const refusal = (status: number, reason: string): TakeAnswer => ({ status, body: { reason } });

function isSame(given: string | string[] | undefined, token: string): boolean {
  const [one, other] = [Buffer.from(typeof given === "string" ? given : ""), Buffer.from(token)];
  return one.length === other.length && timingSafeEqual(one, other);
}
