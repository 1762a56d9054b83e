import type { AirReading } from "../../flows/amounts/air.ts";
import type { Answer, Refusal, Worked } from "../../flows/amounts/answer.ts";
import { formatRange } from "../../flows/amounts/numbers.ts";
import type { ShoppingItem } from "../../flows/amounts/shopping.ts";
import { formatQuantity } from "../../flows/amounts/units.ts";
import type { CalendarDay } from "../../flows/calendar/make-calendar.ts";
import type { Figures } from "../check/make-figures.ts";
import type { PotSums } from "../check/pot-sums.ts";
import { nameDay } from "./name-day.ts";
import { NumberField, NumbersForm, NumbersView, OwnBottleView } from "./numbers-view.tsx";
import * as words from "./sum-words.ts";
import { leaves, type Ways } from "./ways.ts";
import { calendarFile } from "./words.ts";

interface SumsProps {
  figures: Figures;
  ways: Ways;
}

/** `save`: saves the calendar file without the server; undefined where no script runs. */
type DaysProps = SumsProps & { save: ((event: Event, replace: boolean) => void) | undefined };

/** The numbers of the plan: the shopper's own, the days, the sums, and what to get. */
export function SumsView({ figures, ways, save }: DaysProps) {
  return (
    <section class="lt-section lt-sums">
      <h3>{words.days}</h3>
      <NumbersView figures={figures} ways={ways} />
      <DaysView {...{ figures, ways, save }} />
      {figures.air !== undefined && <AirView figures={figures} air={figures.air} ways={ways} />}
      {figures.pots !== undefined && <PotsView figures={figures} pots={figures.pots} ways={ways} />}
    </section>
  );
}

/** One line a day, with a box for each task. */
function DaysView({ figures: { days, system }, ways, save }: DaysProps) {
  const dates = [...new Set(days.map(({ date }) => date))];
  return (
    <>
      <ul class="lt-days">
        {dates.map((date) => (
          <li>
            <span class="lt-day">{nameDay(date, system)}</span>{" "}
            <span class="lt-tasks">{sayTasks(days.filter((day) => day.date === date))}</span>
          </li>
        ))}
      </ul>
      <p class="lt-hint">{words.daysHint}</p>
      <div class="lt-actions">
        {[false, true].map((replace) => (
          <a
            class="lt-link"
            href={`${ways.hrefToCalendar}${replace ? "&replace=yes" : ""}`}
            {...leaves(ways)}
            {...(save && { onClick: (event: Event) => save(event, replace) })}
          >
            {replace ? words.replaceDays : calendarFile}
          </a>
        ))}
      </div>
    </>
  );
}

function sayTasks(days: readonly CalendarDay[]): string {
  return days.map(({ title }) => title).join("; ");
}

/** Days and amounts of one step. */
export function StepSums({ figures, remedy, ways }: SumsProps & { remedy: string }) {
  const pace = figures.paces.get(remedy);
  const mixes = figures.mixes.get(remedy) ?? [];
  if (!pace && mixes.length === 0) return null;
  return (
    <div class="lt-step-sums">
      {mixes.map(({ use, mix, bottle }, at) => (
        <div class={at > 0 ? "lt-screen-only" : undefined}>
          <p>
            <strong>{words.mix(use, formatQuantity(bottle.value, figures.locale))}:</strong>{" "}
            {mix.ok ? mix.instruction : mix.sentence} {mix.ok && mix.label}
          </p>
          {mix.ok && <p class="lt-working">{mix.working}</p>}
        </div>
      ))}
      {mixes.map(
        (line, at) =>
          (line.mix.ok ? line.mix.way === "mix" : true) &&
          mixes.findIndex(({ product }) => product === line.product) === at && (
            <OwnBottleView {...{ ways, figures, line }} step={remedy} />
          ),
      )}
      {pace && (
        <>
          <p>
            <strong>{words.dates}:</strong>{" "}
            {pace.dates.map((date) => nameDay(date, figures.system)).join("; ")}.{" "}
            {pace.schedule.until !== null && words.stopWhen(pace.schedule.until)}
          </p>
          <p class="lt-why">
            <strong>{words.why}:</strong> {pace.schedule.why}
          </p>
          {pace.schedule.working !== "" && <p class="lt-working">{pace.schedule.working}</p>}
        </>
      )}
    </div>
  );
}

