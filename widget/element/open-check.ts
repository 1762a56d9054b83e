import { adoptSheets } from "./adopt-sheet.ts";
import { Conversation, type Place } from "./conversation.tsx";
import { fitLengths, fitSheet } from "./element-sheet.ts";
import { type LiveEdition, loadEdition, loadOldEdition, readJson } from "./load-editions.ts";
import { editionAsked, readBeginning } from "./read-case.ts";
import { Session } from "./session.ts";

export * from "./engine.ts";

/** What the first script hands over. */
export interface OpenParts extends Omit<Place, "addSheet"> {
  /** The request for the live edition's name, already on its way. */
  editions: Promise<Response>;
}

export interface Opened {
  /** Dresses the element again, after it went to another document. */
  dress(): void;
}

/** Opens the check in an element. Throws when the edition cannot be had; then nothing was shown. */
export async function openCheck(parts: OpenParts): Promise<Opened> {
  const { root, settings, memory } = parts;
  const remembered = memory.load();
  const given = remembered === null ? settings : { case: remembered, host: undefined };
  const number = given.case === undefined ? undefined : editionAsked(given.case);
  const live = (await readJson(parts.editions)) as LiveEdition;
  const [edition, asked] = await Promise.all([
    loadEdition(settings.base, live),
    number === undefined || number === live.number ? undefined : loadOldEdition(settings.base, number),
  ]);
  const flowOf = (wanted: number) => [edition.first, asked].find((flow) => flow?.edition.number === wanted);
  const session = new Session(
    edition.first,
    readBeginning(given, edition.first, flowOf),
    asked,
    settings.branch,
  );
  let size = readTextSize(root);
  const more: string[] = [];
  const wear = () => adoptSheets(root, fitSheet(size), ...more.map((sheet) => fitLengths(sheet, size)));
  const addSheet = (sheet: string) => {
    if (!more.includes(sheet)) more.push(sheet);
    wear();
  };
  const dress = () => {
    size = readTextSize(root);
    wear();
  };
  wear();
  new Conversation({ ...parts, addSheet }, edition, session).open(remembered !== null);
  return { dress };
}

/** The reader's own text size, whatever the page made of it. */
function readTextSize(root: ShadowRoot): number {
  const probe = root.ownerDocument.createElement("div");
  probe.className = "probe";
  adoptSheets(root, ".probe { all: initial; }");
  root.append(probe);
  const size = Number.parseFloat(getComputedStyle(probe).fontSize);
  probe.remove();
  return size > 0 ? size : 16;
}
