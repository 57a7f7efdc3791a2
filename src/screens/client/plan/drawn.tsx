/** @jsxImportSource preact */
/** A result that is drawn as elements, in its place in a view. */
import { useLayoutEffect, useRef } from "preact/hooks";

type Props = {
  readonly id?: string;
  readonly class?: string;
  /** Draws again when one of these is another. */
  readonly of: readonly unknown[];
  readonly draw: () => readonly Node[];
  /** Work that must wait until the elements are on the page and have a width. */
  readonly then?: () => void;
};

export function Drawn({ id, class: kind, of, draw, then }: Props) {
  const place = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    place.current?.replaceChildren(...draw());
    then?.();
  }, of);
  return <div id={id} class={kind} ref={place} />;
}
