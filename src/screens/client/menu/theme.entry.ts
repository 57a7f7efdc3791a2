/**
 * Day or night, before the first paint: the one script that the page waits for. It follows the system unless somebody
 * chose on this device; the page's menu and the board's own button change it (`data-theme-switch`).
 */
{
  const PLACE = "theme";
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const root = document.documentElement;

  /** The choice made on this device; null if there is none, or if the browser stores nothing. */
  const chosen = (): string | null => {
    try {
      return localStorage.getItem(PLACE);
    } catch {
      return null;
    }
  };

  const show = (theme: string): void => {
    root.dataset["theme"] = theme;
    for (const button of document.querySelectorAll("[data-theme-switch]"))
      button.setAttribute("aria-pressed", String(theme === "night"));
    dispatchEvent(new Event("themechange"));
  };
  const follow = (): void => show(chosen() ?? (dark.matches ? "night" : "day"));

  follow();
  dark.addEventListener("change", follow);
  // Another page of this device changed it.
  addEventListener("storage", ({ key }) => {
    if (key === PLACE) follow();
  });
  document.addEventListener("DOMContentLoaded", follow);
  document.addEventListener("click", ({ target }) => {
    if (!(target instanceof Element) || target.closest("[data-theme-switch]") === null) return;
    const theme = root.dataset["theme"] === "night" ? "day" : "night";
    try {
      localStorage.setItem(PLACE, theme);
    } catch {
      // The browser keeps nothing: it lasts as long as this page.
    }
    show(theme);
  });
}
