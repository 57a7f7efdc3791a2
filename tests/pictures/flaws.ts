/** Flaws in a page's layout, found from its structure. Runs in the page itself, so it uses nothing from outside. */

/** Each flaw in one line; empty if there are none. `least` is the smallest side of a target in pixels. */
export function flawsIn(least: number): readonly string[] {
  const ROUNDING = 1;
  const root = document.documentElement;
  const flaws: string[] = [];
  const nameOf = (element: Element): string => {
    const id = element.id === "" ? "" : `#${element.id}`;
    const kind =
      typeof element.className === "string" && element.className !== ""
        ? `.${element.className.split(" ")[0]}`
        : "";
    const text = (element.textContent ?? "").trim().replaceAll(/\s+/g, " ").slice(0, 30);
    return `${element.tagName.toLowerCase()}${id}${kind} “${text}”`;
  };
  /** For screen readers only. */
  const isClippedAway = (element: Element): boolean => {
    for (let above: Element | null = element; above !== null; above = above.parentElement)
      if (getComputedStyle(above).clipPath === "inset(50%)") return true;
    return false;
  };
  const isSeen = (element: Element): boolean =>
    element.checkVisibility({ visibilityProperty: true, opacityProperty: true }) &&
    element.closest(".skip, svg") === null &&
    !isClippedAway(element);

  if (root.scrollWidth > root.clientWidth) {
    const widest = [...document.querySelectorAll("body *")].find(
      (element) => isSeen(element) && element.getBoundingClientRect().right > root.clientWidth + ROUNDING,
    );
    flaws.push(
      `scrolls sideways by ${root.scrollWidth - root.clientWidth} px${widest === undefined ? "" : `: ${nameOf(widest)}`}`,
    );
  }

  // Links inside a sentence are exempt (WCAG 2.2, 2.5.8); whatever is a button is not.
  const TARGETS =
    "button:not(.link), a.button, summary, select, textarea, input:not([type=hidden], [type=file])";
  for (const target of document.querySelectorAll(TARGETS)) {
    const label = target.matches("[type=checkbox], [type=radio]") ? target.closest("label") : null;
    const own = label ?? target;
    if (!isSeen(target) && !(label !== null && isSeen(label))) continue;
    const { width, height } = own.getBoundingClientRect();
    if (width + ROUNDING / 2 < least || height + ROUNDING / 2 < least)
      flaws.push(`is a target of ${Math.round(width)} × ${Math.round(height)} px: ${nameOf(own)}`);
  }

  /** The visible box of a line of text: its letters without the space above and below, less what an ancestor clips. */
  const inkOf = (element: Element, line: DOMRect): DOMRect => {
    let [left, top] = [line.left, line.top + line.height * 0.2];
    let [right, bottom] = [line.right, line.bottom - line.height * 0.2];
    for (let above: Element | null = element; above !== null; above = above.parentElement) {
      if (!/hidden|clip|auto|scroll/.test(getComputedStyle(above).overflowX)) continue;
      const edge = above.getBoundingClientRect();
      [left, top] = [Math.max(left, edge.left), Math.max(top, edge.top)];
      [right, bottom] = [Math.min(right, edge.right), Math.min(bottom, edge.bottom)];
    }
    return new DOMRect(left, top, Math.max(0, right - left), Math.max(0, bottom - top));
  };
  type Piece = { readonly element: Element; readonly box: DOMRect };
  const pieces: Piece[] = [];
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const range = document.createRange();
  for (let text = texts.nextNode(); text !== null; text = texts.nextNode()) {
    const element = text.parentElement;
    if (element === null || (text.textContent ?? "").trim() === "" || !isSeen(element)) continue;
    if (element.closest("option, script, noscript, title") !== null) continue;
    range.selectNodeContents(text);
    for (const box of range.getClientRects())
      if (box.width > 1 && box.height > 1) pieces.push({ element, box });
  }

  /** Whether an ancestor scrolls or is pinned over the page: content beyond its edge can still be reached. */
  const scrolls = (style: CSSStyleDeclaration): boolean =>
    /auto|scroll/.test(`${style.overflowX} ${style.overflowY}`);
  const cut = new Set<Element>();
  for (const { element, box } of pieces) {
    for (
      let above: Element | null = element;
      above !== null && above !== document.body;
      above = above.parentElement
    ) {
      const style = getComputedStyle(above);
      if (scrolls(style) || style.textOverflow === "ellipsis") break;
      if (!/hidden|clip/.test(`${style.overflowX} ${style.overflowY}`)) continue;
      const edge = above.getBoundingClientRect();
      // Glyphs are lower than their line.
      const slack = box.height * 0.25;
      if (
        box.right > edge.right + 2 ||
        box.left < edge.left - 2 ||
        box.bottom > edge.bottom + slack ||
        box.top < edge.top - slack
      )
        cut.add(element);
    }
  }
  for (const element of cut) flaws.push(`is cut off: ${nameOf(element)}`);
  for (const field of document.querySelectorAll<HTMLInputElement>("input[placeholder]"))
    if (isSeen(field) && field.value === "") {
      const pen = document.createElement("canvas").getContext("2d");
      if (pen === null) continue;
      const style = getComputedStyle(field);
      pen.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
      const room =
        field.clientWidth - Number.parseFloat(style.paddingLeft) - Number.parseFloat(style.paddingRight);
      if (pen.measureText(field.placeholder).width > room + ROUNDING)
        flaws.push(`is cut off: placeholder “${field.placeholder}”`);
    }

  /** An element pinned over the page may cover what scrolls below it. */
  const pinOf = (element: Element): Element | null => {
    for (let above: Element | null = element; above !== null; above = above.parentElement)
      if (/sticky|fixed/.test(getComputedStyle(above).position) || above.matches("dialog, .menu > nav"))
        return above;
    return null;
  };
  const scrollerOf = (element: Element): Element | null => {
    for (let above: Element | null = element.parentElement; above !== null; above = above.parentElement)
      if (scrolls(getComputedStyle(above))) return above;
    return null;
  };
  const sorted = pieces
    .map(({ element, box }) => ({ element, box: inkOf(element, box) }))
    .map((piece) => ({ ...piece, pin: pinOf(piece.element), scroller: scrollerOf(piece.element) }))
    .sort((one, other) => one.box.top - other.box.top);
  const overlaps = new Set<string>();
  sorted.forEach((one, at) => {
    for (let next = at + 1; next < sorted.length; next += 1) {
      const other = sorted[next];
      if (other === undefined || other.box.top > one.box.bottom) break;
      if (one.element === other.element || one.pin !== other.pin || one.scroller !== other.scroller) continue;
      const wide = Math.min(one.box.right, other.box.right) - Math.max(one.box.left, other.box.left);
      const high = Math.min(one.box.bottom, other.box.bottom) - Math.max(one.box.top, other.box.top);
      if (wide > 2 && high > 2) overlaps.add(`overlap: ${nameOf(one.element)} and ${nameOf(other.element)}`);
    }
  });
  flaws.push(...overlaps);
  return flaws;
}

/** Those of some elements that are not wholly in view: beyond the window, or scrolled out of a part of the page. */
export function outOfView(selectors: readonly string[]): readonly string[] {
  const ROUNDING = 1;
  return selectors.filter((selector) => {
    const element = document.querySelector(selector);
    if (element === null) return true;
    const { top, bottom } = element.getBoundingClientRect();
    let [from, to] = [0, innerHeight];
    for (let above = element.parentElement; above !== null; above = above.parentElement) {
      if (!/auto|scroll|hidden/.test(getComputedStyle(above).overflowY)) continue;
      const edge = above.getBoundingClientRect();
      [from, to] = [Math.max(from, edge.top), Math.min(to, edge.bottom)];
    }
    return top < from - ROUNDING || bottom > to + ROUNDING;
  });
}
