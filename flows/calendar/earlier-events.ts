import type { Case } from "../case.ts";
import type { Flow } from "../flow.ts";
import { makePlan, type PlanStep } from "../plan.ts";
import { firstCase } from "../second-look-due.ts";
import { judge } from "../verdict.ts";
import { COLDEST_ROOM, WARMEST_ROOM } from "./room.ts";
import type { Schedule } from "./schedule.ts";

/** An event as its UID tells it: a remedy id or "look", and the round from 1. */
export interface EventName {
  step: string;
  round: number;
}

interface Paces {
  pace(step: PlanStep, roomCelsius: number): Schedule | undefined;
  /** Looks until the last of them, when the last round falls on so many days after the first day. */
  looks(lastDay: number): number;
}

/** °C between two rooms that are tried. Rooms in between keep the pace of a neighbor. */
const STEP = 0.25;
/** A first round comes this many days after the first day at the latest. */
const LONGEST_WAIT = 2;

/**
 * Every event that a file for this case can have held, whatever room and steps were chosen then: each step of the plan as
 * often as it is repeated in any room, and the looks beside the longest series.
 */
export function listEarlierEvents(flow: Flow, kase: Case, { pace, looks }: Paces): EventName[] {
  const rounds = new Map<string, number>();
  let last = 0;
  const plans = [firstCase(flow, kase), kase].map((one) => makePlan(flow, one, judge(flow, one)));
  for (const step of plans.flatMap(({ steps }) => steps)) {
    for (let room = COLDEST_ROOM; room <= WARMEST_ROOM; room += STEP) {
      const found = pace(step, room);
      if (!found) continue;
      rounds.set(step.remedy, Math.max(rounds.get(step.remedy) ?? 0, found.rounds));
      last = Math.max(last, LONGEST_WAIT + (found.rounds - 1) * found.everyDays);
    }
  }
  rounds.set("look", looks(last));
  return [...rounds].flatMap(([step, count]) =>
    Array.from({ length: count }, (_, i) => ({ step, round: i + 1 })),
  );
}
