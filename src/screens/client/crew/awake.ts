/** Keeps the tablet's screen lit while the page is looked at, where the browser can. */
export function stayAwake(): void {
  const ask = (): void => {
    // A browser may refuse, on a low battery for one; the page works all the same.
    if (!document.hidden && "wakeLock" in navigator)
      void navigator.wakeLock.request("screen").catch(() => {});
  };
  document.addEventListener("visibilitychange", ask);
  ask();
}
