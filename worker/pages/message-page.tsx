import type { Child } from "hono/jsx";
import type { Shop } from "../../flows/edition.ts";
import { Page } from "./page.tsx";
import { pageWords } from "./page-words.ts";

interface MessagePageProps {
  shop: Shop;
  title: string;
  sentence: string;
  /** What else may help. */
  more?: Child;
}

/** A page with one clear sentence and a way on: for what could not be found, read or done. */
export function MessagePage({ shop, title, sentence, more }: MessagePageProps) {
  return (
    <Page title={title} shop={shop} skipTo="lt-now">
      <section aria-labelledby="lt-now">
        <h2 class="lt-prompt" id="lt-now">
          {title}
        </h2>
        <p class="lt-lead">{sentence}</p>
        {more}
        <p>
          <a class="lt-link" href="/check">
            {pageWords.startCheck}
          </a>
        </p>
      </section>
    </Page>
  );
}
