export type Cell = string | number | null;

/** Text that a spreadsheet would run instead of show (OWASP, "CSV Injection"). */
const RUNS = /^[=+\-@\t\r\n＝＋－＠]/;

/**
 * A table as RFC 4180 writes it: fields apart by commas, records ended by CRLF, the names first. Text that a spreadsheet
 * would take for a formula gets an apostrophe in front; numbers are left alone.
 */
export function writeCsv(names: readonly string[], rows: readonly (readonly Cell[])[]): string {
  return [names, ...rows].map((row) => `${row.map(writeCell).join(",")}\r\n`).join("");
}

function writeCell(cell: Cell): string {
  if (cell === null) return "";
  if (typeof cell === "number") return String(cell);
  const text = RUNS.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
