import type { ProblemCode } from "./problems.ts";

export interface ProblemHelp {
  means: string;
  /** What to do, as an order. */
  hint: string;
}

/** One entry per code. DEVELOPERS.md shows the same table. */
export const problemHelp: Record<ProblemCode, ProblemHelp> = {
  FILE_MISSING: { means: "A file that every content folder needs is not there.", hint: "Add the file." },
  FILE_UNKNOWN: {
    means: "A file is in a place where no content file belongs.",
    hint: "Move it to questions, conditions or remedies, or remove it.",
  },
  FILE_NAME: {
    means: "The id in a file is not the name of the file.",
    hint: "Give the file the name of its id.",
  },
  FILE_LIMITS: {
    means:
      "A file is longer, or nested more deeply, than any real one; nothing else is read until it is mended.",
    hint: "Shorten the file, or take brackets, indents and list marks away.",
  },
  FRONT_MATTER: {
    means: "A Markdown file has no block of keys between two lines of three dashes.",
    hint: "Start the file with a line ---, then the keys, then a line ---.",
  },
  YAML_SYNTAX: {
    means: "The keys cannot be read as YAML 1.2.",
    hint: "Check colons, brackets and indents here; put quotes around a text that holds a colon or a #.",
  },
  YAML_DUPLICATE_KEY: { means: "The same key stands twice in one block.", hint: "Keep one of the two." },
  YAML_ALIAS: {
    means: "A YAML anchor or alias (& or *) is used.",
    hint: "Write the value out, or put it in quotes.",
  },
  KEY_MISSING: { means: "A required key is missing.", hint: "Add the key." },
  KEY_UNKNOWN: {
    means: "A key is not one that this kind of file has.",
    hint: "Correct the spelling, or remove the key.",
  },
  TYPE_WRONG: {
    means: "A value has the wrong shape, such as a number for a text.",
    hint: "Write the value in the shape named here; quotes make a number a text.",
  },
  WORD_UNKNOWN: {
    means: "A value is not one of the words allowed there.",
    hint: "Use one of the words named here.",
  },
  VALUE_BAD: {
    means: "A value has the right shape but cannot be right: empty, out of range, badly formed.",
    hint: "Correct the value.",
  },
  PROSE_HTML: {
    means: "A text holds an HTML tag, comment or entity.",
    hint: "Write plain Markdown; type the character itself in place of an entity.",
  },
  PROSE_IMAGE: { means: "A text holds an image.", hint: "Say in words what the picture shows." },
  PROSE_TABLE: { means: "A text holds a table.", hint: "Write a list." },
  PROSE_HEADING: {
    means: "A text holds a heading where none may be.",
    hint: "Use **strong** words, or start a new paragraph.",
  },
  PROSE_CODE_BLOCK: {
    means: "A text holds a code block; four spaces at the start of a line make one.",
    hint: "Remove the spaces or the fence.",
  },
  PROSE_QUOTE: { means: "A text holds a block quote.", hint: "Remove the > at the start of the line." },
  PROSE_LINK: {
    means: "A link does not start with https:, mailto: or tel:.",
    hint: "Link to an https, mailto or tel address, or drop the link.",
  },
  PROSE_OTHER: {
    means:
      "A text holds Markdown that is not shown here: a rule, a task box, struck-out words, a link title or definition, a list that starts above 1.",
    hint: "Use only paragraphs, lists, *emphasis*, **strong** and links.",
  },
  TEXT_EMPTY: { means: "A text that a reader needs is empty.", hint: "Write at least one sentence." },
  SECTION_MISSING: {
    means: "A condition lacks one of its seven headings.",
    hint: "Add the heading and its text.",
  },
  SECTION_UNKNOWN: {
    means: "A condition has a heading that is not one of the seven.",
    hint: "Use the seven headings, spelled exactly.",
  },
  SECTION_ORDER: {
    means: "The headings of a condition are not in their order.",
    hint: "Move the section to its place.",
  },
  SECTION_TWICE: { means: "A condition has one heading twice.", hint: "Merge the two sections." },
  SECTION_STRAY_TEXT: {
    means: "A condition has text before its first heading.",
    hint: "Move the text under a heading.",
  },
  ID_TWICE: { means: "Two entries have the same id.", hint: "Rename or remove one of them." },
  ID_RESERVED: {
    means: "An id has a meaning of its own in case links (e, not-sure).",
    hint: "Choose another id.",
  },
  ID_CLASH: {
    means: "A question and a finding have the same id; case links use both.",
    hint: "Rename the question.",
  },
  ID_RETIRED: {
    means: "An entry has an id that was retired; old links and editions still hold it with its old meaning.",
    hint: "Give the entry an id that was never used.",
  },
  LISTED_TWICE: { means: "A list names the same id twice.", hint: "Remove one of the two." },
  FINDING_UNKNOWN: {
    means: "No finding has this id.",
    hint: "Correct the id, or add the finding to findings.yaml.",
  },
  CONDITION_UNKNOWN: { means: "No condition has this id.", hint: "Correct the id, or add the condition." },
  HOST_UNKNOWN: {
    means: "No host plant and no group of host plants has this id.",
    hint: "Correct the id, or add the plant or group to hosts.yaml.",
  },
  REMEDY_UNKNOWN: { means: "No remedy has this id.", hint: "Correct the id, or add the remedy." },
  QUESTION_UNKNOWN: { means: "No question has this id.", hint: "Correct the id, or add the question." },
  SOURCE_UNKNOWN: {
    means: "No source has this id.",
    hint: "Correct the id, or add the source to sources.yaml.",
  },
  PRODUCT_UNKNOWN: {
    means: "No product type has this id.",
    hint: "Correct the id, or add the product to products.yaml.",
  },
  IMPLIES_CIRCLE: {
    means: "A finding implies itself through others.",
    hint: "Let the sharper finding imply the vaguer one, never back.",
  },
  FINDING_NOT_ASKED: {
    means: "No answer establishes a finding, neither by itself nor together with others.",
    hint: "Add it under `present` of an answer, or remove the finding.",
  },
  HOST_NAME_TWICE: {
    means: "Two host plants share a name, large and small letters being equal.",
    hint: "Leave the name with one plant.",
  },
  SET_UNKNOWN: {
    means: "The lexicon names a set of words that it does not have.",
    hint: "Correct the name in the braces, or add the set under words.",
  },
  FINDING_NOT_SAID: {
    means: "The lexicon has no way of saying a finding, and nothing else tells it.",
    hint: "Add the finding to lexicon.yaml with the ways people say it.",
  },
  ORDER_INCOMPLETE: {
    means: "A question is not in the order of the conversation.",
    hint: "Add it to `order` in conversation.yaml.",
  },
  ORDER_TWICE: {
    means: "A question is in the order twice, or is the opening as well.",
    hint: "Keep it in one place.",
  },
  ORDER_KIND: {
    means:
      "The opening, the order or `when_unsure` names a question about the plant's name or the household.",
    hint: "Leave it out; those questions are asked when they are needed.",
  },
  OPTIONS_MISSING: {
    means: "A question about findings has no answers to choose from.",
    hint: "Add `options`.",
  },
  OPTION_NONE: {
    means: "A `none: true` answer also establishes something, or a question has two of them.",
    hint: "Give the finding an answer of its own, and keep one `none: true`.",
  },
  OPTION_CONTRADICTION: {
    means: "An answer establishes and excludes the same finding.",
    hint: "Remove the finding, or the sharper one that implies it, from one side.",
  },
  HOST_QUESTION: {
    means: "There must be one question of kind host, with the id host and no options.",
    hint: "Keep questions/host.md as the only question of that kind.",
  },
  FACT_QUESTION: {
    means:
      "A household fact cannot be answered with yes or no, or facts and findings are mixed in one question.",
    hint: "Let every answer of a question of kind fact say yes or no to the same facts, and cover all four.",
  },
  LOOK_QUESTION: {
    means:
      "The questions of the second look are not whole: look-again, tried and technique, with the answers the rules know.",
    hint: "Keep the three questions of kind look with their answers' ids; labels and prompts are yours.",
  },
  EVIDENCE_MISSING: {
    means: "Nothing speaks for a condition, so it can never be found.",
    hint: "List at least one finding under hallmark or supports.",
  },
  EVIDENCE_TWICE: {
    means: "A condition lists one finding under two evidence words.",
    hint: "Keep the finding under one word.",
  },
  HALLMARK_KIND: {
    means: "A finding about place or care is a hallmark, and it is not a state that is the condition itself.",
    hint: "List it under supports.",
  },
  PLAN_MISSING: { means: "A condition has no plan.", hint: "List at least one remedy." },
  SOURCES_MISSING: {
    means: "A condition cites no source.",
    hint: "Cite a source, or mark it with common-practice or from-memory.",
  },
  SOURCE_TIER: {
    means: "Only common-practice and from-memory may be of tier none.",
    hint: "Cite a source of tier A or B.",
  },
  SYSTEMIC_UNGUARDED: {
    means: "A systemic (toxicity 3) may reach a plant that is eaten, in flower or outdoors.",
    hint: "List eaten and flowering-or-outdoors under never_when.",
  },
  PRODUCT_ON_FOOD: {
    means: "A product not meant for food plants may reach a plant that is eaten.",
    hint: "List eaten under never_when; set for_food_plants only if labels allow it.",
  },
  FIRST_AID_CHEMICAL: {
    means: "First aid, given while nothing is certain, holds a chemical remedy.",
    hint: "Choose a remedy that is not chemical.",
  },
  DRAWING_SYNTAX: {
    means:
      "A drawing is not plain, well-formed XML: a tag is not closed, or it has a document type or an entity.",
    hint: "Save it as plain SVG, with nothing before the svg element.",
  },
  DRAWING_ELEMENT: {
    means: "A drawing holds an element that is no shape and no group.",
    hint: "Use g, path, circle, ellipse, line, polyline, polygon and rect.",
  },
  DRAWING_ATTRIBUTE: {
    means: "A shape has an attribute, or a value, that is not geometry and not one of the roles.",
    hint: "Keep the geometry, and say with class how the shape is inked.",
  },
  DRAWING_TEXT: {
    means: "A drawing holds letters.",
    hint: "Say it under `shows` in drawings.yaml, where everyone can read it.",
  },
  DRAWING_SIZE: {
    means:
      "A drawing is not on the square that all share, or it has more shapes or characters than any needs.",
    hint: 'Give the svg element viewBox="0 0 96 96", and simplify the lines.',
  },
  DRAWING_MISSING: {
    means: "A drawing is listed, and its file is not there.",
    hint: "Add drawings/ID.svg, or take the entry out.",
  },
  DRAWING_UNKNOWN: {
    means: "A drawing is not listed in drawings.yaml, so that it has no words.",
    hint: "Add it to drawings.yaml, with what to look for.",
  },
  DRAWING_TWICE: {
    means: "Two drawings claim the same finding, check, condition or answer.",
    hint: "Leave it with the drawing that shows it better.",
  },
  DRAWING_REGION: {
    means: "The regions of a question's picture and its answers do not fit together.",
    hint: "Give answers the regions that the drawing marks with data-region, each once.",
  },
};
