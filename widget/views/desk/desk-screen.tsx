import type { Child } from "hono/jsx";
import { Notices } from "../notices.tsx";
import { Hidden } from "../question-card.tsx";
import { BestView } from "./best-view.tsx";
import type { DeskState } from "./desk-state.ts";
import { type DeskWays, onPress, type Panel } from "./desk-ways.ts";
import * as words from "./desk-words.ts";
import { DifferentialView } from "./differential-view.tsx";
import { HandOverView } from "./hand-over-view.tsx";
import { HeardView } from "./heard-view.tsx";
import { KeysView, ListeningField } from "./listening-field.tsx";
import { QuestionsView } from "./questions-view.tsx";
import { TakeOverView } from "./take-over-view.tsx";
import { ToldView } from "./told-view.tsx";

interface DeskScreenProps {
  state: DeskState;
  ways: DeskWays;
}

/** The whole screen of a call. Without a script it is one form, and what a key would open stands unfolded below it. */
export function DeskScreen({ state, ways }: DeskScreenProps) {
  return ways.live ? <LiveScreen state={state} ways={ways} /> : <PlainScreen state={state} ways={ways} />;
}

function LiveScreen({ state, ways }: DeskScreenProps) {
  return (
    <div class="desk-cols">
      <div class="desk-first">
        <ListeningField ways={ways} state={state} />
        <HeardView state={state} ways={ways} />
        <PanelView state={state} ways={ways} />
        <Notices sentences={state.notices} />
        <BestView state={state} ways={ways} />
        <ToldView state={state} ways={ways} />
      </div>
      <QuestionsView state={state} ways={ways} />
      <DifferentialView state={state} ways={ways} />
    </div>
  );
}

function PlainScreen({ state, ways }: DeskScreenProps) {
  const isAsking = state.desk.best !== null || state.desk.open.length > 0 || state.desk.others.length > 0;
  return (
    <>
      <HeardView state={state} ways={ways} />
      <SayForm ways={ways} />
      <div class="desk-cols">
        <form class="desk-form" method="get" action={ways.action}>
          <Hidden pairs={ways.carried} />
          <div class="desk-first">
            <Notices sentences={state.notices} />
            <BestView state={state} ways={ways} />
            {isAsking && <Take />}
          </div>
          <div>
            <QuestionsView state={state} ways={ways} />
            {isAsking && <Take />}
          </div>
        </form>
        <div>
          <ToldView state={state} ways={ways} />
          <DifferentialView state={state} ways={ways} />
        </div>
      </div>
      <div class="desk-cols desk-below">
        <Titled id="take-over" title={words.takeOver}>
          <TakeOverView failed={state.takeOver} ways={ways} />
        </Titled>
        <Titled id="hand-over" title={words.handOver}>
          <HandOverView state={state} ways={ways} />
        </Titled>
      </div>
    </>
  );
}

/** The caller's words as typed where no script reads them: they go to our server in the body, and stand in no address. */
function SayForm({ ways }: { ways: DeskWays }) {
  return (
    <form class="desk-words" method="post" action={ways.hrefToSay}>
      <label class="desk-label" for="desk-said">
        {words.sayField}
      </label>
      <p class="desk-quiet" id="desk-said-hint">
        {words.sayHint}
      </p>
      <div class="desk-actions">
        <textarea
          class="lt-input desk-input"
          id="desk-said"
          name="said"
          rows={2}
          maxlength={1000}
          required
          aria-describedby="desk-said-hint"
        />
        <button class="desk-button" type="submit">
          {words.readIt}
        </button>
      </div>
    </form>
  );
}

function Take() {
  return (
    <p class="desk-take">
      <button class="desk-button desk-button-main" type="submit">
        {words.take}
      </button>
    </p>
  );
}

function Titled({ id, title, children }: { id: string; title: string; children: Child }) {
  return (
    <section aria-labelledby={`desk-${id}`}>
      <h2 class="desk-h2" id={`desk-${id}`}>
        {title}
      </h2>
      {children}
    </section>
  );
}

const titles = {
  keys: words.keys,
  "hand-over": words.handOver,
  "take-over": words.takeOver,
} satisfies Record<Panel, string>;

/** What a key opened, right behind the field, so that Tab leads into it. */
function PanelView({ state, ways }: DeskScreenProps) {
  const { live } = ways;
  const panel = live?.panel;
  if (!live || !panel) return null;
  return (
    <section class="desk-panel" key={panel} aria-labelledby="desk-panel">
      <div class="desk-panel-head">
        <h2 class="desk-h2" id="desk-panel">
          {titles[panel]}
        </h2>
        <button class="desk-small" type="button" {...onPress(() => live.show(null))}>
          {words.close}
        </button>
      </div>
      {panel === "keys" && <KeysView />}
      {panel === "hand-over" && <HandOverView state={state} ways={ways} />}
      {panel === "take-over" && <TakeOverView failed={state.takeOver} ways={ways} />}
    </section>
  );
}
