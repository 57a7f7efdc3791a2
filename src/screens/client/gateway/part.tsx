/** @jsxImportSource preact */
/** What every part of the gateway page is given, and how it shows its mistakes. */
import type { Draft, Part } from "./draft.ts";
import type { State } from "./state.ts";

export type Actions = {
  readonly edit: (draft: Draft) => void;
  readonly save: () => void;
  readonly typeTryTo: (number: string) => void;
  readonly attempt: () => void;
};
export type Props = {
  readonly state: State;
  readonly actions: Actions;
  /** The fair's address below /v1, as the gateway calls it. */
  readonly hook: string;
};

/** The mistakes of one part. */
export function Wrong({ state, part }: { readonly state: State; readonly part: Part }) {
  const found = state.mistakes.filter((mistake) => mistake.part === part);
  return (
    <>
      {found.map(({ detail }) => (
        <p key={detail} class="fault">
          {detail}
        </p>
      ))}
    </>
  );
}
