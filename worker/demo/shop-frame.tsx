import type { Child } from "hono/jsx";
import type { Shop } from "../../flows/edition.ts";

interface ShopFrameProps {
  shop: Shop;
  title: string;
  /** Path of the page, to mark it in the navigation. */
  path: string;
  /** The page holds the plant check, so it loads the element's script. */
  check?: boolean;
  children: Child;
}

const places = [
  ["/", "Home"],
  ["/houseplants", "Houseplants"],
  ["/help", "Plant help"],
] as const;

/** Head, navigation and foot of the invented shop's pages. */
export function ShopFrame({ shop, title, path, check = false, children }: ShopFrameProps) {
  return (
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <title>{`${title} · ${shop.name}`}</title>
        <link rel="icon" href="/assets/icon.svg" type="image/svg+xml" />
        <link rel="stylesheet" href="/assets/demo.css" />
        {check && <script type="module" src="/embed/leafturn.js"></script>}
      </head>
      <body>
        <a class="skip" href="#main">
          Skip to the main part
        </a>
        <header class="top">
          <a class="name" href="/">
            {shop.name}
          </a>
          <nav aria-label="Main">
            {places.map(([href, name]) => (
              <a href={href} aria-current={href === path ? "page" : undefined}>
                {name}
              </a>
            ))}
          </nav>
        </header>
        <main id="main">{children}</main>
        <Foot shop={shop} />
      </body>
    </html>
  );
}

function Foot({ shop }: { shop: Shop }) {
  return (
    <footer>
      <section class="visit" id="visit" aria-labelledby="visit-title">
        <h2 id="visit-title">Visit us</h2>
        <ul>
          {shop.branches.map((branch) => (
            <li>
              <h3>{branch.name}</h3>
              <p>{branch.address}</p>
              <p>{branch.hours}</p>
              <p>
                <a href={`tel:${branch.phone}`}>{branch.phone}</a>
              </p>
            </li>
          ))}
        </ul>
      </section>
      <p class="note">
        {shop.name} is an invented shop. It shows how the plant check sits in a shop’s own pages.
      </p>
    </footer>
  );
}
