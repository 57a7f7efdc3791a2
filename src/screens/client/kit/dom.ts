/** Making and finding elements. Text always goes in as text, so that a name can never become markup. */

type Attributes = Readonly<Record<string, string | number | boolean | null | ((event: Event) => void)>>;
type Child = Node | string | null;

/** An element with attributes (functions are listeners, `true` an empty attribute, `false` and null none). */
export function element<T extends keyof HTMLElementTagNameMap>(
  tag: T,
  attributes: Attributes = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[T] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (typeof value === "function") made.addEventListener(name.replace(/^on/, ""), value);
    else if (value !== false && value !== null) made.setAttribute(name, value === true ? "" : String(value));
  }
  made.append(...children.filter((child) => child !== null));
  return made;
}

/** The element of the page's shell with this id; a missing one is a bug of the page. */
export function byId<T extends HTMLElement = HTMLElement>(id: string): T {
  const found = document.getElementById(id);
  if (found === null) throw new Error(`the page has no #${id}`);
  return found as T; // the caller names the kind that the shell beside it has
}

/** A data attribute of the body that the shell wrote. */
export function pageData(name: string): string {
  const value = document.body.dataset[name];
  if (value === undefined) throw new Error(`the page has no data-${name}`);
  return value;
}

/** The present value of a style token, such as `--ink` by day or by night, for drawings without styles. */
export const token = (name: `--${string}`): string =>
  getComputedStyle(document.documentElement).getPropertyValue(name).trim();
