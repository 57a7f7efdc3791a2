/** @jsxImportSource preact */
/** The way through the set-up, each step with what it still wants. */
import { render } from "preact";
import { byId } from "../kit/dom.ts";
import type { Step } from "./checklist.ts";

export const drawSteps = (steps: readonly Step[]): void =>
  render(
    steps.map(({ part, name, isDone, says }) => (
      <li key={part} class={isDone ? "done" : ""}>
        <a href={`#${part}-title`}>
          <b>{name}</b> {says}
        </a>
      </li>
    )),
    byId("steps"),
  );
