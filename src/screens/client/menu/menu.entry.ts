/** A page's menu: closes as menus do, and a crew's gives its link to another tablet as a code. */
import { element } from "../kit/dom.ts";
import { isPressKey } from "../kit/key.ts";
import { local, session } from "../kit/texts-kept.ts";
import { keyCard } from "../start/key-card.ts";

const menu = document.querySelector<HTMLDetailsElement>(".menu");
/** The page's stall as "fair/stall"; the planner's and the front pages have none. */
const { fair, stall } = document.body.dataset;
const place = fair === undefined || stall === undefined ? null : `${fair}/${stall}`;
const addTablet = document.getElementById("add-tablet");

document.addEventListener("click", ({ target }) => {
  if (
    menu?.open &&
    target instanceof Node &&
    (!menu.contains(target) || (target instanceof Element && target.closest("a") !== null))
  )
    menu.open = false;
});
document.addEventListener("keydown", ({ key }) => {
  if (key !== "Escape" || menu?.open !== true) return;
  menu.open = false;
  menu.querySelector("summary")?.focus();
});

const crewKey = (): string | null => (place === null ? null : local.getItem(`key crew ${place}`));

function showLink(key: string): void {
  const close = element("button", { type: "button", class: "main" }, "Done");
  const dialog = element(
    "dialog",
    { "aria-label": "Add a tablet" },
    keyCard({
      heading: "h2",
      title: "Add a tablet",
      says: isPressKey(key)
        ? "Point its camera at the code. Whoever has this link can press, note what is spoiled, and count."
        : "Point its camera at the code. Whoever has this link can do all that the crew can.",
      link: `${session.getItem("reach") ?? location.origin}/crew/${place}#key=${key}`,
    }),
    close,
  );
  close.addEventListener("click", () => dialog.close());
  dialog.addEventListener("close", () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
}

/** A link for a press opens the press page and the count. */
const forPress = (address: string): boolean => /^\/crew\/[^/]+\/[^/]+(?:\/stock)?$/.test(address);

menu?.addEventListener("toggle", () => {
  const key = crewKey();
  if (addTablet !== null) addTablet.hidden = key === null;
  const pressOnly = key !== null && isPressKey(key);
  for (const link of menu.querySelectorAll<HTMLAnchorElement>('nav a[href^="/crew/"]'))
    link.hidden = pressOnly && !forPress(link.getAttribute("href") ?? "");
  for (const group of menu.querySelectorAll("section"))
    group.hidden = group.querySelector("a:not([hidden])") === null;
});
addTablet?.addEventListener("click", () => {
  const key = crewKey();
  if (menu !== null) menu.open = false;
  if (key !== null) showLink(key);
});
