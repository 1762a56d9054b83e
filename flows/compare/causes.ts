import type { Answer } from "../case.ts";
import type { Edition } from "../edition.ts";
import { type Flow, NOT_SURE, openFlow } from "../flow.ts";
import { makePlan } from "../plan.ts";
import { judge } from "../verdict.ts";
import { replayAnswers } from "./case-tests.ts";
import type { ChangeGroup, ChangeKind } from "./report.ts";
import { copyOf, listUnits, type Unit, type UnitKind } from "./units.ts";

/** Something that changed, and that the pairs of a group differ because of. */
export interface Cause {
  kind: UnitKind;
  id: string;
  field: string;
  sentence: string;
  /** True when this change alone makes the difference; false when it takes others as well. */
  alone: boolean;
}

export interface Causes {
  units: readonly Unit[];
  /** Why the example of a group differs. */
  explain(group: ChangeGroup): Cause[];
}

/**
 * Finds causes by trying: the live edition with a single change taken over, and the draft with a single change taken back. What
 * alone leads to the draft's outcome is a cause; where nothing does, whatever the outcome cannot do without is.
 */
export function openCauses(live: Edition, draft: Edition): Causes {
  const units = listUnits(live, draft);
  const flows = { live: openFlow(live), draft: openFlow(draft) };
  const tried = new Map<string, Flow>();
  const mix = (base: Edition, unit: Unit, at: number, from: Edition): Flow => {
    const key = `${base === live} ${at}`;
    const found = tried.get(key) ?? openMixed(base, unit, from);
    tried.set(key, found);
    return found;
  };
  return {
    units,
    explain: ({ kind, example }) => {
      const shopper = shopperOf([...example.live.answers, ...example.draft.answers]);
      const was = outcome(flows.live, shopper, kind);
      const is = outcome(flows.draft, shopper, kind);
      const only = units[0];
      if (units.length === 1 && only) return [tell(only, true)];
      const alone = units.filter((unit, i) => outcome(mix(live, unit, i, draft), shopper, kind) === is);
      if (was !== is && alone.length > 0) return alone.map((unit) => tell(unit, true));
      const needed = units.filter((unit, i) => outcome(mix(draft, unit, i, live), shopper, kind) !== is);
      return (needed.length > 0 ? needed : units).map((unit) => tell(unit, false));
    },
  };
}

function tell({ kind, id, field, sentence }: Unit, alone: boolean): Cause {
  return { kind, id, field, sentence, alone };
}

/** What a shopper says to each question; an answer that one edition does not know gives way to the other's. */
function shopperOf(answers: readonly Answer[]): Answer[] {
  const given = new Map<string, Answer>();
  for (const answer of answers) {
    const before = given.get(answer.to);
    if (!before || before.is === NOT_SURE) given.set(answer.to, answer);
  }
  return [...given.values()];
}

function outcome(flow: Flow, shopper: readonly Answer[], kind: ChangeKind): string {
  const kase = replayAnswers(flow, shopper);
  const asked = kase.answers.map(({ to }) => to);
  const verdict = judge(flow, kase);
  const { standing, leader, beside, bringSample } = verdict;
  const end = standing === "undetermined" ? [standing] : [standing, leader, beside, bringSample];
  if (kind === "verdict") return JSON.stringify(end);
  if (kind === "questions") return JSON.stringify([end, asked]);
  const steps = makePlan(flow, kase, verdict).steps.map(({ remedy, phase, cautions }) => [
    remedy,
    phase,
    cautions.length,
  ]);
  return JSON.stringify([end, steps]);
}

function openMixed(base: Edition, unit: Unit, from: Edition): Flow {
  const edition = copyOf(base);
  unit.take(edition, from);
  return openFlow(dropUnknown(edition));
}

/** Leaves out every mention of what a mixed edition does not hold. */
function dropUnknown(edition: Edition): Edition {
  const known = <T extends { id: string }>(entries: readonly T[]) => {
    const ids = new Set(entries.map(({ id }) => id));
    return (list: readonly string[]) => list.filter((id) => ids.has(id));
  };
  const [findings, conditions, remedies, questions] = [
    known(edition.findings),
    known(edition.conditions),
    known(edition.remedies),
    known(edition.questions),
  ];
  for (const finding of edition.findings) {
    finding.implies = findings(finding.implies);
    // Without one of its parts a whole would come too easily.
    if (findings(finding.combines).length < finding.combines.length) finding.combines = [];
  }
  for (const question of edition.questions) {
    question.askWhen = { any: findings(question.askWhen.any), none: findings(question.askWhen.none) };
    for (const option of question.options) {
      option.present = findings(option.present);
      option.absent = findings(option.absent);
    }
  }
  for (const condition of edition.conditions) {
    const { evidence, whenAbsent } = condition;
    for (const word of ["hallmark", "supports", "against", "excludes"] as const)
      evidence[word] = findings(evidence[word]);
    condition.whenAbsent = { against: findings(whenAbsent.against), excludes: findings(whenAbsent.excludes) };
    condition.looksLike = condition.looksLike.filter(({ other }) => conditions([other]).length > 0);
    condition.broughtOnBy = conditions(condition.broughtOnBy);
    condition.brings = conditions(condition.brings);
    condition.plan = remedies(condition.plan);
  }
  const { conversation } = edition;
  conversation.order = questions(conversation.order).filter((id) => id !== conversation.opening);
  conversation.whenUnsure = questions(conversation.whenUnsure);
  conversation.firstAid = remedies(conversation.firstAid);
  if (questions([conversation.opening]).length === 0) conversation.opening = conversation.order.shift() ?? "";
  return edition;
}
