import type { Flow } from "../../flows/flow.ts";
import { Prose } from "./prose.tsx";
import { words } from "./words.ts";

/** What to bring, how to pack it, and where to. */
export function SampleView({ flow, wanted }: { flow: Flow; wanted: boolean }) {
  const { conversation, shop } = flow.edition;
  return (
    <section class={wanted ? "lt-section lt-sample lt-wanted" : "lt-section lt-sample"} part="sample">
      <h3>{words.sample}</h3>
      <p>{wanted ? words.sampleAsk : words.samplePlain}</p>
      <Prose of={conversation.howToBring} />
      <h4 class="lt-label">{words.branches}</h4>
      <ul class="lt-branches">
        {shop.branches.map((branch) => (
          <li>
            <strong>
              {shop.name}, {branch.name}
            </strong>
            <br />
            {branch.address}
            <br />
            {words.hours}: {branch.hours}
            <br />
            {words.phone}: <a href={`tel:${branch.phone}`}>{branch.phone}</a>
          </li>
        ))}
      </ul>
    </section>
  );
}
