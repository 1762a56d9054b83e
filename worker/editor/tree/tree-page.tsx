import type { Tree } from "../../../flows/editing/tree.ts";
import type { Show } from "../../../flows/editing/tree-part.ts";
import { hrefTo } from "../draft-frame.tsx";
import type { KeptCase } from "../kept-cases.ts";
import { type Lit, TreeDrawing } from "./drawing.tsx";
import type { PlacedTree } from "./layout.ts";
import { PathList } from "./path-list.tsx";
import { type Played, zooms } from "./routes.tsx";
import { treeWords } from "./tree-words.ts";
import { WordList } from "./word-list.tsx";

interface TreePageProps {
  tree: Tree;
  placed: PlacedTree;
  /** The address of the page without its query. */
  base: string;
  /** Null for the live edition, which is not edited. */
  draft: string | null;
  show: Show;
  zoom: (typeof zooms)[number] | null;
  asked: string;
  played: Played | null;
  lit: Lit | null;
  kept: readonly KeptCase[];
}

export function TreePage(props: TreePageProps) {
  const { tree, placed, draft, zoom, lit, played } = props;
  const hrefOf =
    draft === null
      ? null
      : (id: string) => `${hrefTo(draft, "entry")}?kind=question&id=${encodeURIComponent(id)}`;
  return (
    <>
      <p class="lt-lead">{treeWords.lead}</p>
      {tree.unread.length > 0 && (
        <p class="lt-problem">{`${treeWords.unread} ${tree.unread.slice(0, 5).join(", ")}.`}</p>
      )}
      <Faults tree={tree} />
      <section>
        <ShowForm {...props} />
        <ZoomLinks {...props} />
        <p class="ed-faint" id="tree-keys" hidden>
          {treeWords.keys}
        </p>
        <section class="ed-scroll ed-tree-box" tabindex={0} aria-label={treeWords.drawing}>
          <TreeDrawing
            tree={placed}
            lit={lit}
            zoom={zoom === null ? null : zoom / 100}
            hrefOf={hrefOf ?? ((id) => `#q-${id}`)}
          />
        </section>
        <Legend />
      </section>
      <CaseForm {...props} />
      {played !== null && "path" in played && (
        <PathList path={played.path} tree={tree} problems={played.problems} />
      )}
      <WordList tree={tree} hrefOf={hrefOf} />
    </>
  );
}

