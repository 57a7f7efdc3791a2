/** The controls of a view, found in its tree: what can be tapped, and whether it is enabled. */
import type { VNode } from "preact";
import { Dialog } from "../../src/screens/client/parts/dialog.tsx";

export type Control = {
  /** Its label, the value of a tile, or its words. */
  readonly name: string;
  /** It says that it cannot be chosen or done. */
  readonly gone: boolean;
  /** It waits for a moment. */
  readonly busy: boolean;
  readonly tap: () => void;
};

type Props = { readonly children?: unknown } & Readonly<Record<string, unknown>>;

const wordsIn = (node: unknown): string =>
  Array.isArray(node)
    ? node.map(wordsIn).join("")
    : typeof node === "object" && node !== null
      ? wordsIn((node as VNode<Props>).props.children) // what JSX makes
      : String(node ?? "");

/** Every button and tile of a view; elements under `hidden` cannot be tapped. */
export function controlsIn(node: unknown): readonly Control[] {
  if (Array.isArray(node)) return node.flatMap(controlsIn);
  if (typeof node !== "object" || node === null) return [];
  const { type, props } = node as VNode<Props>; // what JSX makes
  // It shows itself by an effect, which needs a page.
  if (type === Dialog) return controlsIn(props.children);
  if (typeof type === "function") return controlsIn((type as (given: Props) => unknown)(props)); // no class is used
  if (props["hidden"] === true) return [];
  const tap = (props["onClick"] ?? props["onChange"]) as ((event: object) => void) | undefined; // as JSX takes them
  if (tap === undefined || (type !== "button" && props["type"] !== "radio"))
    return controlsIn(props.children);
  const name = String(props["aria-label"] ?? props["value"] ?? wordsIn(props.children));
  return [
    {
      name,
      gone: props["disabled"] === true,
      busy: props["aria-disabled"] === true,
      tap: () => tap({ detail: 1 }),
    },
  ];
}
