/** The block of pickup numbers that this browser keeps for a stall's counter. */
import { nanoid } from "nanoid";
import type { Numbered, NumbersGiven } from "../../../model/orders/counter.ts";
import { type Block, begunAgain, NO_BLOCK, numbersWanted, takeNumber, withNumbers } from "../crew/offline.ts";
import type { Api } from "../kit/api.ts";
import { kept } from "../kit/kept.ts";

export type Numbers = {
  /** Takes a number, on the disk first; null if there is none. */
  readonly take: () => Promise<(Numbered & { readonly device: string }) | null>;
  /** Asks the stall for more if they run low; to be called whenever it has just answered. */
  readonly fill: () => Promise<void>;
};

const named = (block: Block): Block => (block.device === "" ? begunAgain(nanoid()) : block);

export function counterNumbers(api: Api, place: string): Numbers {
  const store = kept<Block>(`numbers ${place}`, NO_BLOCK);
  let asking = false;

  async function ask(): Promise<void> {
    if (numbersWanted(await store.read()) === null) return;
    // Another tab may have filled it since; each block has one device.
    const block = await store.change(named);
    const wanted = numbersWanted(block);
    if (wanted === null) return;
    const reply = await api("/numbers", { method: "POST", body: wanted, once: nanoid() });
    if (reply.status !== 200) return;
    const { numbers } = reply.body as NumbersGiven; // as the route documents
    const isForgotten = numbers.length === 0;
    await store.change((before) =>
      isForgotten && before.device === block.device
        ? begunAgain(nanoid())
        : withNumbers(before, block.device, numbers),
    );
  }

  return {
    take: async () => {
      let taken: Numbered | null = null;
      const { device } = await store.change((before) => {
        const next = takeNumber(before);
        ({ taken } = next);
        return next.block;
      });
      return taken === null ? null : { ...(taken as Numbered), device }; // set in the change above
    },
    fill: async () => {
      if (asking) return;
      asking = true;
      await ask();
      asking = false;
    },
  };
}
