import type { Shop } from "../../flows/edition.ts";
import { ShopFrame } from "./shop-frame.tsx";

/** The shop's help page: the plant check comes first, then the questions people ask at the counter. */
export function HelpPage({ shop }: { shop: Shop }) {
  return (
    <ShopFrame shop={shop} title="Plant help" path="/help" check>
      <section class="intro">
        <h1>Plant help</h1>
        <p>
          Most trouble is water, light or a small guest. Start here. If the check cannot tell, it says so and
          asks you to bring a leaf.
        </p>
      </section>
      <section class="check" aria-label="Plant check">
        <leafturn-check>
          <a class="call" href="/check">
            Check my plant
          </a>
        </leafturn-check>
      </section>
      <section class="answers">
        <h2>Asked at the counter</h2>
        <h3>Can I bring a plant in?</h3>
        <p>
          Yes, in a sealed bag, at any time we are open. Print the slip at the end of the check and bring it
          along.
        </p>
        <h3>Does the check cost anything?</h3>
        <p>No. It keeps nothing about you, and you need no account.</p>
        <h3>I have a code from the check.</h3>
        <form class="code" method="get" action="/c">
          <label for="code">Type it here. Spaces do not matter.</label>
          <span class="row">
            <input id="code" name="code" type="text" maxlength={200} autocomplete="off" required />
            <button type="submit">Open</button>
          </span>
        </form>
      </section>
    </ShopFrame>
  );
}
