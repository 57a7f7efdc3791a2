/** The front page: a card for each key this browser keeps, and a place to paste a link that somebody was given. */
import type { FairView } from "../../../model/fair/fair.ts";
import type { MenuView } from "../../../model/menu/menu-view.ts";
import { apiAt } from "../kit/api.ts";
import { byId, element } from "../kit/dom.ts";
import { isPressKey } from "../kit/key.ts";
import { local } from "../kit/texts-kept.ts";
import { openable } from "./given-link.ts";

const CREW = /^key crew ([a-z0-9-]+)\/([a-z0-9.-]+)$/;
const ORGANISER = /^key organiser ([a-z0-9-]+)$/;
const CUSTOMER = /^customer ([a-z0-9-]+)\/([a-z0-9.-]+)$/;

/** The pages that a press link opens. */
const PRESS_PAGES = ["Press", "Board", "Count"];

type Way = readonly [label: string, address: string];

/** What on a card gives a short name until the full one is known. */
type Named = { readonly heading: HTMLElement; readonly says: HTMLElement };

function card(title: string, text: string, actions: readonly Way[]): Named {
  const heading = element("h2", {}, title);
  const says = element("p", {}, text);
  const links = actions.map(([label, href]) =>
    element("li", {}, element("a", { class: "button", href }, label)),
  );
  const made = element(
    "section",
    { class: "card" },
    heading,
    says,
    element("ul", { class: "tiles" }, ...links),
  );
  byId("cards").append(made);
  return { heading, says };
}

const nobody = (): null => null;

/** The stall's own name takes the place of its short one as soon as it is known. */
async function nameStall(heading: HTMLElement, fair: string, stall: string): Promise<void> {
  const { status, body } = await apiAt(`/v1/fairs/${fair}/stalls/${stall}`, nobody)("/menu");
  if (status === 200) heading.textContent = (body as MenuView).stall; // as the route documents
}
async function nameFair(line: HTMLElement, fair: string): Promise<void> {
  const { status, body } = await apiAt("/v1/fairs", nobody)(`/${fair}`);
  if (status === 200) line.textContent = line.textContent.replace(fair, (body as FairView).name); // as the route documents
}

function showKept(name: string, key: string): void {
  const crew = CREW.exec(name);
  const organiser = ORGANISER.exec(name);
  const customer = CUSTOMER.exec(name);
  if (crew !== null) {
    const [, fair = "", stall = ""] = crew;
    const at = `/crew/${fair}/${stall}`;
    const pages: readonly Way[] = [
      ["Press", at],
      ["Counter", `${at}/counter`],
      ["Board", `/at/${fair}/${stall}/board`],
      ["Count", `${at}/stock`],
      ["Set-up", `${at}/setup`],
      ["Close-out", `${at}/closeout`],
    ];
    const says = stall.endsWith(".rehearsal")
      ? "A rehearsal"
      : isPressKey(key)
        ? `A press at ${fair}`
        : `Your stall at ${fair}`;
    const opens = pages.filter(([label]) => !isPressKey(key) || PRESS_PAGES.includes(label));
    const named = card(stall, says, opens);
    void nameStall(named.heading, fair, stall);
    void nameFair(named.says, fair);
  } else if (organiser !== null) {
    const [, fair = ""] = organiser;
    const { heading } = card(fair, "Your fair", [
      ["Live view", `/fair/${fair}`],
      ["Hours, keys", `/fair/${fair}/keys`],
    ]);
    void nameFair(heading, fair);
  } else if (customer !== null) {
    const [, fair = "", stall = ""] = customer;
    const { heading } = card(stall, "Where you ordered", [
      ["Your order", `/at/${fair}/${stall}`],
      ["Board", `/at/${fair}/${stall}/board`],
    ]);
    void nameStall(heading, fair, stall);
  }
}

for (const [name, key] of local.entries().toSorted(([one], [other]) => one.localeCompare(other)))
  showKept(name, key);

byId("given-form").addEventListener("submit", (event) => {
  event.preventDefault();
  const field = byId<HTMLInputElement>("given");
  const found = openable(field.value, location.origin);
  const wrong = typeof found !== "string";
  field.setAttribute("aria-invalid", String(wrong));
  byId("given-fault").textContent = wrong ? found.fault : "";
  if (wrong) field.focus();
  else location.assign(found);
});
