// The service worker keeps the app itself and the tiles that were looked at.
export function keepOffline(): void {
  if (!("serviceWorker" in navigator) || import.meta.env.DEV) return;
  navigator.serviceWorker.register("/sw.js").catch((error: unknown) => console.warn("no work without signal:", error));
}
