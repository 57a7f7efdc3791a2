/** Help's contents: searches all answers, and keeps every page of help in this browser. */
import { byId } from "../kit/dom.ts";
import { type Entry, found, foundWords } from "./search.ts";

type Shown = Entry & { readonly answer: HTMLElement };

const textOf = (node: Element | null): string => node?.textContent ?? "";

/** Every answer of the booklet, with the way to its own page. */
async function answers(): Promise<readonly Shown[]> {
  const response = await fetch("/help/booklet");
  const booklet = new DOMParser().parseFromString(await response.text(), "text/html");
  return [...booklet.querySelectorAll<HTMLElement>("[data-subject]")].flatMap((section) =>
    [...section.querySelectorAll<HTMLElement>(".answers > div")].map((answer) => {
      const title = answer.querySelector("dt");
      const question = textOf(title);
      const link = document.createElement("a");
      link.href = `/help/${section.dataset["subject"]}#${answer.id}`;
      link.textContent = question;
      title?.replaceChildren(link);
      answer.removeAttribute("id");
      return { question, text: textOf(answer), answer: document.importNode(answer, true) };
    }),
  );
}

let all: Promise<readonly Shown[]> | null = null;
const field = byId<HTMLInputElement>("sought");

async function look(): Promise<void> {
  const sought = field.value;
  all ??= answers();
  try {
    const shown = found(await all, sought);
    // Another letter was typed meanwhile.
    if (sought !== field.value) return;
    byId("found").replaceChildren(...shown.map(({ answer }) => answer));
    byId("found-said").textContent = foundWords(sought, shown.length);
    byId("contents").hidden = shown.length > 0;
  } catch {
    all = null;
    byId("found-said").textContent = "No connection. Look through the subjects below.";
  }
}

field.addEventListener("input", () => void look());

async function keepHelp(): Promise<void> {
  if (!("serviceWorker" in navigator)) return;
  await navigator.serviceWorker.register("/help-service-worker.js", { scope: "/help" });
  await navigator.serviceWorker.ready;
  byId("offline-said").hidden = false;
}
// A browser that refuses shows these pages as well, while there is a network.
keepHelp().catch(() => undefined);
