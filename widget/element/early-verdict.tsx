import { KeepView } from "../views/keep-view.tsx";
import { type Report, sayVerdict } from "../views/report.ts";
import type { Ways } from "../views/ways.ts";
import * as words from "../views/words.ts";

interface EarlyVerdictProps {
  report: Report;
  ways: Ways;
  /** The rest could not be fetched. */
  missing: boolean;
  retry: () => void;
}

/** The verdict while its prose is still on the way. No step is shown before its cautions are here. */
export function EarlyVerdict({ report, ways, missing, retry }: EarlyVerdictProps) {
  const { flow, verdict } = report;
  return (
    <article class="lt-verdict" part="verdict" aria-labelledby={ways.id("now")}>
      <p class="lt-eyebrow">{words.verdict}</p>
      <h2 class="lt-verdict-name" id={ways.id("now")} tabindex={-1}>
        {sayVerdict(flow, verdict)}
      </h2>
      <section class="lt-section">
        <h3>{words.plan}</h3>
        <p>{missing ? words.planMissing : words.planComing}</p>
        {missing && (
          <>
            <ul class="lt-branches">
              {flow.edition.shop.branches.map(({ name, phone }) => (
                <li>
                  {name}: <a href={`tel:${phone}`}>{phone}</a>
                </li>
              ))}
            </ul>
            <div class="lt-actions">
              <button class="lt-button" part="button" type="button" onClick={retry}>
                {words.tryAgain}
              </button>
            </div>
          </>
        )}
      </section>
      <KeepView link={report.link} code={report.code} ways={ways} />
    </article>
  );
}
