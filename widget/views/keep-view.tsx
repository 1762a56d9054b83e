import { follows, leaves, type Ways } from "./ways.ts";
import * as words from "./words.ts";

interface KeepViewProps {
  link: string;
  code: string;
  ways: Ways;
}

/** The link and the code of the case, in fields that can be selected and copied without a script. */
export function KeepView({ link, code, ways }: KeepViewProps) {
  return (
    <section class="lt-section lt-keep" part="keep">
      <h3>{words.keep}</h3>
      <p>{words.keepHint}</p>
      <div class="lt-field">
        <label class="lt-label" for={ways.id("code")}>
          {words.code}
        </label>
        <input
          class="lt-input lt-code"
          part="code"
          id={ways.id("code")}
          type="text"
          readonly
          value={code}
          size={16}
        />
      </div>
      <div class="lt-field">
        <label class="lt-label" for={ways.id("link")}>
          {words.link}
        </label>
        <input class="lt-input" id={ways.id("link")} type="text" readonly value={link} />
      </div>
      <p class="lt-print-only lt-print-link">{link}</p>
      <ToolsView link={link} ways={ways} />
      <div class="lt-actions">
        <a class="lt-link" href={ways.hrefToSlip} {...leaves(ways)}>
          {words.slipLink}
        </a>
        {ways.hrefToPrint !== null && (
          <a
            class="lt-link"
            href={ways.hrefToPrint}
            {...leaves(ways)}
            {...(ways.onPrint && { onClick: ways.onPrint })}
          >
            {words.print}
          </a>
        )}
        {ways.hrefBack !== null && (
          <a class="lt-link" href={ways.hrefBack} data-lt="back" {...follows(ways)}>
            {words.back}
          </a>
        )}
        <a class="lt-link" href={ways.hrefToStart} data-lt="start" {...follows(ways)}>
          {words.startAgain}
        </a>
      </div>
    </section>
  );
}

/** Copying and sharing, where a script runs and the browser can. */
function ToolsView({ link, ways }: Pick<KeepViewProps, "link" | "ways">) {
  const { tools } = ways;
  if (tools === undefined) return null;
  const { copy, share, said } = tools;
  return (
    <div class="lt-actions">
      {copy && (
        <button class="lt-button lt-button-plain" part="button" type="button" onClick={() => copy(link)}>
          {words.copyLink}
        </button>
      )}
      {share && (
        <button class="lt-button lt-button-plain" part="button" type="button" onClick={() => share()}>
          {words.share}
        </button>
      )}
      <p class="lt-hint" role="status">
        {said}
      </p>
    </div>
  );
}
