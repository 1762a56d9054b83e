import type { Shop } from "../../flows/edition.ts";

/** The home page of the invented shop, in its own look. */
export function HomePage({ shop }: { shop: Shop }) {
  return (
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <title>{`${shop.name} · ${shop.strapline}`}</title>
        <link rel="icon" href="/assets/icon.svg" type="image/svg+xml" />
        <link rel="stylesheet" href="/assets/demo.css" />
      </head>
      <body>
        <header class="top">
          <p class="name">{shop.name}</p>
          <nav aria-label="Main">
            <a href="#help">Plant help</a>
            <a href="#visit">Visit us</a>
          </nav>
        </header>
        <main>
          <section class="hero">
            <h1>{shop.strapline}</h1>
            <p>
              Ferns, figs, cacti and herbs, grown on our own benches. Ask us anything about them, also years
              later.
            </p>
          </section>
          <section class="help" id="help">
            <h2>A sick houseplant?</h2>
            <p>
              Take the plant to a window and answer a few questions about what you see. We tell you what we
              think it is, why, and what to do first. If we cannot tell, we ask you to bring a leaf.
            </p>
            <p>
              <a class="call" href="/check">
                Check my plant
              </a>
            </p>
            <form class="code" method="get" action="/c">
              <label for="code">Have a code from us?</label>
              <span class="row">
                <input id="code" name="code" type="text" maxlength={200} autocomplete="off" required />
                <button type="submit">Open</button>
              </span>
            </form>
          </section>
          <section class="visit" id="visit">
            <h2>Visit us</h2>
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
        </main>
        <footer>
          <p>{shop.name} is an invented shop. It shows how the plant check looks on a shop’s own pages.</p>
        </footer>
      </body>
    </html>
  );
}
