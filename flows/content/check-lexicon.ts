import { listChoices } from "../understand/ways.ts";
import type { Content, Entry } from "./content.ts";
import type { LexiconFile } from "./lexicon-schema.ts";
import { findNearest } from "./nearest.ts";
import { makeProblem, type Problem } from "./problems.ts";
import type { Path } from "./read-yaml.ts";

/** What people say must lead to what the check knows, and each finding must be said in some way. */
export function checkLexicon(content: Content): Problem[] {
  const { lexicon } = content;
  if (lexicon === null) return [];
  return [...checkSets(lexicon), ...checkNicknames(content, lexicon), ...checkAllSaid(content, lexicon)];
}

/** Every {set} that a way names must be one of `words`. */
function checkSets({ value, at }: Entry<LexiconFile>): Problem[] {
  const sets = Object.keys(value.words);
  const check = (name: string, path: Path): Problem[] => {
    if (sets.includes(name)) return [];
    const nearest = findNearest(name, sets);
    const hint = nearest === null ? undefined : `Did you mean “${nearest}”?`;
    return [makeProblem("SET_UNKNOWN", at(path), `There is no set of words “${name}”.`, hint)];
  };
  const named = [
    ...value.parts.flatMap((name, index) => check(name, ["parts", index])),
    ...value.things.flatMap((name, index) => check(name, ["things", index])),
  ];
  return [
    ...named,
    ...listWays(value).flatMap(({ way, path }) =>
      listChoices(way).flatMap(({ set }) => (set === null ? [] : check(set, path))),
    ),
  ];
}

function listWays(value: LexiconFile): { way: string; path: Path }[] {
  const lists = (["findings", "facts", "theories", "asks"] as const).flatMap((kind) =>
    value[kind].flatMap((entry, index) =>
      (["ways", "when_denied", "unless"] as const).flatMap((key) => {
        const ways: Partial<Record<typeof key, string[]>> = entry;
        return (ways[key] ?? []).map((way, place) => ({ way, path: [kind, index, key, place] }));
      }),
    ),
  );
  return lists;
}

/** A nickname must lead to one plant, like a name of the plant list. */
function checkNicknames({ hosts }: Content, { value, at }: Entry<LexiconFile>): Problem[] {
  const owners = new Map<string, string>();
  for (const { value: host } of hosts.entries) {
    for (const name of [host.name, ...host.also_called]) owners.set(name.trim().toLowerCase(), host.id);
  }
  return value.hosts.flatMap(({ host, names }, index) =>
    names.flatMap((name, place) => {
      const key = name.replaceAll("_", " ").toLowerCase();
      const owner = owners.get(key);
      owners.set(key, owner ?? host);
      return owner === undefined || owner === host
        ? []
        : [
            makeProblem(
              "HOST_NAME_TWICE",
              at(["hosts", index, "names", place]),
              `“${key}” is a name of “${owner}” already.`,
            ),
          ];
    }),
  );
}

/** A finding that is made up of others is told by telling those. */
function checkAllSaid({ findings }: Content, { value }: Entry<LexiconFile>): Problem[] {
  const said = new Set(value.findings.map(({ id }) => id));
  return findings.entries.flatMap(({ value: finding, at }) =>
    said.has(finding.id) || finding.combines.length > 0
      ? []
      : [makeProblem("FINDING_NOT_SAID", at(["id"]), `lexicon.yaml has no way of saying “${finding.id}”.`)],
  );
}
