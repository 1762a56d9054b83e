import type { Child } from "hono/jsx";
import type { Shop } from "../../flows/edition.ts";
import { pageWords } from "../pages/page-words.ts";
import { peopleWords } from "./people-words.ts";
import type { Person } from "./person.ts";

interface PrivatePageProps {
  title: string;
  shop: Shop;
  /** The part of the house, such as "The desk". */
  room: string;
  /** Its pages, as addresses and names; the one at hand is marked. */
  links: readonly (readonly [href: string, name: string])[];
  here: string;
  /** Where the button to sign out posts to; shown with the person's name. */
  signOut: string;
  person: Person | null;
  sheet?: string;
  script?: string;
  children: Child;
}

/** The frame of the pages for the people of the shop. */
export function PrivatePage({ title, shop, sheet, script, children, ...head }: PrivatePageProps) {
  return (
    <html lang="en" class="lt lt-page">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <meta name="robots" content="noindex" />
        <title>{`${title} · ${head.room} · ${shop.name}`}</title>
        <link rel="icon" href="/assets/icon.svg" type="image/svg+xml" />
        <link rel="stylesheet" href="/assets/leafturn.css" />
        <link rel="stylesheet" href="/assets/staff.css" />
        {sheet && <link rel="stylesheet" href={sheet} />}
        {script && <script type="module" src={script}></script>}
      </head>
      <body>
        <a class="lt-skip" href="#main">
          {pageWords.skip}
        </a>
        <Head {...head} shop={shop} />
        <main class="lt-main" id="main" tabindex={-1}>
          <h1 class="lt-h1">{title}</h1>
          <div class="lt-book">{children}</div>
        </main>
      </body>
    </html>
  );
}

type HeadProps = Pick<PrivatePageProps, "shop" | "room" | "links" | "here" | "signOut" | "person">;

function Head({ shop, room, links, here, signOut, person }: HeadProps) {
  return (
    <header class="lt-top st-top">
      <p class="st-shop">
        {shop.name}, {room}
      </p>
      <nav aria-label={room}>
        <ul class="st-links">
          {links.map(([href, name]) => (
            <li>
              <a class="lt-link" href={href} aria-current={href === here ? "page" : undefined}>
                {name}
              </a>
            </li>
          ))}
        </ul>
      </nav>
      {person && (
        <form class="st-out" method="post" action={signOut}>
          <span>{peopleWords.signedInAs(person.name)}</span>
          <button class="lt-button lt-button-plain" type="submit">
            {peopleWords.signOut}
          </button>
        </form>
      )}
    </header>
  );
}
