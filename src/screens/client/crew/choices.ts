/** Radio buttons of the shell, read by their name. */

const marked = (root: HTMLElement, name: string): HTMLInputElement | null =>
  root.querySelector<HTMLInputElement>(`input[name="${name}"]:checked`);

/** The value that is chosen, or null. */
export const chosen = (root: HTMLElement, name: string): string | null => marked(root, name)?.value ?? null;

/** Chooses nothing of that name. */
export function clearChoice(root: HTMLElement, name: string): void {
  const input = marked(root, name);
  if (input !== null) input.checked = false;
}
