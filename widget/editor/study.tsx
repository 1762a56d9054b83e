/** Goes through every conversation of a draft, on the page that tells what it does and on the one that publishes it. */
import { render, useState } from "hono/jsx/dom";
import { type StudyReport, sayChange, sayWalk } from "../views/editor/study-report.ts";
import type { Doors } from "./example-view.tsx";
import { findReport, keepReport } from "./kept-reports.ts";
import { fillPublishForm } from "./publish-form.ts";
import { type Findings, runStudy } from "./study-run.ts";
import { StudyView } from "./study-view.tsx";
import { makeReport } from "./study-words.ts";

/** Milliseconds between two moves of the progress bar. */
const PACE = 150;

interface Showing {
  running: { label: string; share: number } | null;
  sentence: string;
  found: Findings | null;
  report: StudyReport | null;
}

function openStudy(root: HTMLElement): void {
  const { draft = "", revision = "", hash = "", live = "", brief } = root.dataset;
  // A draft with problems has no hash, and no conversations.
  if (hash === "") return;
  const said = document.getElementById("study-said");
  const kept = findReport(hash);
  const study = new Study({ draft, liveNumber: Number(live) }, Number(revision), hash, kept, said);
  const Screen = () => {
    const [showing, show] = useState(study.showing);
    study.onShow = show;
    return <StudyScreen {...{ showing, study }} isBrief={brief !== undefined} />;
  };
  root.replaceChildren();
  render(<Screen />, root);
  if (kept) fillPublishForm(kept);
}

class Study {
  readonly doors: Doors;
  readonly #revision: number;
  readonly #hash: string;
  readonly #said: HTMLElement | null;
  #control = new AbortController();
  #movedAt = 0;
  #half = false;
  showing: Showing;
  onShow: (showing: Showing) => void = () => {};

  constructor(
    doors: Doors,
    revision: number,
    hash: string,
    kept: StudyReport | null,
    said: HTMLElement | null,
  ) {
    this.doors = doors;
    this.#revision = revision;
    this.#hash = hash;
    this.#said = said;
    this.showing = { running: null, sentence: "", found: null, report: kept };
  }

  async begin(): Promise<void> {
    this.#control = new AbortController();
    this.#half = false;
    this.#show({ running: { label: "Beginning", share: 0 }, found: null, sentence: "" });
    this.#say("Going through every conversation.");
    const ended = await runStudy(
      { address: this.doors.draft, revision: this.#revision },
      {
        signal: this.#control.signal,
        onProgress: (label, share) => this.#move(label, share),
        onFound: (found) => this.#take(found),
      },
    ).catch((error: unknown) => ({ refused: `The checker failed. ${String(error)}` }));
    const sentence =
      ended === "done" ? "" : ended === "stopped" ? "Stopped. Nothing was decided." : ended.refused;
    this.#show({ running: null, sentence });
    this.#say(ended === "done" ? "Done." : sentence);
  }

  stop(): void {
    this.#control.abort();
  }

  /** Moves the bar now and then; of the way there only the half is said. */
  #move(label: string, share: number): void {
    const now = performance.now();
    if (now - this.#movedAt < PACE) return;
    this.#movedAt = now;
    this.#show({ running: { label, share } });
    if (share < 0.5 || this.#half) return;
    this.#half = true;
    this.#say("Half of it is done.");
  }

  #take(found: Findings): void {
    const { walk, names, comparison } = found;
    const report = walk && makeReport(this.#hash, names, walk, comparison);
    this.#show(report ? { found, report } : { found });
    if (!report) return;
    keepReport(report);
    fillPublishForm(report);
  }

  #show(part: Partial<Showing>): void {
    this.showing = { ...this.showing, ...part };
    this.onShow(this.showing);
  }

  #say(sentence: string): void {
    if (this.#said) this.#said.textContent = sentence;
  }
}

function StudyScreen({ showing, study, isBrief }: { showing: Showing; study: Study; isBrief: boolean }) {
  const { running, sentence, found, report } = showing;
  return (
    <>
      {!running && report && (isBrief || !found) && (
        <div class="lt-notices">
          <p>{sayWalk(report)}</p>
          {report.change && <p>{sayChange(report.change, report.longest)}</p>}
        </div>
      )}
      {running ? (
        <div class="ed-running">
          <label class="lt-label" for="study-share">
            {`${running.label}…`}
          </label>
          <progress id="study-share" class="ed-progress" max={100} value={Math.round(running.share * 100)} />
          <p class="lt-actions">
            <button class="lt-button lt-button-plain" type="button" onClick={() => study.stop()}>
              Stop
            </button>
          </p>
        </div>
      ) : (
        <p class="lt-actions">
          <button
            class={report ? "lt-button lt-button-plain" : "lt-button"}
            type="button"
            onClick={() => void study.begin()}
          >
            {report ? "Go through them again" : "Go through every conversation"}
          </button>
        </p>
      )}
      {sentence && <p class="lt-problem">{sentence}</p>}
      {found && !isBrief && <StudyView found={found} doors={study.doors} />}
    </>
  );
}

const place = document.getElementById("study");
if (place) openStudy(place);
