import { html } from "hono/html";
import type { Child } from "hono/jsx";
import type { Shop } from "../../flows/edition.ts";
import * as words from "../../widget/views/words.ts";
import { pageWords } from "./page-words.ts";

interface PageProps {
  title: string;
  shop: Shop;
  /** Where the skip link leads. */
  skipTo: string;
  /** A style sheet and a script of this page alone. */
  sheet?: string;
  script?: string;
  /** Stands above everything, also on paper. */
  banner?: string;
  children: Child;
}

/** The frame of every page in the notebook's look. */
export function Page({ title, shop, skipTo, sheet, script, banner, children }: PageProps) {
  return (
    <html lang="en" class="lt lt-page">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <meta name="robots" content="noindex" />
        <title>{`${title} · ${words.check} · ${shop.name}`}</title>
        <link rel="icon" href="/assets/icon.svg" type="image/svg+xml" />
        <link rel="stylesheet" href="/assets/leafturn.css" />
        {sheet && <link rel="stylesheet" href={sheet} />}
        {script && <script type="module" src={script}></script>}
      </head>
      <body>
        <a class="lt-skip" href={`#${skipTo}`}>
          {pageWords.skip}
        </a>
        {banner && (
          <p class="lt-banner" role="note">
            {banner}
          </p>
        )}
        <header class="lt-top">
          <a class="lt-link" href="/">
            {shop.name}
          </a>
        </header>
        <main class="lt-main">
          <h1 class="lt-h1">{words.check}</h1>
          <div class="lt-book">{children}</div>
        </main>
        <footer class="lt-foot">
          <CodeForm />
          <a class="lt-link" href="/check">
            {words.startAgain}
          </a>
        </footer>
      </body>
    </html>
  );
}

/** Opens a case by its code. */
function CodeForm() {
  return (
    <form class="lt-code-form" method="get" action="/c">
      <label class="lt-label" for="lt-open-code">
        {pageWords.haveCode}
      </label>
      <div class="lt-code-row">
        <input
          class="lt-input"
          id="lt-open-code"
          type="text"
          name="code"
          maxlength={200}
          autocomplete="off"
          required
        />
        <button class="lt-button lt-button-plain" type="submit">
          {pageWords.openCode}
        </button>
      </div>
    </form>
  );
}

/** The document as it is sent. Views are synchronous, so its text is ready at once. */
export function renderPage(page: Child) {
  return html`<!doctype html>${page}`;
}
