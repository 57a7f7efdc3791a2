/** @jsxImportSource preact */
/** One order as the tag that hangs on it: the number to write large, the word to ask for, and its garments. */
import type { Menu } from "../../../../model/menu/catalogue.ts";
import type { MenuView } from "../../../../model/menu/menu-view.ts";
import type { CrewOrderView } from "../../../../model/orders/order.ts";
import { choiceName } from "../../crew/words/names.ts";
import { Garment } from "../../parts/garment.tsx";
import { isEnding, STAGE_WORDS } from "../acts.ts";

function stands({ stage, place, quoteMinutes, jobs }: CrewOrderView, isSaved: boolean): string {
  if (isSaved && stage === "waiting") return "saved on this tablet, not at the stall yet";
  if (isSaved || isEnding(stage)) return STAGE_WORDS[stage];
  const short = jobs.filter((job) => job.stage === "short").length;
  const done = jobs.filter((job) => job.stage === "pressed").length;
  const parts = [STAGE_WORDS[stage]];
  // Without signal its place and its wait are not known.
  if (place > 0 && (stage === "waiting" || stage === "pressing"))
    parts.push(`place ${place}, about ${quoteMinutes} min`);
  if (done > 0 && stage === "pressing") parts.push(`${done} of ${jobs.length} pressed`);
  if (short > 0) parts.push(`${short} short: no blank or transfer`);
  return parts.join(", ");
}

type Props = {
  readonly order: CrewOrderView;
  readonly isSaved: boolean;
  readonly menu: Menu | null;
  readonly looks: MenuView["looks"] | undefined;
};

export function OrderTag({ order, isSaved, menu, looks }: Props) {
  const { number, word, stage, told, wish, lines } = order;
  const over = isEnding(stage);
  return (
    <section
      id="order-tag"
      class={`tag hole${stage === "ready" ? " ready" : ""}`}
      aria-label="The order"
      tabIndex={-1}
    >
      <div class="tag-head">
        <p class="tag-number number-big">{number}</p>
        {over ? null : (
          <p class="tag-word figure">
            <span>pickup word</span>
            {word}
          </p>
        )}
      </div>
      {told === "call-out" && stage !== "ready" && !over ? (
        <p class="write">Write the number and the word on a tag and give it to them.</p>
      ) : null}
      <p class="large" role="status">
        {stands(order, isSaved)}
      </p>
      {wish === undefined ? null : <p class="write">{`Asked for, not on the menu: “${wish}”`}</p>}
      <ul class="garments">
        {[...lines.entries()].map(([at, { offer, quantity, name, blank, colour, size, second }]) => (
          <li key={at} class="row strong">
            <Garment look={looks?.[offer]} colour={colour} size={size} named />
            <span>{`${quantity} × ${name}, ${choiceName(menu, blank, colour, size)}${second ? ", second" : ""}`}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
