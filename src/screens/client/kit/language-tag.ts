/**
 * On a small board set up without a language the browser calls its own "en-US@posix", which is no language tag (RFC
 * 5646): whatever formats numbers by it throws, and the page stays empty. There it is English, said properly. Imported
 * before whatever reads it.
 */
try {
  Intl.getCanonicalLocales(navigator.language);
} catch {
  Object.defineProperty(navigator, "language", { configurable: true, get: () => "en" });
}

export {};
