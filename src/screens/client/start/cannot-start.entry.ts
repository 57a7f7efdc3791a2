/**
 * On every page, before its own script: if that one cannot be fetched or breaks, the page says so instead of connecting
 * for ever. Later errors are the page's own to show.
 */
const LINES = [
  ["en", "This page could not start. Reload it; if that does not help, open it in another browser."],
  ["es", "Esta página no pudo abrirse. Recárguela; si no ayuda, ábrala en otro navegador."],
] as const;

function tell({ target }: Event): void {
  const ours = target === window || target instanceof HTMLScriptElement;
  if (!ours || document.getElementById("not-started") !== null) return;
  const notice = document.createElement("div");
  notice.id = "not-started";
  notice.className = "notice";
  notice.setAttribute("role", "alert");
  for (const [language, text] of LINES) {
    const line = document.createElement("p");
    line.lang = language;
    line.textContent = text;
    notice.append(line);
  }
  document.body.prepend(notice);
}

// In the capture phase: the error event of a script that cannot be fetched does not bubble.
window.addEventListener("error", tell, true);
window.addEventListener("load", () => window.removeEventListener("error", tell, true), { once: true });

export {};
