/** Which colours and sizes of its blank an offer is sold in: all of them, unless some are picked. */
import { element } from "../../kit/dom.ts";
import { type Json, rowsAt, valueAt } from "../../kit/json-pointer.ts";
import { idOf } from "./field.ts";

type Set_ = (pointer: string, value: Json | undefined) => void;

/** The boxes of an offer; none ticked out means no list, and so whatever the blank comes in later too. */
export function limits(at: string, menu: Json, set: Set_): HTMLElement {
  const blank = rowsAt(menu, "#/blanks").find((one) => valueAt(one, "#/id") === valueAt(menu, `${at}/blank`));
  return element(
    "div",
    {},
    ...(["colours", "sizes"] as const).map((list) => {
      const all = rowsAt(blank ?? null, `#/${list}`).map(
        (one) => [String(valueAt(one, "#/id")), String(valueAt(one, "#/name"))] as const,
      );
      const only = valueAt(menu, `${at}/${list}`);
      const boxes = all.map(([id]) => {
        const box = element("input", { type: "checkbox" });
        box.checked = !Array.isArray(only) || only.includes(id);
        return box;
      });
      const changed = (): void => {
        const ids = all.flatMap(([id], index) => (boxes[index]?.checked === true ? [id] : []));
        set(`${at}/${list}`, ids.length === all.length ? undefined : ids);
      };
      return element(
        "fieldset",
        { class: "boxes", onchange: changed },
        element("legend", {}, `Sold in these ${list}`),
        element("p", { id: `${idOf(`${at}/${list}`)}-fault`, class: "fault" }),
        ...all.map(([, name], index) => element("label", {}, boxes[index] ?? null, ` ${name}`)),
      );
    }),
  );
}
