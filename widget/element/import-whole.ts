/** A file of the program: its path under /embed/ and its integrity. */
export interface ProgramFile {
  path: string;
  integrity: string;
}

let attempts = 0;

/**
 * Imports a file of the program, and refuses it when a byte differs: the import takes over the request of the preload,
 * which carries the integrity that an import itself cannot. A browser remembers that an import failed, so each further
 * try has an address of its own.
 *
 * @param script the address of any file under /embed/.
 */
export function importWhole<T>(script: string, { path, integrity }: ProgramFile, again: boolean): Promise<T> {
  if (again) attempts++;
  const address = script.replace(/embed\/.*$/s, `embed/${path}${attempts > 0 ? `?${attempts}` : ""}`);
  const link = document.createElement("link");
  link.rel = "modulepreload";
  link.integrity = integrity;
  link.href = address;
  document.head.append(link);
  return import(address);
}
