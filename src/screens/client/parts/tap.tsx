/** @jsxImportSource preact */
/** A button of a view. */
import type { ComponentChildren } from "preact";

type Props = {
  readonly onTap: () => void;
  /** Nothing may be tapped for a moment. It keeps the focus, which a disabled button would lose. */
  readonly busy?: boolean;
  readonly id?: string;
  readonly class?: string | undefined;
  readonly label?: string;
  readonly pressed?: boolean;
  readonly children?: ComponentChildren;
};

export function Tap({ onTap, busy = false, id, class: kind, label, pressed, children }: Props) {
  return (
    <button
      type="button"
      id={id}
      class={kind}
      aria-label={label}
      aria-pressed={pressed}
      aria-disabled={busy ? true : undefined}
      onClick={() => {
        if (!busy) onTap();
      }}
    >
      {children}
    </button>
  );
}
