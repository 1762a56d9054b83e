import type { TreeQuestion } from "../../../flows/editing/tree.ts";
import { LINE, PAD, type PlacedArrow, type PlacedCard, type PlacedTree, type Point } from "./layout.ts";
import { treeWords } from "./tree-words.ts";

/** What is lit up: the turn of each question on the path of a case, the answers given, and how it ended. */
export interface Lit {
  turns: ReadonlyMap<string, number>;
  answers: ReadonlySet<string>;
  /** Pairs of questions that followed each other. */
  moves: ReadonlySet<string>;
  end: string | null;
}

interface DrawingProps {
  tree: PlacedTree;
  lit: Lit | null;
  /** Pixels for each unit; null fits it to the page. */
  zoom: number | null;
  hrefOf(question: string): string;
}

const REM = 16;

/** The tree as a drawing. Each question is a link; what is behind the cards is for the eye only. */
export function TreeDrawing({ tree, lit, zoom, hrefOf }: DrawingProps) {
  const { width, height, cards, arrows } = tree;
  const byId = new Map(cards.map((card) => [card.id, card]));
  const size =
    zoom === null ? {} : { width: `${(width * zoom) / REM}rem`, height: `${(height * zoom) / REM}rem` };
  return (
    <svg
      class={zoom === null ? "ed-tree ed-tree-fit" : "ed-tree"}
      viewBox={`0 0 ${width} ${height}`}
      data-tree=""
      data-wide={String(width / REM)}
      data-high={String(height / REM)}
      {...size}
    >
      <title>{treeWords.drawing}</title>
      <defs>
        <marker
          id="tip"
          viewBox="0 0 10 10"
          refX="9"
          refY="5"
          markerWidth="9"
          markerHeight="9"
          markerUnits="userSpaceOnUse"
          orient="auto"
        >
          <path class="ed-tip" d="M0 0L10 5L0 10z" />
        </marker>
      </defs>
      <g>
        {arrows.map((arrow) => (
          <ArrowLines arrow={arrow} from={byId.get(arrow.from)} to={byId.get(arrow.to)} lit={lit} />
        ))}
      </g>
      {cards.map((card) =>
        card.question === null ? (
          <VerdictCard card={card} end={lit?.end ?? null} />
        ) : (
          <QuestionLink card={card} question={card.question} lit={lit} href={hrefOf(card.id)} />
        ),
      )}
    </svg>
  );
}

interface ArrowLinesProps {
  arrow: PlacedArrow;
  from: PlacedCard | undefined;
  to: PlacedCard | undefined;
  lit: Lit | null;
}

/** One line from each answer that takes this way. They join at the first bend. */
function ArrowLines({ arrow: { from: start, to: end, by, kind, points }, from, to, lit }: ArrowLinesProps) {
  const [first, ...rest] = points;
  const joint = rest[0];
  if (first === undefined || joint === undefined || from === undefined || to === undefined) return null;
  const isLit = lit?.moves.has(`${start}>${end}`) === true;
  const rows = from.rows.filter(({ answer }) => by.includes(answer.id));
  const isGiven = (answer: string) => !isLit || lit?.answers.has(`${start}=${answer}`) === true;
  const ports = rows.map(({ answer, middle }) => ({
    at: { x: from.x + from.width, y: middle },
    isDim: !isGiven(answer.id),
  }));
  const line = `ed-arrow ed-arrow-${kind}`;
  return (
    <g data-from={start} data-to={end} class={isLit ? "ed-lit" : undefined}>
      {ports.length === 0 && <path class={line} d={`M${say(first)}L${say(joint)}`} />}
      {ports.map(({ at, isDim }) => (
        <path class={isDim ? "ed-arrow ed-arrow-dim" : line} d={swing(at, joint)} />
      ))}
      <path class={line} d={curve([...rest.slice(0, -1), enter(to, rest)])} marker-end="url(#tip)" />
    </g>
  );
}

/** From the side of a card into a joint. */
function swing(from: Point, to: Point): string {
  const half = (from.x + to.x) / 2;
  return `M${say(from)}C${half} ${from.y} ${half} ${to.y} ${say(to)}`;
}

