/** @jsxImportSource preact */
/** The state of an answer: up to date, being worked out, out of date, or waiting for a figure to be fixed. */

import type { Actions } from "../actions.ts";
import type { Part } from "../messages.ts";
import { faultsOf, type State, standing } from "../state.ts";

type Props = { readonly state: State; readonly actions: Actions; readonly part: Part };

export function Standing({ state, actions, part }: Props) {
  const { working } = state;
  const now = standing(state, part);
  const isWorking = working?.part === part;
  const faults = faultsOf(state, part).length;
  const words = isWorking
    ? `Working it out${working.says === "" ? "" : `: ${working.says}`}.`
    : now === "faulty"
      ? `${faults === 1 ? "One figure has" : `${faults} figures have`} to be fixed first. What you see is from before.`
      : now === "now"
        ? "Up to date."
        : now === "none"
          ? "Not worked out yet."
          : "Out of date: figures have changed since.";
  return (
    <div class={`row upkeep ${isWorking ? "working" : now}`}>
      <p id={`${part}-standing`} role="status">
        {words}
      </p>
      {isWorking ? (
        <button type="button" id={`${part}-stop`} onClick={actions.stop}>
          Stop
        </button>
      ) : now === "out-of-date" || now === "none" ? (
        <button type="button" id={`${part}-work`} onClick={() => actions.work(part)}>
          Work it out
        </button>
      ) : null}
    </div>
  );
}
