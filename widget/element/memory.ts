/** What the tab remembers of one element: the query of its case, numbers included. It ends with the tab. */
export interface Memory {
  load(): string | null;
  save(query: string): void;
}

/** Where storage is forbidden or full, nothing is remembered and nothing else changes. */
export function openMemory(name: string): Memory {
  return {
    load() {
      try {
        return sessionStorage.getItem(name);
      } catch {
        return null;
      }
    },
    save(query) {
      try {
        sessionStorage.setItem(name, query);
      } catch {
        // The conversation goes on; only a reload starts afresh.
      }
    },
  };
}
