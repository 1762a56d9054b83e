/**
 * After numbers were worked out the focus stays where the shopper is: in the first field that could not be read, else
 * on what came of it, or on the heading that sums the numbers up.
 */
export function settleAt(form: HTMLElement): void {
  const around = form.closest("details") ?? form;
  for (const wanted of ["[aria-invalid]", ".lt-result", "summary"]) {
    const found = around.querySelector<HTMLElement>(wanted);
    if (found === null) continue;
    found.focus();
    return;
  }
}
