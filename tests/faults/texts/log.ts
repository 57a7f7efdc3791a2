/** The entries of the relay's log. */
export type FromPhone = {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly text: string;
};

export type Entry =
  /** A phone said it. */
  | { readonly is: "said"; readonly text: FromPhone }
  /** The stall has taken it, twice. */
  | { readonly is: "delivered"; readonly id: string }
  /** The stall's text, the first time its key was seen. */
  | { readonly is: "out"; readonly key: string; readonly to: string; readonly text: string }
  /** A key that was seen before: the reply to it had been lost. */
  | { readonly is: "again"; readonly key: string }
  /** From here on nothing goes wrong any more. */
  | { readonly is: "calm" };
