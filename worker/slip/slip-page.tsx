import type { CivilDate } from "../../flows/calendar/civil-date.ts";
import type { Case } from "../../flows/case.ts";
import type { Branch } from "../../flows/edition.ts";
import type { Flow } from "../../flows/flow.ts";
import { makeReport } from "../../widget/check/make-report.ts";
import { hrefToCheck, makeAside } from "../../widget/check/page-ways.ts";
import { describeAnswers } from "../../widget/views/describe-answer.ts";
import { Prose } from "../../widget/views/prose.tsx";
import { QrCode } from "../../widget/views/qr-code.tsx";
import { namedCondition, type Report, rivalsOf, sayVerdict } from "../../widget/views/report.ts";
import * as words from "../../widget/views/words.ts";
import { Page } from "../pages/page.tsx";
import { slipWords } from "./slip-words.ts";

interface SlipPageProps {
  flow: Flow;
  case: Case;
  branch: Branch | null;
  origin: string;
  today: CivilDate;
  /** What could not be read of the link. */
  notices: readonly string[];
}

/** As many answers as one sheet of paper holds beside the rest. A conversation has fewer. */
const MOST_ANSWERS = 14;

/** What goes with the bag: one sheet that the bench can read, tick and file. */
export function SlipPage({ flow, case: kase, branch, origin, notices, today }: SlipPageProps) {
  const report = makeReport(flow, kase, { base: `${origin}/`, branch, today });
  const { shop } = flow.edition;
  return (
    <Page
      title={slipWords.title}
      shop={shop}
      skipTo="slip"
      sheet="/assets/slip.css"
      script="/assets/print.js"
    >
      <div class="slip-tools">
        {notices.map((notice) => (
          <p class="lt-problem">{notice}</p>
        ))}
        <p>{slipWords.hint}</p>
        <p class="lt-actions">
          <button class="lt-button" type="button" data-print hidden>
            {slipWords.print}
          </button>
          <a class="lt-link" href={hrefToCheck(flow, kase, makeAside({}, branch, today))}>
            {slipWords.backToCheck}
          </a>
        </p>
      </div>
      <article class="slip" id="slip" aria-labelledby="slip-title">
        <Head report={report} />
        <Told report={report} kase={kase} />
        <section>
          <h3>{slipWords.soFar}</h3>
          <p class="slip-verdict">{sayVerdict(flow, report.verdict)}</p>
          <Rivals report={report} />
        </section>
        <section class="slip-bring">
          <h3>{slipWords.bring}</h3>
          <Prose of={flow.edition.conversation.howToBring} />
        </section>
        <Bench report={report} />
      </article>
    </Page>
  );
}

function Head({ report: { flow, branch, code, link } }: { report: Report }) {
  const { shop } = flow.edition;
  return (
    <header class="slip-head">
      <div>
        <p class="slip-shop">{shop.name}</p>
        <h2 id="slip-title">{slipWords.title}</h2>
        <p class="slip-label">{slipWords.code}</p>
        <p class="slip-code">{code}</p>
        <ul class="slip-branches">
          {(branch ? [branch] : shop.branches).map(({ name, address, hours, phone }) => (
            <li>
              <strong>{name}</strong>, {address}. {words.hours}: {hours}. {words.phone}:{" "}
              <span class="slip-phone">{phone}</span>
            </li>
          ))}
        </ul>
      </div>
      <QrCode text={link} label={slipWords.scan} />
      <p class="slip-link">{link}</p>
    </header>
  );
}

function Told({ report: { flow }, kase }: { report: Report; kase: Case }) {
  const all = describeAnswers(flow, kase);
  const told = all.slice(0, MOST_ANSWERS);
  const more = all.length - told.length;
  return (
    <section>
      <h3>{slipWords.told}</h3>
      {told.length === 0 && <p>{slipWords.nothingTold}</p>}
      <dl class="slip-told">
        {told.map(({ prompt, answer }) => (
          <div>
            <dt>{prompt}</dt>
            <dd>{answer}</dd>
          </div>
        ))}
      </dl>
      {more > 0 && <p>{slipWords.andMore(more)}</p>}
    </section>
  );
}

function Rivals({ report }: { report: Report }) {
  const names = rivalsOf(report).map(({ condition }) => report.flow.condition(condition)?.name ?? condition);
  return names.length === 0 ? null : <p>{slipWords.closest(names.join(", "))}</p>;
}

/** Only a person who has seen the sample confirms anything: the boxes are ticked by hand. */
function Bench({ report }: { report: Report }) {
  const named = namedCondition(report);
  return (
    <section class="slip-bench">
      <h3>{slipWords.bench}</h3>
      <ul class="slip-boxes">
        <li>
          {slipWords.confirmed}
          {named && `: ${named.name}`}
        </li>
        <li>{slipWords.notDetected}</li>
        <li class="slip-write">{slipWords.somethingElse}</li>
      </ul>
      <p class="slip-lines">
        <span class="slip-write">{slipWords.date}:</span> <span class="slip-write">{slipWords.seenBy}:</span>
      </p>
    </section>
  );
}
