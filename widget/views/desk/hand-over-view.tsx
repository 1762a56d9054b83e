import { countryOf, makeHandOver, writeSms } from "../../../flows/desk/hand-over.ts";
import { groupCode, spellCode } from "../../../flows/desk/spelling.ts";
import { QrCode } from "../qr-code.tsx";
import type { DeskState } from "./desk-state.ts";
import { type DeskWays, onPress } from "./desk-ways.ts";
import * as words from "./desk-words.ts";

interface HandOverViewProps {
  state: DeskState;
  ways: DeskWays;
}

/** The case for the caller: a link to send, a code to read out, a QR code to hold out. */
export function HandOverView({ state, ways }: HandOverViewProps) {
  const { code, link, flow, base } = state.report;
  const { message, mailto } = makeHandOver(flow.edition.shop, base, code);
  const { live } = ways;
  return (
    <div class="desk-hand-over">
      <p class="desk-quiet">{words.handOverHint}</p>
      <div class="desk-hand">
        <CodeView code={code} />
        <QrCode text={link} label={words.qr} />
      </div>
      <label class="desk-label" for="desk-link">
        {words.link}
      </label>
      <input class="lt-input desk-input" id="desk-link" type="text" readonly value={link} />
      <label class="desk-label" for="desk-message">
        {words.message}
      </label>
      <input class="lt-input desk-input" id="desk-message" type="text" readonly value={message} />
      <div class="desk-actions">
        {live?.copy && (
          <button class="desk-button" type="button" {...onPress(() => live.copy?.(link))}>
            {words.copyLink}
          </button>
        )}
        <a class="desk-button" href={mailto}>
          {words.mail}
        </a>
        {live?.share && (
          <button class="desk-button" type="button" {...onPress(() => live.share?.())}>
            {words.share}
          </button>
        )}
      </div>
      {live && <SmsView state={state} ways={ways} message={message} />}
    </div>
  );
}

function CodeView({ code }: { code: string }) {
  return (
    <div>
      <p class="desk-label">{words.codeToRead}</p>
      <p class="desk-code">{groupCode(code).join(" ")}</p>
      <ol class="desk-spelled">
        {spellCode(code).map(({ symbol, word }) => (
          <li>
            <strong>{symbol}</strong> {word}
          </li>
        ))}
      </ol>
    </div>
  );
}

function SmsView({ state, ways, message }: HandOverViewProps & { message: string }) {
  const { live } = ways;
  const { shop } = state.flow.edition;
  if (!live) return null;
  const href = writeSms(shop, live.phone, message);
  const isBad = live.phone.replace(/\D/g, "").length > 6 && href === null;
  return (
    <div class="desk-sms">
      <label class="desk-label" for="desk-phone">
        {words.phoneField}
      </label>
      <p class="desk-quiet" id="desk-phone-hint">
        {isBad ? words.phoneBad : words.phoneHint}
      </p>
      <div class="desk-actions">
        <input
          class="lt-input desk-input"
          id="desk-phone"
          type="tel"
          autocomplete="off"
          value={live.phone}
          placeholder={countryOf(shop)}
          aria-describedby="desk-phone-hint"
          aria-invalid={isBad ? "true" : undefined}
          onInput={live.onPhone}
        />
        {href !== null && (
          <a class="desk-button" href={href}>
            {words.sms}
          </a>
        )}
      </div>
    </div>
  );
}
