/** @jsxImportSource preact */
/** Receipts: which texts arrived. */
import { NO_RECEIPTS, RECEIPT_ROLES, withReceiptExample } from "./draft.ts";
import { TappedFields, Typed } from "./fields.tsx";
import { type Props, Wrong } from "./part.tsx";

export function Receipts({ state, actions, hook }: Props) {
  const { draft } = state;
  const receipts = draft.receipts ?? NO_RECEIPTS;
  return (
    <details open={state.mistakes.some(({ part }) => part === "receipts")}>
      <summary>Receipts, if the gateway sends them</summary>
      <p>They say which texts arrived. Their address:</p>
      <p class="address">
        <code>{`${hook}/receipts`}</code>
      </p>
      <Typed
        id="receipt"
        label="Paste its example of a receipt"
        help="Empty: no receipts."
        lines={4}
        value={receipts.sample}
        set={(typed) => actions.edit(withReceiptExample(draft, typed))}
      />
      <TappedFields
        id="receipt-fields"
        example={receipts.sample}
        roles={RECEIPT_ROLES}
        roleOf={(place) => RECEIPT_ROLES.find(([role]) => receipts.picks[role] === place)?.[0]}
        tapped={(place, role) =>
          actions.edit({ ...draft, receipts: { ...receipts, picks: { ...receipts.picks, [role]: place } } })
        }
      />
      <div class="pair">
        <Typed
          id="delivered"
          label="Words for delivered"
          value={receipts.delivered}
          set={(delivered) => actions.edit({ ...draft, receipts: { ...receipts, delivered } })}
        />
        <Typed
          id="failed"
          label="Words for failed"
          value={receipts.failed}
          set={(failed) => actions.edit({ ...draft, receipts: { ...receipts, failed } })}
        />
      </div>
      <Wrong state={state} part="receipts" />
    </details>
  );
}
