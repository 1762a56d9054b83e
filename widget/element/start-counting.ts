import { answerTo } from "../../flows/case.ts";
import { NOT_SURE } from "../../flows/flow.ts";
import type { CheckState } from "../check/decide.ts";
import type { Place } from "./conversation.tsx";
import type { Session } from "./session.ts";

const counted = new WeakSet<Session>();

/**
 * Tells the server that a check was started, that it came to a verdict, and where it stood when the page was left: ids
 * of questions and the verdict, never an answer. No cookie goes along. Nothing is sent where the shop does not count,
 * where the reader's browser says no (Global Privacy Control), or without a connection.
 *
 * `begun`: the state before the first press; what is in it was not asked here.
 */
export function startCounting(
  { element, settings: { base, branch } }: Place,
  session: Session,
  begun: CheckState,
  resumed: boolean,
): void {
  const { shop } = session.state.flow.edition;
  const { globalPrivacyControl } = navigator as { globalPrivacyControl?: boolean };
  if (counted.has(session) || shop.countVisits === false || globalPrivacyControl === true) return;
  counted.add(session);
  const answered = new Set(begun.case.answers.map(({ to }) => to));
  const shown = new Set([...answered, ...(resumed && begun.next ? [begun.next.id] : [])]);
  let finished = resumed && begun.next === null;

  const tell = (more: object) => {
    const { flow, case: kase, next } = session.state;
    const asked = kase.answers.map(({ to }) => to).filter((to) => flow.question(to));
    const newAnswers = take(asked, answered);
    const body = {
      branch,
      shown: take(next ? [...asked, next.id] : asked, shown),
      answered: newAnswers,
      unsure: newAnswers.filter((to) => answerTo(kase, to) === NOT_SURE),
      ...more,
    };
    if (!navigator.onLine || (body.shown.length + newAnswers.length === 0 && Object.keys(more).length === 0))
      return;
    void fetch(`${base}api/counts`, {
      method: "POST",
      body: JSON.stringify(body),
      keepalive: true,
      credentials: "omit",
      mode: "no-cors",
      referrerPolicy: "no-referrer",
    }).catch(() => {});
  };

  const finish = ({ standing, condition }: { standing: string; condition: string | null }) => {
    if (finished) return;
    finished = true;
    tell({ standing, condition });
  };

  if (!resumed) tell({ started: true });
  element.addEventListener("leafturn-verdict", (event) => finish((event as CustomEvent).detail));
  addEventListener("pagehide", () => tell({}));
}

/** Those that are new, which are new only once. */
function take(ids: readonly string[], known: Set<string>): string[] {
  const fresh = ids.filter((id) => !known.has(id));
  for (const id of fresh) known.add(id);
  return fresh;
}
