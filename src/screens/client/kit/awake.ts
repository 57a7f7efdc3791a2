/** Keeps the display on while the page is shown, if the browser can (it needs a secure address). */
export function keepAwake(): void {
  const ask = async (): Promise<void> => {
    if (document.hidden || !("wakeLock" in navigator)) return;
    // A browser may refuse, for example on a low battery: the page works without it.
    await navigator.wakeLock.request("screen").catch(() => null);
  };
  document.addEventListener("visibilitychange", () => void ask());
  void ask();
}
