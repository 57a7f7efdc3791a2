/** The versions a reader already has; "any" is content with whichever there is. */
export type Versions = readonly number[] | "any";

export const hasVersion = (have: Versions, version: number): boolean =>
  have === "any" || have.includes(version);

/** A view in its version; null where the reader has it already. */
export type Versioned<T> = {
  readonly version: number;
  readonly view: T | null;
  /** Set if the view changes before the version does, so that it must not be kept by it. */
  readonly lasts?: false;
};
