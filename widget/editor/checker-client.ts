import type { Progress } from "../../flows/progress.ts";
import type { JobName, Jobs, Reply } from "./protocol.ts";

/** What came of a job. A stopped or refused one is no error of the page. */
export type Outcome<T> = { gives: T } | { stopped: true } | { refused: string };

export interface Checker {
  ask<N extends JobName>(
    name: N,
    asks: Jobs[N]["asks"],
    options?: AskOptions,
  ): Promise<Outcome<Jobs[N]["gives"]>>;
  close(): void;
}

export interface AskOptions {
  onProgress?: (progress: Progress) => void;
  signal?: AbortSignal;
}

export const CHECKER = "/assets/editor/checker.js";

interface TrustedTypes {
  createPolicy(
    name: string,
    rules: { createScriptURL(url: string): string },
  ): { createScriptURL(url: string): string };
}

let trusted: string | undefined;

/** The pages of the editor's room trust the address of one worker, and no other. A page may make the policy only once. */
function trustChecker(): string {
  trusted ??= makeTrusted();
  return trusted;
}

function makeTrusted(): string {
  const { trustedTypes } = globalThis as { trustedTypes?: TrustedTypes };
  const policy = trustedTypes?.createPolicy("leafturn-checker", {
    createScriptURL: (url) => (url === CHECKER ? url : ""),
  });
  return policy?.createScriptURL(CHECKER) ?? CHECKER;
}

/** Starts the checker. */
export function startChecker(): Checker {
  const worker = new Worker(trustChecker(), { type: "module" });
  const waiting = new Map<number, { onReply: (reply: Reply) => void }>();
  let count = 0;
  worker.addEventListener("message", ({ data }: MessageEvent<Reply>) => waiting.get(data.id)?.onReply(data));
  worker.addEventListener("error", () => {
    for (const [id, { onReply }] of waiting)
      onReply({ id, refused: "The checker stopped. Reload the page." });
  });
  return {
    ask<N extends JobName>(name: N, asks: Jobs[N]["asks"], { onProgress, signal }: AskOptions = {}) {
      count++;
      const id = count;
      return new Promise<Outcome<Jobs[N]["gives"]>>((resolve) => {
        const stop = () => worker.postMessage({ stop: id });
        const onReply = (reply: Reply): void => {
          if ("progress" in reply) {
            onProgress?.(reply.progress);
            return;
          }
          waiting.delete(id);
          signal?.removeEventListener("abort", stop);
          if ("gives" in reply) resolve({ gives: reply.gives as Jobs[N]["gives"] });
          else resolve("stopped" in reply ? { stopped: true } : { refused: reply.refused });
        };
        waiting.set(id, { onReply });
        signal?.addEventListener("abort", stop);
        worker.postMessage({ id, name, asks });
      });
    },
    close: () => worker.terminate(),
  };
}
