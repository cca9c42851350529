/// <reference lib="webworker" />
// Keeps the app on the device, so that it starts without signal; also tiles, drawings and photos that were looked at. What people told and
// what is known lies in the app's own database, not here.
import { clientsClaim } from "workbox-core";
import { ExpirationPlugin } from "workbox-expiration";
import { cleanupOutdatedCaches, createHandlerBoundToURL, precacheAndRoute } from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";
import { StaleWhileRevalidate } from "workbox-strategies";

declare const self: ServiceWorkerGlobalScope;

void self.skipWaiting();
clientsClaim();
cleanupOutdatedCaches();
precacheAndRoute(self.__WB_MANIFEST);
// the app is one page; addresses of the server's own are not
registerRoute(new NavigationRoute(createHandlerBoundToURL("/index.html"), { denylist: [/^\/(api|ogc|open311|wzdx|healthz|readyz|metrics)/] }));
registerRoute(
  ({ url, sameOrigin }) => sameOrigin && url.pathname.startsWith("/api/tiles/"),
  new StaleWhileRevalidate({ cacheName: "tiles", plugins: [new ExpirationPlugin({ maxEntries: 4_000, purgeOnQuotaError: true })] }),
);
