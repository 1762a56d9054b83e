import { makeDeskWays } from "../../widget/check/desk-ways.ts";
import { DeskScreen } from "../../widget/views/desk/desk-screen.tsx";
import type { DeskState } from "../../widget/views/desk/desk-state.ts";
import * as words from "../../widget/views/desk/desk-words.ts";
import type { WidgetFile } from "../embed/widget-files.ts";
import { pageWords } from "./page-words.ts";

interface DeskPageProps {
  state: DeskState;
  /** Where the desk's script lies, and what it is; null for a page that stays as it is. */
  script: { path: string; file: WidgetFile } | null;
}

/** The phone desk: a page that works by itself, and that its script turns into a live screen. */
export function DeskPage({ state, script }: DeskPageProps) {
  const { shop } = state.flow.edition;
  const ways = makeDeskWays(state.flow, state.case, state.remarks);
  return (
    <html lang="en" class="lt lt-page desk">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <meta name="robots" content="noindex" />
        <title>{`${words.title} · ${shop.name}`}</title>
        <link rel="icon" href="/assets/icon.svg" type="image/svg+xml" />
        <link rel="stylesheet" href="/assets/leafturn.css" />
        <link rel="stylesheet" href="/assets/desk.css" />
        {script && (
          <script type="module" src={`/embed/${script.path}`} integrity={script.file.integrity}></script>
        )}
      </head>
      <body>
        <a class="lt-skip" href="#desk-screen">
          {pageWords.skip}
        </a>
        <header class="desk-top">
          <h1 class="desk-h1">{words.title}</h1>
          <nav class="desk-nav" aria-label={words.nav}>
            <a href="/desk" id="desk-fresh">
              {words.fresh}
            </a>
            <a href={ways.hrefToCheck} id="desk-check">
              {words.shopperView}
            </a>
            <a href={ways.hrefToSlip} id="desk-slip">
              {words.slip}
            </a>
            <a href="/desk/counter">{words.counter}</a>
            <a href="/desk/figures">{words.figures}</a>
          </nav>
        </header>
        <main class="desk-main" id="desk-screen">
          <DeskScreen state={state} ways={ways} />
        </main>
      </body>
    </html>
  );
}
