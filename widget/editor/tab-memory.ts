/** What could not be saved is kept in this tab until it is. */

export function remember(name: string, text: string): void {
  try {
    sessionStorage.setItem(name, text);
  } catch {
    // Without room in the tab's memory the field alone holds the text.
  }
}

export function recall(name: string): string | null {
  try {
    return sessionStorage.getItem(name);
  } catch {
    return null;
  }
}

export function forget(name: string): void {
  try {
    sessionStorage.removeItem(name);
  } catch {
    // It was not kept either.
  }
}