/** What stands out, told first. */
function Faults({ tree }: { tree: Tree }) {
  const never = tree.questions.filter(({ neverAsked }) => neverAsked !== null);
  const dead = tree.questions.flatMap(({ id, prompt, answers }) =>
    answers.filter(({ isDeadEnd }) => isDeadEnd).map(({ label }) => ({ id, prompt, label })),
  );
  if (never.length + dead.length === 0)
    return <p role="status">Every question can come up, and no answer is a dead end.</p>;
  return (
    <section class="lt-notices" aria-label="What stands out">
      <ul>
        {never.map(({ id, prompt, neverAsked }) => (
          <li>
            {`✕ ${treeWords.neverAsked}: `}
            <a href={`#q-${id}`}>{prompt}</a>
            {neverAsked && ` (${treeWords.faults[neverAsked]})`}
          </li>
        ))}
        {dead.map(({ id, prompt, label }) => (
          <li>
            {`⊣ ${treeWords.deadEnd}: “${label}” of `}
            <a href={`#q-${id}`}>{prompt}</a>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** Which part of the tree is drawn. */
function ShowForm({ tree, show, zoom, asked }: TreePageProps) {
  const opening = tree.questions.find(({ id }) => id === tree.opening);
  const from = "from" in show ? show.from : "";
  const around = "around" in show ? show.around : "";
  return (
    <form method="get" class="ed-part">
      {zoom !== null && <input type="hidden" name="zoom" value={String(zoom)} />}
      {asked !== "" && <input type="hidden" name="case" value={asked} />}
      <label class="lt-label">
        After the first answer
        <select class="lt-input" id="from" name="from">
          <option value="">any: the whole tree</option>
          {(opening?.answers ?? [])
            .filter(({ leadsTo }) => leadsTo.length > 0)
            .map(({ id, label }) => (
              <option value={id} selected={id === from}>
                {label}
              </option>
            ))}
        </select>
      </label>
      <label class="lt-label">
        Or around one question
        <select class="lt-input" id="around" name="around">
          <option value="">none</option>
          {tree.questions
            .filter(({ kind }) => kind === "finding")
            .map(({ id, prompt, turn }) => (
              <option value={id} selected={id === around}>
                {`${turn ?? "–"} ${prompt}`}
              </option>
            ))}
        </select>
      </label>
      <button class="lt-button lt-button-plain" type="submit">
        Show
      </button>
    </form>
  );
}

/** Links that a script turns into steps without loading. */
function ZoomLinks({ base, show, zoom, asked }: TreePageProps) {
  const href = (to: number | null) => {
    const query = new URLSearchParams();
    if ("from" in show) query.set("from", show.from);
    if ("around" in show) query.set("around", show.around);
    if (asked !== "") query.set("case", asked);
    if (to !== null) query.set("zoom", String(to));
    return `${base}${query.size === 0 ? "" : `?${query}`}`;
  };
  const smaller = zooms.findLast((one) => one < (zoom ?? 60)) ?? zooms[0];
  const larger = zooms.find((one) => one > (zoom ?? 80)) ?? zooms.at(-1) ?? null;
  return (
    <nav class="ed-tabs ed-zoom" aria-label="Size of the drawing" data-zooms={zooms.join(" ")}>
      <a class="lt-link" href={href(smaller)} data-zoom="smaller">
        Smaller
      </a>
      <a class="lt-link" href={href(larger)} data-zoom="larger">
        Larger
      </a>
      <a
        class="lt-link"
        href={href(null)}
        data-zoom="whole"
        aria-current={zoom === null ? "true" : undefined}
      >
        The whole
      </a>
      <span class="ed-faint" role="status" id="tree-size">
        {zoom === null ? "fitted to the page" : `${zoom} %`}
      </span>
    </nav>
  );
}

function Legend() {
  return (
    <details class="lt-aside">
      <summary>What the lines and frames mean</summary>
      <dl class="ed-legend">
        {treeWords.legend.map(([sign, meaning]) => (
          <div>
            <dt>{sign}</dt>
            <dd>{meaning}</dd>
          </div>
        ))}
      </dl>
    </details>
  );
}

/** The path of a case: pasted, or one of those that are kept. */
function CaseForm({ show, zoom, asked, played, kept }: TreePageProps) {
  const sentence = played !== null && "sentence" in played ? played.sentence : null;
  const isKept = kept.some(({ query }) => query === asked);
  return (
    <form class="lt-card" method="get" action="#path">
      <h2 class="lt-prompt">The path of a case</h2>
      {"from" in show && <input type="hidden" name="from" value={show.from} />}
      {"around" in show && <input type="hidden" name="around" value={show.around} />}
      {zoom !== null && <input type="hidden" name="zoom" value={String(zoom)} />}
      {sentence && (
        <p class="lt-problem" role="alert" id="case-problem">
          {sentence}
        </p>
      )}
      <div class="lt-field">
        <label class="lt-label" for="case">
          {treeWords.caseLabel}
        </label>
        <input
          class="lt-input ed-wide"
          id="case"
          name="case"
          value={isKept ? "" : asked}
          maxlength={4000}
          autocomplete="off"
          aria-invalid={sentence === null ? undefined : "true"}
          aria-describedby={sentence === null ? undefined : "case-problem"}
        />
      </div>
      {kept.length > 0 && (
        <div class="lt-field">
          <label class="lt-label" for="kept">
            {treeWords.keptLabel}
          </label>
          <select class="lt-input ed-wide" id="kept" name="kept">
            <option value="">none</option>
            {kept.map(({ id, query, reason }) => (
              <option value={id} selected={query === asked}>
                {reason}
              </option>
            ))}
          </select>
        </div>
      )}
      <p class="lt-actions">
        <button class="lt-button lt-button-plain" type="submit">
          {treeWords.caseButton}
        </button>
      </p>
    </form>
  );
}
