import { svelte } from "@sveltejs/vite-plugin-svelte";
import { VitePWA } from "vite-plugin-pwa";
import { defineConfig } from "vitest/config";

export default defineConfig({
  plugins: [
    svelte(),
    VitePWA({
      // our own service worker: it also keeps tiles
      strategies: "injectManifest",
      srcDir: "src",
      filename: "sw.ts",
      injectRegister: false,
      injectManifest: { globPatterns: ["**/*.{js,mjs,css,html,svg,png,woff2,webmanifest}"], maximumFileSizeToCacheInBytes: 4_000_000 },
      manifest: {
        id: "/",
        name: "lengthsman",
        short_name: "lengthsman",
        description: "Holes, rounds, work zones and the record of a road district.",
        start_url: "/",
        scope: "/",
        display: "standalone",
        background_color: "#f4f1ea",
        theme_color: "#f4f1ea",
        icons: [
          { src: "/icon-192.png", sizes: "192x192", type: "image/png" },
          { src: "/icon-512.png", sizes: "512x512", type: "image/png" },
          { src: "/icon-mask.png", sizes: "512x512", type: "image/png", purpose: "maskable" },
        ],
      },
    }),
  ],
  build: {
    target: "es2022",
    // the strict content security policy lets no data URL scripts in; keep assets as files
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 1_200,
  },
  server: {
    fs: { allow: [".."] },
    proxy: Object.fromEntries(
      ["/api", "/ogc", "/open311", "/wzdx", "/healthz", "/readyz"].map((path) => [path, process.env["LENGTHSMAN_SERVER"] ?? "http://127.0.0.1:8080"]),
    ),
  },
  test: { include: ["tests/**/*.test.ts", "src/**/*.test.ts"], environment: "node" },
});
