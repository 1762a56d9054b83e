/** Reports of drafts that this browser went through, so that publishing finds them. */
import { readStudyReport, type StudyReport } from "../views/editor/study-report.ts";

const NAME = "leafturn checked ";
/** Reports kept at a time. */
const MOST = 8;

export function keepReport(report: StudyReport): void {
  try {
    const others = Object.keys(localStorage).filter((name) => name.startsWith(NAME));
    for (const name of others.slice(0, Math.max(0, others.length - MOST + 1))) localStorage.removeItem(name);
    localStorage.setItem(NAME + report.hash, JSON.stringify(report));
  } catch {
    // Without the browser's memory the publishing page goes through the conversations itself.
  }
}

export function findReport(hash: string): StudyReport | null {
  try {
    return readStudyReport(localStorage.getItem(NAME + hash) ?? "", hash);
  } catch {
    return null;
  }
}
