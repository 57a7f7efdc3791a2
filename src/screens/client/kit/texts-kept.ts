/**
 * Short texts that a page keeps in this browser by name: `local` for good, `session` as long as its tab is open. A
 * browser without storage throws even when asked: then they last as long as the page.
 */

export type TextsKept = {
  readonly getItem: (name: string) => string | null;
  readonly setItem: (name: string, text: string) => void;
  readonly removeItem: (name: string) => void;
  readonly entries: () => readonly (readonly [name: string, text: string])[];
};

function textsKept(find: () => Storage): TextsKept {
  const inMemory = new Map<string, string>();
  const asked = <T>(work: (storage: Storage) => T, otherwise: () => T): T => {
    try {
      return work(find());
    } catch {
      return otherwise();
    }
  };
  return {
    getItem: (name) =>
      inMemory.get(name) ??
      asked(
        (storage) => storage.getItem(name),
        () => null,
      ),
    setItem: (name, text) =>
      asked(
        (storage) => {
          storage.setItem(name, text);
          inMemory.delete(name);
        },
        () => void inMemory.set(name, text),
      ),
    removeItem: (name) => {
      inMemory.delete(name);
      asked(
        (storage) => storage.removeItem(name),
        () => undefined,
      );
    },
    entries: () => {
      const stored = asked(
        (storage) => Object.keys(storage).map((name) => [name, storage.getItem(name) ?? ""] as const),
        () => [],
      );
      return [...new Map([...stored, ...inMemory])];
    },
  };
}

export const local = textsKept(() => localStorage);
export const session = textsKept(() => sessionStorage);
