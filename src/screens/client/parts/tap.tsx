/** @jsxImportSource preact */
/** A button of a view. */
import type { ComponentChildren } from "preact";

type Props = {
  readonly onTap: () => void;
  /** Nothing may be tapped for a moment. It keeps the focus, which a disabled button would lose. */
  readonly busy?: boolean;
  readonly disabled?: boolean;
  /** The second click of a double tap was meant for the button that was here before. */
  readonly once?: true;
  readonly id?: string;
  readonly class?: string | undefined;
  readonly label?: string;
  readonly pressed?: boolean;
  /** Names it among the parts of its bench, for its style. */
  readonly part?: string;
  readonly children?: ComponentChildren;
};

export function Tap({
  onTap,
  busy = false,
  disabled = false,
  once,
  part,
  label,
  pressed,
  children,
  ...rest
}: Props) {
  return (
    <button
      type="button"
      id={rest.id}
      class={rest.class}
      data-part={part}
      disabled={disabled}
      aria-label={label}
      aria-pressed={pressed}
      aria-disabled={busy ? true : undefined}
      onClick={({ detail }) => {
        if (!busy && !(once && detail > 1)) onTap();
      }}
    >
      {children}
    </button>
  );
}
