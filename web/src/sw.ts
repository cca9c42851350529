/// <reference lib="webworker" />
// Keeps the app on the device, so that it starts without signal, and tiles that were looked at. What people told, what is known and the files of
// rounds lie in the app's own database, not here. A new version waits until no page of the old one is open: its parts are still read.
import { clientsClaim } from "workbox-core";
import { ExpirationPlugin } from "workbox-expiration";
import { cleanupOutdatedCaches, createHandlerBoundToURL, precacheAndRoute } from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";
import { StaleWhileRevalidate } from "workbox-strategies";

declare const self: ServiceWorkerGlobalScope;

clientsClaim();
cleanupOutdatedCaches();
precacheAndRoute(self.__WB_MANIFEST);
// the app is one page; addresses of the server's own are not
registerRoute(new NavigationRoute(createHandlerBoundToURL("/index.html"), { denylist: [/^\/(api|ogc|open311|wzdx|healthz|readyz|metrics)/] }));
registerRoute(
  ({ url, sameOrigin }) => sameOrigin && url.pathname.startsWith("/api/tiles/"),
  new StaleWhileRevalidate({ cacheName: "tiles", plugins: [new ExpirationPlugin({ maxEntries: 4_000, purgeOnQuotaError: true })] }),
);
