import { submits, type Ways } from "./ways.ts";
import * as words from "./words.ts";

/** A field for one's own words, at every question. The browser reads them itself where it can; else our server does. */
export function SayField({ ways }: { ways: Ways }) {
  return (
    <form class="lt-field" method="post" action={ways.hrefToSay} data-lt="say" {...submits(ways)}>
      <label class="lt-label" for={ways.id("said")}>
        {words.sayIt}
      </label>
      <textarea class="lt-input" id={ways.id("said")} name="said" rows={2} maxlength={1000} required />
      <div class="lt-actions">
        <button class="lt-button lt-button-plain" part="button" type="submit">
          {words.readIt}
        </button>
      </div>
    </form>
  );
}
