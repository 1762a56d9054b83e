/** The fields of an entry's form, by their names. */
export type Texts = Record<string, string>;

const own = new Set(["entry-kind", "entry-id", "was", "show"]);

type Control = HTMLInputElement | HTMLTextAreaElement;

function controlsOf(form: HTMLFormElement): Control[] {
  return [...form.elements].filter(
    (one): one is Control =>
      (one instanceof HTMLInputElement || one instanceof HTMLTextAreaElement) &&
      one.name !== "" &&
      !own.has(one.name),
  );
}

/** What the fields hold, with the line ends of files. */
export function readFields(form: HTMLFormElement): Texts {
  const texts: Texts = {};
  for (const control of controlsOf(form)) {
    if (control instanceof HTMLInputElement && control.type === "radio" && !control.checked) continue;
    texts[control.name] = control.value;
  }
  return texts;
}

export function writeFieldText(form: HTMLFormElement, name: string, text: string): void {
  for (const control of controlsOf(form)) {
    if (control.name !== name) continue;
    if (control instanceof HTMLInputElement && control.type === "radio")
      control.checked = control.value === text;
    else control.value = text;
  }
}

/** The part of the form around a field. */
export function partOf(form: HTMLFormElement, name: string): HTMLElement | null {
  const control = controlsOf(form).find((one) => one.name === name);
  return control?.closest<HTMLElement>(".ed-field, .ed-scroll") ?? null;
}

export function isHeld(name: string): boolean {
  const active = document.activeElement;
  return (
    (active instanceof HTMLInputElement || active instanceof HTMLTextAreaElement) && active.name === name
  );
}