/** Where an arrow meets a card: from the left, it ends at the left side, as level as it can. */
function enter({ x, y, height }: PlacedCard, points: readonly Point[]): Point {
  const last = points.at(-1) ?? { x, y };
  const before = points.at(-2);
  if (before === undefined || before.x > x - 8) return last;
  return { x, y: Math.min(Math.max(before.y, y + 10), y + height - 10) };
}

/** A soft line through the bends. */
function curve(points: readonly Point[]): string {
  const [start, ...rest] = points;
  const last = rest.at(-1);
  if (start === undefined || last === undefined) return "";
  const bends = rest.slice(0, -1).map((bend, i) => {
    const next = rest[i + 1] ?? bend;
    const to = i === rest.length - 2 ? last : { x: (bend.x + next.x) / 2, y: (bend.y + next.y) / 2 };
    return `Q${say(bend)} ${say(to)}`;
  });
  return `M${say(start)}${bends.length === 0 ? `L${say(last)}` : bends.join("")}`;
}

function say({ x, y }: Point): string {
  return `${Math.round(x * 10) / 10} ${Math.round(y * 10) / 10}`;
}

interface QuestionLinkProps {
  card: PlacedCard;
  question: TreeQuestion;
  lit: Lit | null;
  href: string;
}

/** Its lines end in a space, so that a screen reader does not join their words. */
function QuestionLink({ card, question, lit, href }: QuestionLinkProps) {
  const { id, x, y, width, height, heading, rows, notes } = card;
  const step = lit?.turns.get(id);
  const mark = question.neverAsked === null ? null : treeWords.neverAsked;
  const state = [step === undefined ? "" : " ed-lit", mark === null ? "" : " ed-never"].join("");
  return (
    <a href={href} class={`ed-card${state}`} data-id={id} data-leads={listLeads(question)}>
      {mark !== null && <rect class="ed-halo" x={x - 6} y={y - 6} width={width + 12} height={height + 12} />}
      <rect class="ed-box" x={x} y={y} width={width} height={height} />
      <text class="ed-turn" x={x + PAD} y={y + PAD + LINE * 0.7}>
        {`${[question.turn ?? "–", mark && `✕ ${mark}`].filter((part) => part !== null).join(" · ")} `}
      </text>
      <text class="ed-heading">
        {heading.map((line, i) => (
          <tspan x={x + PAD} y={y + PAD + LINE * (i + 1.7)}>
            {`${line} `}
          </tspan>
        ))}
      </text>
      <text class="ed-note">
        {notes.map((line, i) => (
          <tspan x={x + PAD} y={y + PAD + LINE * (heading.length + i + 1.7)}>
            {`${line} `}
          </tspan>
        ))}
      </text>
      {rows.map(({ answer, lines, y: top, middle }) => (
        <>
          {answer.isDeadEnd && <path class="ed-stop" d={`M${x + width} ${middle}h14m0 -8v16`} />}
          <text class={lit?.answers.has(`${id}=${answer.id}`) ? "ed-answer ed-given" : "ed-answer"}>
            {lines.map((line, i) => (
              <tspan x={x + PAD * 1.5} y={top + LINE * (i + 0.7)}>
                {`${line} `}
              </tspan>
            ))}
          </text>
        </>
      ))}
      {step !== undefined && <Badge x={x + width} y={y} step={step} />}
    </a>
  );
}

function Badge({ x, y, step }: Point & { step: number }) {
  return (
    <>
      <circle class="ed-badge" cx={x} cy={y} r={14} />
      <text class="ed-badge-text" x={x} y={y + 5} text-anchor="middle">
        {step}
      </text>
    </>
  );
}

/** Ids of the questions that it leads to, for the arrow keys. */
function listLeads({ answers }: TreeQuestion): string {
  return [...new Set(answers.flatMap(({ leadsTo }) => leadsTo))].join(" ");
}

function VerdictCard({
  card: { x, y, width, height, heading },
  end,
}: {
  card: PlacedCard;
  end: string | null;
}) {
  return (
    <g class={end === null ? "ed-verdict" : "ed-verdict ed-lit"}>
      <rect class="ed-box" x={x} y={y} width={width} height={height} rx={height / 2} />
      <text class="ed-heading" x={x + width / 2} y={y + height / 2 + 5} text-anchor="middle">
        {end === null ? heading : `${end.charAt(0).toUpperCase()}${end.slice(1)}`}
      </text>
    </g>
  );
}
