import { newId } from "./new-id.ts";

/** Whether this page may change a plan: `asking` at first, then `mine`, or `elsewhere` until the page that holds it is gone. */
export type ClaimState = "asking" | "mine" | "elsewhere";

/** Milliseconds an answer of another page is waited for where the browser has no locks; a message takes a few. */
const ANSWER_MS = 400;
/** Milliseconds after which a page without locks asks again whether the holder is still there. */
const ASK_AGAIN_MS = 2_500;

/**
 * Claims a plan for this page, so that of several pages one may change it; tells each new state, and gives what ends the claim. The page that waits gets
 * the plan as soon as the holder closes, crashes or lets go. Browsers without locks ask each other by messages instead, which two pages opened within the same
 * instant may both survive: the store refuses the second writer then.
 */
export function claimWork(key: string, tell: (state: ClaimState) => void): () => void {
  const name = `boughline plan ${key}`;
  if (globalThis.navigator?.locks !== undefined) return claimByLock(name, tell);
  if (typeof BroadcastChannel !== "undefined") return claimByMessage(name, tell);
  tell("mine");
  return () => {};
}

function claimByLock(name: string, tell: (state: ClaimState) => void): () => void {
  const ended = new AbortController();
  const hold = () => {
    if (ended.signal.aborted) return;
    tell("mine");
    return new Promise<void>((resolve) => ended.signal.addEventListener("abort", () => resolve(), { once: true }));
  };
  const claim = async () => {
    const isHeld = await navigator.locks.request(name, { ifAvailable: true }, async (lock) => {
      if (lock === null) return true;
      await hold();
      return false;
    });
    if (!isHeld || ended.signal.aborted) return;
    tell("elsewhere");
    await navigator.locks.request(name, { signal: ended.signal }, hold);
  };
  // Ending the claim while it waits rejects the request, which is what was asked for.
  claim().catch(() => {});
  return () => ended.abort();
}

type Message = { readonly says: "who" | "mine" | "free"; readonly from: string };

function claimByMessage(name: string, tell: (state: ClaimState) => void): () => void {
  const channel = new BroadcastChannel(name);
  const me = newId();
  let state: ClaimState | "ended" = "asking";
  let timer: ReturnType<typeof setTimeout>;
  const become = (next: ClaimState) => {
    if (next === state) return;
    state = next;
    tell(next);
  };
  const say = (says: Message["says"]) => channel.postMessage({ says, from: me } satisfies Message);
  const ask = () => {
    clearTimeout(timer);
    say("who");
    timer = setTimeout(() => {
      become("mine");
      say("mine");
    }, ANSWER_MS);
  };
  channel.addEventListener("message", ({ data }: MessageEvent<Message>) => {
    // Of two that ask at once the one with the smaller name goes first.
    const isFirst = state === "mine" || (state === "asking" && me < data.from);
    if (data.says === "who" && isFirst) say("mine");
    if (data.says === "mine" && !(state === "mine" && me < data.from)) {
      clearTimeout(timer);
      become("elsewhere");
      timer = setTimeout(ask, ASK_AGAIN_MS);
    }
    if (data.says === "free" && state === "elsewhere") ask();
  });
  const leave = () => state === "mine" && say("free");
  globalThis.addEventListener?.("pagehide", leave);
  ask();
  return () => {
    if (state === "ended") return;
    clearTimeout(timer);
    globalThis.removeEventListener?.("pagehide", leave);
    leave();
    state = "ended";
    channel.close();
  };
}
