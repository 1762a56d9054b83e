/** Blobs stay readable for so long after the press, in milliseconds: some browsers ask the reader first. */
const KEPT = 60_000;

/** Saves the days of the plan in place of following the link to them; where that cannot be, the link is followed. */
export function saveCalendar(event: Event, write: (now: number) => string | null): void {
  const text = write(Date.now());
  if (text !== null && saveFile("plant-check.ics", "text/calendar", text)) event.preventDefault();
}

/** Gives the reader a file without asking the server. False where the browser cannot; then nothing has happened. */
function saveFile(name: string, type: string, text: string): boolean {
  if (!("download" in HTMLAnchorElement.prototype) || typeof URL.createObjectURL !== "function") return false;
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), KEPT);
  return true;
}
