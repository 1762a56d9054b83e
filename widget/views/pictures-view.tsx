import type { Drawing, DrawingPart, Question } from "../../flows/edition.ts";
import { type DrawingEntry, openPictures } from "../../flows/pictures.ts";
import { DrawingView } from "./drawing.tsx";
import type { PictureViews } from "./ways.ts";

/** What a drawing is made of and what it says; it may come later than the knowledge where it belongs. */
export type DrawingBody = Pick<Drawing, "shows" | "parts">;

/** The drawings as the views show them. `bodyOf` gives undefined for one that is not here yet: its place stays empty. */
export function showPictures(
  entries: readonly DrawingEntry[],
  bodyOf: (id: string) => DrawingBody | undefined,
): PictureViews {
  const pictures = openPictures(entries);
  const read = (entry: DrawingEntry | undefined) => entry && bodyOf(entry.id);
  return {
    option(question, id) {
      const option = question.options.find((one) => one.id === id);
      const body = option && read(pictures.ofOption(question, option));
      return body ? <DrawingView parts={body.parts} /> : null;
    },
    figures: (question) => (
      <div class="lt-figures">
        {question.options.flatMap((option) => {
          const body = read(pictures.ofOption(question, option));
          return body ? [<Figure key={option.id} body={body} title={option.label} />] : [];
        })}
      </div>
    ),
    check(question) {
      const body = read(pictures.ofCheck(question));
      return body ? <DrawingView parts={body.parts} label={body.shows} /> : null;
    },
    press(question, idOf) {
      const found = pictures.pressedFor(question);
      const body = read(found?.drawing);
      return found && body ? <Press {...{ question, idOf, body }} regions={found.regions} /> : null;
    },
    condition(condition) {
      const entry = pictures.ofCondition(condition);
      const body = read(entry);
      if (entry === undefined) return null;
      return body ? <Figure body={body} title={condition.name} /> : <div class="lt-coming"></div>;
    },
    areApart(one, other) {
      const [left, right] = [pictures.ofCondition(one), pictures.ofCondition(other)];
      return left !== undefined && right !== undefined && left !== right;
    },
  };
}

function Figure({ body, title }: { body: DrawingBody; title: string }) {
  return (
    <figure class="lt-figure">
      <DrawingView parts={body.parts} />
      <figcaption>
        <span class="lt-label">{title}</span>
        {body.shows}
      </figcaption>
    </figure>
  );
}

interface PressProps {
  question: Question;
  idOf: (option: string) => string;
  body: DrawingBody;
  regions: Drawing["presses"][number]["regions"];
}

/**
 * A picture whose regions are further labels of the radio buttons below it: a press on a region is a press on its
 * button, by the browser itself. Each region is a layer of the whole picture, of which only the shapes take the press.
 * The layers stand in the order of the options, by which the sheet finds the one to mark.
 */
function Press({ question, idOf, body, regions }: PressProps) {
  const taken = new Set(regions.map(({ region }) => region));
  const still = body.parts.filter(({ region }) => region === undefined || !taken.has(region));
  return (
    <>
      <DrawingView parts={still} label={body.shows} />
      {question.options.map(({ id }) => {
        const region = regions.find(({ option }) => option === id)?.region;
        const parts = body.parts.filter(
          (part: DrawingPart) => part.region !== undefined && part.region === region,
        );
        return parts.length === 0 ? (
          <span hidden />
        ) : (
          <label class="lt-layer" for={idOf(id)} data-region={region} aria-hidden="true">
            <DrawingView parts={parts} />
          </label>
        );
      })}
    </>
  );
}
