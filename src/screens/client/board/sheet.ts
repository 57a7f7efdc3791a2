/** Drawing the board so large that all of it just fits the window. */
import { byId, element } from "../kit/dom.ts";
import { greatestFitting, type Row, STATE_WORDS } from "./rows.ts";

/** A ready number's height as a share of the window's: letters 25 mm high are read at 5 m (common practice, no source). */
const LEAST_SHARE = 0.07;
const MOST_SHARE = 0.45;

export type Sheet = {
  readonly draw: (rows: readonly Row[], fresh: ReadonlySet<number>, more: number) => void;
};

export function newSheet(): Sheet {
  const list = byId("numbers");
  const rest = byId("more");
  let shown: readonly Row[] = [];
  let further = 0;

  const tag = ({ number, state }: Row, fresh: boolean): HTMLLIElement =>
    element(
      "li",
      { class: fresh ? `${state} fresh` : state },
      element("span", { class: "digits" }, String(number)),
      " ",
      element("span", { class: "state" }, STATE_WORDS[state]),
    );

  const put = (rows: readonly Row[], left: number, fresh: ReadonlySet<number>): void => {
    list.replaceChildren(...rows.map((row) => tag(row, fresh.has(row.number))));
    rest.hidden = left === 0;
    rest.textContent = left === 0 ? "" : `and ${left} more in line`;
  };

  const fits = (): boolean => {
    const { scrollHeight, clientHeight, scrollWidth, clientWidth } = document.documentElement;
    return scrollHeight <= clientHeight && scrollWidth <= clientWidth;
  };
  const sized = (pixels: number): boolean => {
    document.documentElement.style.setProperty("--digits", `${pixels}px`);
    return fits();
  };

  /** Sizes what is shown; numbers still in line give way, the last ones first, where even the least size is too big. */
  const fillWindow = (fresh: ReadonlySet<number>): void => {
    const { innerHeight, innerWidth } = window;
    const least = Math.round(Math.max(24, Math.min(innerHeight, innerWidth) * LEAST_SHARE));
    const most = Math.round(innerHeight * MOST_SHARE);
    const inLine = shown.filter(({ state }) => state === "waiting").map(({ number }) => number);
    const keeping = (kept: number): void => {
      const dropped = new Set(inLine.slice(kept));
      put(
        shown.filter(({ number }) => !dropped.has(number)),
        further + dropped.size,
        fresh,
      );
    };
    keeping(inLine.length);
    if (!sized(least)) {
      const kept = greatestFitting(0, inLine.length, (wanted) => {
        keeping(wanted);
        return fits();
      });
      keeping(kept);
    }
    sized(greatestFitting(least, Math.max(least, most), sized));
  };

  window.addEventListener("resize", () => fillWindow(new Set()));
  return {
    draw(rows, fresh, more) {
      shown = rows;
      further = more;
      byId("nothing").hidden = rows.length > 0;
      fillWindow(fresh);
    },
  };
}
