/** @jsxImportSource preact */
/** A sheet's layout to scale, with what is said of it. */
import type { ComponentChildren } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";

type Props = { readonly svg: string; readonly children: ComponentChildren };

/** The drawing's text becomes an element of this page; nothing in it is ever run. */
export function Layout({ svg, children }: Props) {
  const place = useRef<HTMLElement>(null);
  useLayoutEffect(() => {
    const { documentElement } = new DOMParser().parseFromString(svg, "image/svg+xml");
    const drawing = document.importNode(documentElement, true);
    place.current?.prepend(drawing);
    return () => drawing.remove();
  }, [svg]);
  return (
    <figure class="layout" ref={place}>
      {children}
    </figure>
  );
}
