/** No card's number is ever typed into a crew page: a field that looks like one is emptied at once. */
import { looksLikeCardNumber } from "../../../model/basics/card-number.ts";
import { notice } from "./crew.ts";

export function refuseCardNumbers(): void {
  document.addEventListener("input", ({ target }) => {
    if (!(target instanceof HTMLInputElement) || !looksLikeCardNumber(target.value)) return;
    target.value = "";
    notice("That looked like a card number, so it was wiped. Use the card reader, then tap “Paid: Card”.");
  });
}
