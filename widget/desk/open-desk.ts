/** The desk's script: takes the page over once the edition is here. Until then, and if it never comes, the page works. */
import { editionOf } from "../../flows/case-link.ts";
import { readCheckRequest, readRemarks } from "../check/read-request.ts";
import { replay } from "../check/replay.ts";
import { Call } from "./call.ts";
import { LiveScreen } from "./live-screen.tsx";
import { loadFlow, loadOldFlow } from "./load-flow.ts";

const root = document.getElementById("desk-screen");
if (root) void openDesk(root);

async function openDesk(screen: HTMLElement): Promise<void> {
  const base = new URL("../../", import.meta.url).href;
  const { query, typed } = readCheckRequest(location.search);
  const asked = editionOf(query);
  try {
    const live = await loadFlow(base);
    const isOther = asked !== undefined && asked !== live.edition.number;
    const old = isOther ? await loadOldFlow(base, asked) : undefined;
    const replayed = replay({ live, asked: old }, query, asked);
    const notices = [replayed.edition?.sentence ?? [], replayed.problems.map(({ sentence }) => sentence)];
    new LiveScreen(base, new Call(live, replayed.case, readRemarks(typed), notices.flat()), screen).open();
  } catch (error) {
    // The page itself goes on working; only its live half is missing.
    console.warn("The live desk could not be opened.", error);
  }
}
