/** The versions a reader already has; "any" accepts whichever version there is. */
export type Versions = readonly number[] | "any";

export const hasVersion = (have: Versions, version: number): boolean =>
  have === "any" || have.includes(version);

/** A view with its version; null if the reader already has it. */
export type Versioned<T> = {
  readonly version: number;
  readonly view: T | null;
  /** Set if the view can change before the version does, so that a cache must not keep it by version. */
  readonly lasts?: false;
};
