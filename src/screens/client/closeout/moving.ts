/** Saving the stall as a file, and beginning an empty one with such a file. */
import { nanoid } from "nanoid";
import { type Api, detailOf } from "../kit/api.ts";
import { byId } from "../kit/dom.ts";
import { giveFile } from "../kit/file.ts";

type Page = {
  readonly say: (text: string | null) => void;
  /** The stall is another now: look at it again. */
  readonly again: () => void;
};

/** Where a file goes, by what it holds; null where it is no saved stall. */
function routeFor(read: unknown): { readonly method: "POST" | "PUT"; readonly path: string } | null {
  if (typeof read !== "object" || read === null) return null;
  if ("format" in read && read.format === "stallpress-stall") return { method: "PUT", path: "/everything" };
  return "menu" in read && "stock" in read ? { method: "POST", path: "/carry" } : null;
}

const parsed = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
};

export function moving(api: Api, { say, again }: Page): void {
  const save = (path: string, name: string) => async (): Promise<void> => {
    const reply = await api(path);
    if (reply.status !== 200) return say(detailOf(reply));
    giveFile(name, "application/json", JSON.stringify(reply.body));
    say(`Saved as ${name}.`);
  };
  byId("save-carry").addEventListener("click", save("/carry", "stall-for-another-fair.json"));
  byId("save-everything").addEventListener("click", save("/everything", "whole-stall.json"));
  /** The same file again, after no answer, is the same write. */
  let sent: { readonly text: string; readonly once: string } | null = null;
  byId<HTMLInputElement>("load-file").addEventListener("change", async ({ target }) => {
    if (!(target instanceof HTMLInputElement)) return;
    const text = (await target.files?.[0]?.text()) ?? "";
    target.value = "";
    const body = parsed(text);
    const route = routeFor(body);
    if (route === null) return say("That file holds no saved stall: nothing was changed.");
    if (sent?.text !== text) sent = { text, once: nanoid() };
    const reply = await api(route.path, { method: route.method, body, once: sent.once });
    if (reply.status !== 200) return say(`${detailOf(reply)} Choose the file again to try once more.`);
    say("The stall is set up from that file.");
    again();
  });
}
