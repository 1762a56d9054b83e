import type { Flow } from "./flow.ts";
import { NOT_SURE } from "./flow.ts";
import { classifyHosts } from "./walk/classes.ts";
import { traverse } from "./walk/traverse.ts";

/** One part of the conversation as a graph in the DOT language. */
export interface ChartPart {
  title: string;
  dot: string;
}

/**
 * The conversation as drawings, one for each answer to the opening: which question follows which, and after which
 * answers. Taken from walking the conversations with a plant that is not known, so it shows what really happens.
 */
export function drawChart(flow: Flow): ChartPart[] {
  const [opening] = flow.prompts;
  if (!opening) return [];
  const unknownPlant = classifyHosts(flow).filter(({ hosts }) => hosts.includes(null));
  return opening.replies.map((reply) => {
    const { moves } = traverse(flow, unknownPlant, [reply]);
    const option = opening.question.options.find(({ id }) => id === reply.id);
    return { title: option?.label ?? "I'm not sure", dot: toDot(flow, moves) };
  });
}

function toDot(flow: Flow, moves: ReadonlyMap<string, ReadonlyMap<string, ReadonlySet<string>>>): string {
  const ids = new Set([...moves.keys(), ...[...moves.values()].flatMap((onward) => [...onward.keys()])]);
  const nodes = [...ids].map((id) => {
    if (id === "") return '  "" [label="Verdict", shape=box, style="rounded,bold"];';
    return `  ${quote(id)} [label=${quote(wrap(flow.question(id)?.prompt ?? id))}, shape=box];`;
  });
  const edges = [...moves].flatMap(([from, onward]) =>
    [...onward].map(
      ([to, replies]) =>
        `  ${quote(from)} -> ${quote(to)} [label=${quote(nameReplies(flow, from, replies))}${to === "" ? ", style=dashed" : ""}];`,
    ),
  );
  const style = 'rankdir=TB; node [fontname="Georgia", fontsize=11]; edge [fontname="Georgia", fontsize=9];';
  return `digraph conversation {\n  ${style}\n${[...nodes, ...edges].join("\n")}\n}\n`;
}

function nameReplies(flow: Flow, question: string, replies: ReadonlySet<string>): string {
  const all = flow.promptById.get(question)?.replies.length ?? 0;
  if (replies.size === all) return "any answer";
  const labels = [...replies].map((reply) => {
    if (reply === NOT_SURE) return "not sure";
    return flow.question(question)?.options.find(({ id }) => id === reply)?.label ?? reply;
  });
  return labels.map(wrap).join("\\n");
}

const LINE = 28;

/** Breaks a text into lines of about 28 characters, in the notation of DOT. */
function wrap(text: string): string {
  const lines: string[] = [""];
  for (const word of text.split(" ")) {
    const line = lines.at(-1) ?? "";
    if (line !== "" && line.length + word.length > LINE) lines.push(word);
    else lines[lines.length - 1] = line === "" ? word : `${line} ${word}`;
  }
  return lines.join("\\n");
}

function quote(text: string): string {
  return `"${text.replaceAll('"', '\\"')}"`;
}
