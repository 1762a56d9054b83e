import type { Shop } from "../../flows/edition.ts";
import { ShopFrame } from "./shop-frame.tsx";

const plants = [
  ["Pothos", "Climbs, trails and forgives. Good for a first plant.", "from $9.50"],
  ["Boston fern", "Wants damp air and a drink before it asks.", "from $14"],
  ["Peace lily", "Droops when thirsty, and stands up again.", "from $12.50"],
  ["Fiddle-leaf fig", "Choose its window well, then leave it there.", "from $39"],
  ["Jade plant", "Sun, a small pot, and very little water.", "from $8"],
  ["African violet", "Water it from below and it flowers all year.", "from $7.50"],
] as const;

/** What the shop sells, with the plant check below the goods. */
export function HouseplantsPage({ shop }: { shop: Shop }) {
  return (
    <ShopFrame shop={shop} title="Houseplants" path="/houseplants" check>
      <section class="intro">
        <h1>Houseplants</h1>
        <p>Everything here has stood on our own benches for at least four weeks before it goes to yours.</p>
      </section>
      <section class="goods" aria-label="On the bench">
        <ul>
          {plants.map(([name, line, price]) => (
            <li>
              <h2>{name}</h2>
              <p>{line}</p>
              <p class="price">{price}</p>
            </li>
          ))}
        </ul>
      </section>
      <section class="check" aria-labelledby="check-title">
        <h2 id="check-title">Is one of yours unwell?</h2>
        <p>Look at it by a window and tell us what you see. A few questions, then a plan.</p>
        <leafturn-check branch="canal-street">
          <a class="call" href="/check">
            Check my plant
          </a>
        </leafturn-check>
      </section>
    </ShopFrame>
  );
}
