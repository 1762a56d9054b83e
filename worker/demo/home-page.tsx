import type { Shop } from "../../flows/edition.ts";
import { ShopFrame } from "./shop-frame.tsx";

/** The home page of the invented shop, in its own look. */
export function HomePage({ shop }: { shop: Shop }) {
  return (
    <ShopFrame shop={shop} title={shop.strapline} path="/">
      <section class="hero">
        <h1>{shop.strapline}</h1>
        <p>
          Ferns, figs, cacti and herbs, grown on our own benches. Ask us anything about them, also years
          later.
        </p>
        <p>
          <a class="call call-quiet" href="/houseplants">
            See what is on the bench
          </a>
        </p>
      </section>
      <section class="help" id="help">
        <h2>A sick houseplant?</h2>
        <p>
          Take the plant to a window and answer a few questions about what you see. We tell you what we think
          it is, why, and what to do first. If we cannot tell, we ask you to bring a leaf.
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
      <section class="week">
        <h2>This week at the shop</h2>
        <ul>
          <li>
            <h3>Saturday repotting table</h3>
            <p>Bring a plant and its pot. We bring the mix, the gloves and an hour of patience.</p>
          </li>
          <li>
            <h3>Fresh from the north house</h3>
            <p>Boston ferns, prayer plants, and the first basil of the year.</p>
          </li>
          <li>
            <h3>The leaf in a bag</h3>
            <p>Bring a sick leaf in a sealed bag to either counter. Looking is free, and we like to look.</p>
          </li>
        </ul>
      </section>
    </ShopFrame>
  );
}
