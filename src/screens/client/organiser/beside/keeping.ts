/** The earlier fair that this browser keeps, contacts of the stalls, and the requests for both. */
import { nanoid } from "nanoid";
import type { StallContact, StallContacts } from "../../../../model/fair/contacts.ts";
import type { Throughput } from "../../../../model/fair/throughput.ts";
import { type Api, detailOf, type Reply } from "../../kit/api.ts";
import { giveFile } from "../../kit/file.ts";
import { local } from "../../kit/texts-kept.ts";
import { type EarlierFair, readEarlier } from "./years.ts";
import type { Years } from "./years-view.tsx";

export type Beside = { readonly years: Years; readonly contacts: StallContacts["contacts"] };

/** The whole fair is asked for again after this time while it stands beside another. */
const AGAIN_MS = 60_000;

/** Keeps what stands beside the pace; `change` draws it, `say` shows what went wrong. */
export function beside(
  fair: string,
  api: Api,
  change: (to: (before: Beside) => Beside) => void,
  say: (fault: string | null) => void,
) {
  const place = `earlier fair beside ${fair}`;
  let earlier = local.getItem(place);
  let asked = 0;
  const years = (more: Partial<Years>): void =>
    change((was) => ({ ...was, years: { ...was.years, ...more } }));

  async function askWhole(): Promise<Reply> {
    asked = Date.now();
    const reply = await api("/throughput?span=all");
    if (reply.status === 200) years({ whole: reply.body as Throughput }); // as the route documents
    return reply;
  }
  const take = (reply: Reply): void => {
    const { contacts } = reply.body as StallContacts; // as the route documents
    change((was) => ({ ...was, contacts }));
  };
  return {
    /** The state before anything was asked. */
    first: (): Beside => ({
      contacts: [],
      years: {
        earlier: earlier === null ? null : (JSON.parse(earlier) as EarlierFair), // written below only
        whole: null,
        fault: null,
      },
    }),
    /** With each poll of the fair. */
    look: (): void => {
      if (earlier !== null && Date.now() - asked > AGAIN_MS) void askWhole();
    },
    askContacts: async (): Promise<void> => {
      const reply = await api("/contacts");
      if (reply.status === 200) take(reply);
    },
    keepContact: async (stall: string, contact: StallContact | null): Promise<void> => {
      const reply = await api(`/stalls/${stall}/contact`, {
        method: "PUT",
        once: nanoid(),
        body: { contact },
      });
      if (reply.status === 200) take(reply);
      say(reply.status === 200 ? null : detailOf(reply));
    },
    actions: {
      save: () =>
        void askWhole().then((reply) => {
          if (reply.status === 200)
            giveFile(`${fair}-figures.json`, "application/json", JSON.stringify(reply.body));
          say(reply.status === 200 ? null : detailOf(reply));
        }),
      open: (file: File) =>
        void file.text().then((text) => {
          const read = readEarlier(text);
          if (!read.ok) return years({ fault: read.refusal });
          earlier = JSON.stringify(read.value);
          local.setItem(place, earlier);
          years({ earlier: read.value, fault: null });
          return void askWhole();
        }),
      close: () => {
        earlier = null;
        local.removeItem(place);
        years({ earlier: null, fault: null });
      },
    },
  };
}