function AirView({ figures, air, ways }: SumsProps & { air: Answer<AirReading> | null }) {
  const { typed, system } = figures;
  const [problem, other] = blame(air);
  return (
    <details class="lt-aside" id={ways.id("air-sum")} open={air !== null}>
      <summary>{words.air}</summary>
      <NumbersForm ways={ways} name="air-sum" asks={["outdoor", "outdoor-humidity"]}>
        <div class="lt-fields">
          <NumberField
            {...{ ways, name: "outdoor", label: words.outdoor(system === "us" ? "F" : "C") }}
            value={typed.outdoor}
            hint={words.airHint}
            problem={problem}
          />
          <NumberField
            {...{ ways, name: "outdoor-humidity", label: words.outdoorHumidity }}
            value={typed["outdoor-humidity"]}
            problem={other}
          />
        </div>
      </NumbersForm>
      {air?.ok && (
        <div class="lt-result" tabindex={-1}>
          <p>
            <strong>{air.sentence}</strong> {air.windowSentence}
          </p>
          {air.helps.length > 0 && (
            <>
              <p class="lt-label lt-screen-only">{words.helps}</p>
              <ul class="lt-screen-only">
                {air.helps.map(({ sentence }) => (
                  <li>{sentence}</li>
                ))}
              </ul>
            </>
          )}
          <Working of={air} />
        </div>
      )}
    </details>
  );
}

/** Which of the two fields a refusal belongs to. */
function blame(air: Answer<AirReading> | null): [outdoor: string | null, humidity: string | null] {
  if (air === null || air.ok) return [null, null];
  return /humidity/.test(air.sentence) ? [null, air.sentence] : [air.sentence, null];
}

function PotsView({ figures, pots, ways }: SumsProps & { pots: PotSums }) {
  const { typed, system } = figures;
  const unit = system === "us" ? "inches" : "cm";
  const said = [pots.now, pots.next, pots.mix].find((one): one is Refusal => one?.ok === false);
  const isRoots = said?.code === "ROOT_LOSS_RANGE" || (pots.now?.ok && said === pots.next);
  const isHeight = said !== undefined && /height/.test(said.sentence);
  const fields = [
    ["pot", words.potTop(unit), isRoots || isHeight ? null : said?.sentence],
    ["pot-bottom", words.potBottom(unit), null],
    ["pot-height", words.potHeight(unit), isHeight ? said.sentence : null],
    ...(pots.asksRoots ? [["roots", words.roots, isRoots ? said?.sentence : null] as const] : []),
  ] as const;
  return (
    <details class="lt-aside" id={ways.id("pot-sum")} open={pots.now !== null}>
      <summary>{words.pots}</summary>
      <p class="lt-hint">{words.potsHint}</p>
      <NumbersForm ways={ways} name="pot-sum" asks={["pot", "pot-bottom", "pot-height", "roots"]}>
        <div class="lt-fields">
          {fields.map(([name, label, problem]) => (
            <NumberField {...{ ways, name, label }} value={typed[name]} problem={problem ?? null} />
          ))}
        </div>
      </NumbersForm>
      <PotResult pots={pots} locale={figures.locale} />
    </details>
  );
}

function PotResult({ pots: { now, next, mix, leaching }, locale }: { pots: PotSums; locale: string }) {
  if (!now?.ok) return null;
  return (
    <div class="lt-result" tabindex={-1}>
      <p>{words.potHolds(now.text)}</p>
      <Working of={now} />
      {next?.ok && (
        <>
          <p>
            <strong>{words.nextPot(next.text)}</strong> {next.newStart && words.newStart}
          </p>
          <Working of={next} />
        </>
      )}
      {mix?.ok && (
        <>
          <p>
            <strong>{words.mixToBuy(mix.text, mix.bags?.text ?? null)}</strong>
          </p>
          <Working of={mix} />
        </>
      )}
      {leaching?.ok && (
        <>
          <p>
            <strong>{words.leach(leaching.text, formatRange(...leaching.passes, locale))}</strong>
          </p>
          <Working of={leaching} />
        </>
      )}
    </div>
  );
}

function Working({ of }: { of: Worked }) {
  return <p class="lt-working">{of.working}</p>;
}

/** What the plan takes: what most people have, and what to get. */
export function ShoppingView({ figures: { shopping } }: { figures: Figures }) {
  const { toBuy, atHome } = shopping;
  if (toBuy.length + atHome.length === 0) return null;
  return (
    <section class="lt-section lt-shopping">
      <h3>{words.shopping}</h3>
      <Items title={words.toBuy} items={toBuy} />
      <Items title={words.atHome} items={atHome} />
    </section>
  );
}

function Items({ title, items }: { title: string; items: readonly ShoppingItem[] }) {
  if (items.length === 0) return null;
  return (
    <>
      <h4>{title}</h4>
      <ul class="lt-shop-items">
        {items.map(({ name, quantity, orElse, shelf }) => (
          <li>
            {[quantity === null ? name : `${name}, ${quantity}`, ...orElse.map(words.orElse)].join(", ")}
            {shelf !== null && <span class="lt-hint"> ({shelf})</span>}
          </li>
        ))}
      </ul>
    </>
  );
}
