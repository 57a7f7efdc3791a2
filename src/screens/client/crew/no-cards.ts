/** No card's number is ever typed into a crew page: a field that looks like one is emptied at once. */
import { looksLikeCardNumber } from "../../../model/basics/card-number.ts";
import { notice } from "./crew.ts";

function refuse({ target }: Event): void {
  if (!(target instanceof HTMLInputElement) || !looksLikeCardNumber(target.value)) return;
  target.value = "";
  notice("That looked like a card number, so it was wiped. Use the card reader, then tap “Paid: Card”.");
}

/** In the capture phase, before a view reads what was typed. */
export const refuseCardNumbers = (): void => document.addEventListener("input", refuse, { capture: true });
