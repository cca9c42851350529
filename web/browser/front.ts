// The app as it lies in `dist`, before a server that was built with an older one: so that a change is tried without building the program
// again. Everything that is no file of the app goes on to the server.
import { existsSync, readFileSync } from "node:fs";
import { createServer, request, type IncomingMessage, type ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";
import { join, normalize } from "node:path";
import { gzipSync } from "node:zlib";

const MEDIA: Record<string, string> = {
  html: "text/html; charset=utf-8",
  js: "text/javascript; charset=utf-8",
  mjs: "text/javascript; charset=utf-8",
  css: "text/css; charset=utf-8",
  svg: "image/svg+xml",
  png: "image/png",
  woff2: "font/woff2",
  webmanifest: "application/manifest+json",
};
/** Headers of the server's own page that files given here carry too: what the browser lets the app do. */
const KEPT = ["content-security-policy", "cross-origin-opener-policy", "permissions-policy", "referrer-policy", "x-content-type-options"];

export async function openFront(dist: string, server: string): Promise<{ address: string; end(): Promise<void> }> {
  const answer = await fetch(server);
  const headers = Object.fromEntries(KEPT.flatMap((name) => (answer.headers.has(name) ? [[name, answer.headers.get(name)!]] : [])));
  const packed = new Map<string, Buffer>();
  const file = (name: string, response: ServerResponse): void => {
    const ending = name.split(".").at(-1)!;
    if (!packed.has(name)) packed.set(name, gzipSync(readFileSync(join(dist, name))));
    const keep = name.startsWith("assets/") ? "public, max-age=31536000, immutable" : "no-cache";
    response.writeHead(200, { ...headers, "content-type": MEDIA[ending] ?? "application/octet-stream", "content-encoding": "gzip", "cache-control": keep });
    response.end(packed.get(name));
  };
  const pass = (asked: IncomingMessage, response: ServerResponse): void => {
    const onward = request(server + asked.url, { method: asked.method, headers: asked.headers }, (answer) => {
      response.writeHead(answer.statusCode!, answer.headers);
      answer.pipe(response);
    });
    onward.on("error", () => response.destroy());
    asked.pipe(onward);
  };
  const front = createServer((asked, response) => {
    const name = normalize(new URL(asked.url!, server).pathname).slice(1) || "index.html";
    if (asked.method === "GET" && !name.startsWith("api") && existsSync(join(dist, name))) file(name, response);
    else pass(asked, response);
  });
  await new Promise<void>((done) => front.listen(0, "127.0.0.1", done));
  const end = (): Promise<void> =>
    new Promise((done) => {
      front.close(() => done());
      front.closeAllConnections();
    });
  return { address: `http://127.0.0.1:${(front.address() as AddressInfo).port}`, end };
}
