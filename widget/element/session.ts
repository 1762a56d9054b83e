import { editionOf, writeLink } from "../../flows/case-link.ts";
import type { Flow } from "../../flows/flow.ts";
import { type CheckState, decide } from "../check/decide.ts";
import { makeAside, writeQuery } from "../check/page-ways.ts";
import { readCheckRequest } from "../check/read-request.ts";
import { replay } from "../check/replay.ts";
import type { Beginning } from "./read-case.ts";
import { readToday } from "./today.ts";

/**
 * The conversation of one element. It reads the same queries as the server and decides with the same function; an
 * answer never leaves the browser.
 */
export class Session {
  #flow: Flow;
  #state: CheckState;
  readonly #branch: string | undefined;

  /**
   * `asked`: the edition the case was made under, when that is another and still exists. `branch`: the one whose page
   * this is.
   */
  constructor(
    flow: Flow,
    { query, problem }: Beginning,
    asked: Flow | undefined,
    branch: string | undefined,
  ) {
    this.#flow = flow;
    this.#branch = branch;
    this.#state = this.#decide(query, asked);
    if (problem !== undefined) this.#state.notices.push(problem);
  }

  get state(): CheckState {
    return this.#state;
  }

  /** The case as a query, with all that goes beside it. */
  get query(): string {
    const { case: kase, typed, branch } = this.#state;
    return `${writeLink(this.#flow, kase)}${writeQuery(makeAside(typed, branch, readToday()))}`;
  }

  /** Follows a link of the check. */
  go(search: string): void {
    this.#state = this.#decide(search, undefined);
  }

  /** Goes on with the same edition, now whole. */
  useWhole(flow: Flow): void {
    this.#flow = flow;
    this.#state = { ...this.#state, flow };
  }

  #decide(search: string, asked: Flow | undefined): CheckState {
    const read = readCheckRequest(search);
    const request = { ...read, branch: this.#branch ?? read.branch };
    const editions = { live: this.#flow, asked };
    const decision = decide(
      this.#flow,
      request,
      replay(editions, request.query, editionOf(request.query)),
      readToday(),
    );
    return "show" in decision
      ? decision.show
      : this.#decide(decision.goTo.replace(/^[^?]*|#.*$/g, ""), undefined);
  }
}
