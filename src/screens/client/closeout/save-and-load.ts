/** Saving the stall as a file, and beginning an empty one with such a file. */
import { nanoid } from "nanoid";
import { type Api, detailOf, type Reply } from "../kit/api.ts";
import { byId } from "../kit/dom.ts";
import { giveFile } from "../kit/file.ts";
import { partsOf, textOf } from "./saved-file.ts";

type Page = {
  readonly say: (text: string | null) => void;
  /** The stall is another now: look at it again. */
  readonly again: () => void;
};

/** How long a part may take on a bad network. */
const PATIENCE = 120_000;
const TRIES = 4;
const WHOLE = /^\s*\{\s*"format"\s*:\s*"stallpress-stall"/;
const NO_STALL = "That file holds no saved stall: nothing was changed.";

const parsed = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
};

const wait = (milliseconds: number): Promise<void> =>
  new Promise((resolve) => setTimeout(resolve, milliseconds));

/** Sends until there is an answer that another try would not change. */
async function answered(send: () => Promise<Reply>): Promise<Reply> {
  for (let attempt = 1; ; attempt++) {
    const reply = await send();
    const passes = reply.status === 0 || reply.status === 429 || reply.status >= 500;
    if (!passes || attempt >= TRIES) return reply;
    await wait(2000 * attempt);
  }
}

export function moving(api: Api, { say, again }: Page): void {
  const save = (path: string, name: string) => async (): Promise<void> => {
    say("Saving …");
    const reply = await api(path, { accept: "application/json", asFile: true });
    if (!(reply.body instanceof Blob)) return say(detailOf(reply));
    giveFile(name, "application/json", reply.body);
    say(`Saved as ${name}.`);
  };
  byId("save-carry").addEventListener("click", save("/carry", "stall-for-another-fair.json"));
  byId("save-everything").addEventListener("click", save("/everything", "whole-stall.json"));

  /** The same file again, after no answer, is the same write. */
  let sent: { readonly file: string; readonly once: string } | null = null;
  const onceFor = (file: File): string => {
    const name = `${file.name} ${file.size} ${file.lastModified}`;
    if (sent?.file !== name) sent = { file: name, once: nanoid() };
    return sent.once;
  };

  const loadCarried = async (file: File): Promise<Reply | null> => {
    const body = parsed(await file.text());
    if (typeof body !== "object" || body === null || !("menu" in body && "stock" in body)) return null;
    return api("/carry", { method: "POST", body, once: onceFor(file), patience: PATIENCE });
  };

  /** Sends a whole stall part by part; what the stall has already is not sent again. */
  const loadWhole = async (file: File): Promise<Reply | null> => {
    const upload = onceFor(file);
    const write = { patience: PATIENCE, once: upload };
    let [part, have, length] = [0, 0, 0];
    try {
      for await (const body of partsOf(textOf(file))) {
        length += JSON.stringify(body).length;
        if (part >= have) {
          const put = { ...write, method: "PUT", body, once: `${upload}-${part}` } as const;
          const reply = await answered(() => api(`/everything/${upload}/${part}`, put));
          if (reply.status !== 200) return reply;
          have = (reply.body as { parts: number }).parts; // as the route documents
        }
        part += 1;
        say(`Loading … ${Math.min(99, Math.floor((100 * length) / file.size))} %`);
      }
    } catch (error) {
      if (error instanceof SyntaxError) return null;
      throw error;
    }
    return answered(() => api(`/everything/${upload}`, { ...write, method: "POST", body: { parts: part } }));
  };

  byId<HTMLInputElement>("load-file").addEventListener("change", async ({ target }) => {
    if (!(target instanceof HTMLInputElement)) return;
    const file = target.files?.[0];
    if (file === undefined) return;
    target.disabled = true;
    const isWhole = WHOLE.test(await file.slice(0, 200).text());
    const reply = await (isWhole ? loadWhole(file) : loadCarried(file));
    target.disabled = false;
    target.value = "";
    if (reply === null) return say(NO_STALL);
    if (reply.status !== 200) return say(`${detailOf(reply)} Choose the file again to try once more.`);
    say("The stall is set up from that file.");
    again();
  });
}
