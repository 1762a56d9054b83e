import type { Branch } from "../../flows/edition.ts";
import type { Flow } from "../../flows/flow.ts";
import { Prose } from "./prose.tsx";
import * as words from "./words.ts";

interface SampleViewProps {
  flow: Flow;
  wanted: boolean;
  branch: Branch | null;
}

/** What to bring, how to pack it, and where to. */
export function SampleView({ flow, wanted, branch }: SampleViewProps) {
  const { conversation, shop } = flow.edition;
  return (
    <section class={wanted ? "lt-section lt-sample lt-wanted" : "lt-section lt-sample"} part="sample">
      <h3>{words.sample}</h3>
      <p>{wanted ? words.sampleAsk : words.samplePlain}</p>
      <Prose of={conversation.howToBring} />
      <h4 class="lt-label">{words.branches}</h4>
      <ul class="lt-branches">
        {(branch ? [branch] : shop.branches).map((branch) => (
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
