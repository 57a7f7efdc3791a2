/** @jsxImportSource preact */
/** The fair's numbers at the gateway, and the limits of what is sent. */
import { Typed } from "./fields.tsx";
import { type Props, Wrong } from "./part.tsx";

export function Numbers({ state, actions }: Props) {
  const { draft } = state;
  return (
    <section aria-labelledby="about-title">
      <h2 id="about-title">4. Your number</h2>
      <Typed
        id="numbers"
        label="Your numbers, one a line"
        help="Such as +12125550199. A stall’s short name after a number makes it that stall’s own; one without is shared."
        lines={2}
        value={draft.numbers}
        set={(numbers) => actions.edit({ ...draft, numbers })}
      />
      <div class="pair">
        <Typed
          id="country"
          label="Country, two letters"
          help="For numbers that come without a country code."
          value={draft.country}
          set={(country) => actions.edit({ ...draft, country })}
        />
        <Typed
          id="prefixes"
          label="Texts go only to numbers that begin with"
          help="Such as +1; a lone + allows every country."
          value={draft.prefixes}
          set={(prefixes) => actions.edit({ ...draft, prefixes })}
        />
      </div>
      <div class="pair">
        <Typed
          id="name"
          label="Your name for this gateway"
          value={draft.name}
          set={(name) => actions.edit({ ...draft, name })}
        />
        <Typed
          id="most"
          label="Text segments a day, at most"
          help="The fair’s own brake on its bill."
          value={draft.segmentsPerDay}
          set={(segmentsPerDay) => actions.edit({ ...draft, segmentsPerDay })}
        />
      </div>
      <Wrong state={state} part="about" />
    </section>
  );
}
