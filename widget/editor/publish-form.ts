import type { StudyReport } from "../views/editor/study-report.ts";

/** Puts a report into the form that publishes: then no written reason is asked for. Does nothing on other pages. */
export function fillPublishForm(report: StudyReport): void {
  const walk = document.getElementById("walk");
  if (!(walk instanceof HTMLInputElement) || walk.dataset.hash !== report.hash) return;
  walk.value = JSON.stringify(report);
  const reason = document.getElementById("unwalked-field");
  if (reason) reason.hidden = report.violations === 0;
}
