/** @jsxImportSource preact */
/** A question that comes up from below, for as long as its view has it. */
import type { ComponentChildren } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";

type Props = {
  readonly id: string;
  readonly title: string;
  /** It was closed by the keyboard or by a gesture. */
  readonly closed: () => void;
  readonly children?: ComponentChildren;
};

export function Dialog({ id, title, closed, children }: Props) {
  const dialog = useRef<HTMLDialogElement>(null);
  // When the dialog closes, the focus goes back to where it was.
  useLayoutEffect(() => {
    const before = document.activeElement;
    dialog.current?.showModal();
    return () => {
      if (before instanceof HTMLElement) before.focus();
    };
  }, []);
  return (
    <dialog id={id} ref={dialog} aria-labelledby={`${id}-title`} onClose={closed}>
      <h2 id={`${id}-title`}>{title}</h2>
      {children}
    </dialog>
  );
}
