/** What makes the pages of the editor's room quicker. All of them work without it. */
import { saveWhileTyping } from "./save-file.ts";
import { goToLine } from "./show-problems.ts";
import { watchProblems } from "./watch-problems.ts";

for (const form of document.querySelectorAll<HTMLFormElement>("form[data-file]")) saveWhileTyping(form);
for (const form of document.querySelectorAll<HTMLFormElement>("form[data-watch]")) watchProblems(form);

// A problem's link may name the line of a file.
const text = document.getElementById("text");
const line = Number(new URLSearchParams(location.search).get("line"));
if (text instanceof HTMLTextAreaElement && line > 0) goToLine(text, text.value, line);
