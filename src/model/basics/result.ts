/**
 * The one shape of everything that can be refused: a value, or a refusal. A refusal is a union keyed by `code` with
 * typed facts; whoever shows it has the wording.
 */
export type Result<T, R> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly refusal: R };

/** A result that carries a value. */
export const ok = <T>(value: T): Result<T, never> => ({ ok: true, value });

/** A result that carries a refusal. */
export const refused = <const R>(refusal: R): Result<never, R> => ({ ok: false, refusal });
