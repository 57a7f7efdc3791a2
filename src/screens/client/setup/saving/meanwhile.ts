/** What somebody else saved while this edit was under way, and where the two collide. */
import { byId, element } from "../../kit/dom.ts";
import type { Json } from "../../kit/json-pointer.ts";
import type { Collision } from "../../kit/merging.ts";
import type { Change } from "./changes.ts";

export type Meanwhile = {
  readonly told: readonly Change[];
  readonly collisions: readonly Collision[];
  readonly where: (pointer: string) => string;
  readonly take: (pointer: string, theirs: Json | undefined) => void;
};

const words = (value: Json | undefined): string =>
  value === undefined ? "taken out" : typeof value === "object" ? "changed in several places" : `“${value}”`;

export function showMeanwhile(meanwhile: Meanwhile | null): void {
  const part = byId("meanwhile");
  part.hidden = meanwhile === null;
  if (meanwhile === null) return;
  const { told, collisions, where, take } = meanwhile;
  part.replaceChildren(
    element("h2", {}, "Somebody else saved meanwhile"),
    element("p", {}, "Their changes are in here now, beside yours. Look them over and save again."),
    element("ul", {}, ...told.map(({ says }) => element("li", {}, says))),
    ...collisions.map(({ pointer, mine, theirs }) => {
      const line = element(
        "p",
        { class: "collision" },
        `You both changed ${where(pointer)}: yours is ${words(mine)}, theirs ${words(theirs)}. Yours stands. `,
        element(
          "button",
          {
            type: "button",
            onclick: () => {
              take(pointer, theirs);
              line.remove();
            },
          },
          "Take theirs",
        ),
      );
      return line;
    }),
  );
  part.scrollIntoView({ block: "start" });
}
