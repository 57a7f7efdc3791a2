/** Keeps the display on while the page is shown, where the browser can (it takes a secure address). */
export function keepAwake(): void {
  const ask = async (): Promise<void> => {
    if (document.hidden || !("wakeLock" in navigator)) return;
    // Refused on a low battery, among others: the page works all the same.
    await navigator.wakeLock.request("screen").catch(() => null);
  };
  document.addEventListener("visibilitychange", () => void ask());
  void ask();
}
