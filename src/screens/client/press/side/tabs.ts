/** Tabs by the pattern of the ARIA Authoring Practices: arrow keys go from tab to tab, one panel is shown. */

/** Makes the tabs of a list work; each names its panel by aria-controls. */
export function tabs(list: HTMLElement): void {
  const all = [...list.querySelectorAll<HTMLElement>('[role="tab"]')];
  const choose = (chosen: HTMLElement): void => {
    for (const tab of all) {
      const isChosen = tab === chosen;
      tab.setAttribute("aria-selected", String(isChosen));
      tab.tabIndex = isChosen ? 0 : -1;
      const panel = document.getElementById(tab.getAttribute("aria-controls") ?? "");
      if (panel !== null) panel.hidden = !isChosen;
    }
  };
  const step: Readonly<Record<string, (at: number) => number>> = {
    ArrowRight: (at) => at + 1,
    ArrowLeft: (at) => at - 1,
    Home: () => 0,
    End: () => -1,
  };
  for (const tab of all) {
    tab.addEventListener("click", () => choose(tab));
    tab.addEventListener("keydown", (event) => {
      const to = step[event.key]?.(all.indexOf(tab));
      const next = to === undefined ? undefined : all.at(to % all.length);
      if (next === undefined) return;
      event.preventDefault();
      choose(next);
      next.focus();
    });
  }
}
