/** A contact as it is typed, and as it is kept. */
import { ok, type Result, refused } from "../../../../model/basics/result.ts";
import type { StallContact } from "../../../../model/fair/contacts.ts";

export type TypedContact = { readonly name: string; readonly phone: string; readonly note: string };

/** The contact, or what is wrong with it. Spaces, hyphens and brackets in a number are left out. */
export function typedContact({ name, phone, note }: TypedContact): Result<StallContact, string> {
  const digits = phone.replaceAll(/[\s().-]/g, "");
  if (name.trim() === "") return refused("Type a name.");
  if (digits !== "" && !/^\+[1-9][0-9]{1,14}$/.test(digits))
    return refused("Begin the number with a plus and its country code, such as +12125550100.");
  return ok({
    name: name.trim(),
    phone: digits === "" ? null : (digits as StallContact["phone"]), // checked above
    note: note.trim() === "" ? null : note.trim(),
  });
}
