/** @jsxImportSource preact */
/** Whom to call at a stall: shown with a link that calls, and kept or forgotten by a form. */
import { useState } from "preact/hooks";
import type { StallContact } from "../../../../model/fair/contacts.ts";
import { Tap } from "../../parts/tap.tsx";
import { type TypedContact, typedContact } from "./typed-contact.ts";

type Props = {
  /** Null: none is kept. */
  readonly contact: StallContact | null;
  readonly keep: (contact: StallContact | null) => void;
};

const ROWS = [
  ["name", "Name", ""],
  ["phone", "Telephone", "With its country code, such as +12125550100."],
  ["note", "Note", "Such as the pitch, or who comes after six."],
] as const;

function Form({ contact, keep }: Props) {
  const [typed, type] = useState<TypedContact>({
    name: contact?.name ?? "",
    phone: contact?.phone ?? "",
    note: contact?.note ?? "",
  });
  const [fault, say] = useState<string | null>(null);
  return (
    <form
      class="stack tight"
      onSubmit={(event) => {
        event.preventDefault();
        const read = typedContact(typed);
        say(read.ok ? null : read.refusal);
        if (read.ok) keep(read.value);
      }}
    >
      {ROWS.map(([part, label, help]) => (
        <div key={part}>
          <label for={`contact-${part}`}>{label}</label>
          <input
            id={`contact-${part}`}
            inputMode={part === "phone" ? "tel" : "text"}
            autocomplete="off"
            maxLength={120}
            value={typed[part]}
            onInput={({ currentTarget: { value } }) => type({ ...typed, [part]: value })}
          />
          {help === "" ? null : <p class="small">{help}</p>}
        </div>
      ))}
      <p class="fault" role="status">
        {fault ?? ""}
      </p>
      <p class="row">
        <button type="submit">Keep this contact</button>
        {contact === null ? null : (
          <Tap class="danger" onTap={() => keep(null)}>
            Forget it
          </Tap>
        )}
      </p>
      <p class="small">Only this page shows it. It is erased 30 days after the fair.</p>
    </form>
  );
}

/** Give it a key of the stall, so that one stall's typing never becomes another's. */
export function Contact({ contact, keep }: Props) {
  return (
    <div id="contact" class="no-print">
      {contact === null ? null : (
        <p>
          <b>{contact.name}</b>{" "}
          {contact.phone === null ? null : <a href={`tel:${contact.phone}`}>{contact.phone}</a>}{" "}
          {contact.note === null ? null : <span>{contact.note}</span>}
        </p>
      )}
      <details>
        <summary>{contact === null ? "Add whom to call" : "Change whom to call"}</summary>
        <Form key={JSON.stringify(contact)} contact={contact} keep={keep} />
      </details>
    </div>
  );
}
