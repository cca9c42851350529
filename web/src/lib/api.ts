// The server, as its own document describes it.
import createClient, { type Middleware } from "openapi-fetch";
import type { components, paths } from "../api/schema";
import { clockCompared } from "./clock";

export type Problem = components["schemas"]["Problem"];

let token: string | undefined;

/** The token of a device, sent with every request; none: the browser's cookie counts. */
export function setToken(value: string | undefined): void {
  token = value;
}

/** Headers that every request carries. Forms of other sites can't send the first. */
export function ownHeaders(): Record<string, string> {
  return { "x-lengthsman": "1", ...(token === undefined ? {} : { authorization: `Bearer ${token}` }) };
}

const asked = new Map<string, number>();

const own: Middleware = {
  onRequest({ request, id }) {
    for (const [name, value] of Object.entries(ownHeaders())) request.headers.set(name, value);
    asked.set(id, Date.now());
    return request;
  },
  async onResponse({ response, id }) {
    const at = asked.get(id);
    asked.delete(id);
    if (at !== undefined) await clockCompared(response.headers.get("date"), at, Date.now());
  },
  onError({ id }) {
    asked.delete(id);
  },
};

/** Ends a request that hangs, so that the next can be tried. */
export function patience(): AbortSignal {
  return AbortSignal.timeout(60_000);
}

export const api = createClient<paths>({ baseUrl: globalThis.location?.origin ?? "http://localhost", fetch: (request) => globalThis.fetch(request) });
api.use(own);

/** What the server answered in place of what was asked for. */
export class Answered extends Error {
  constructor(
    readonly status: number,
    problem: unknown,
  ) {
    // a page of a server in front, or of the network, says nothing to people
    super((typeof problem === "object" && problem !== null ? words(problem) : "") || String(status));
  }
}

/** What a failed request says, for people. */
export function words(problem: unknown): string {
  if (problem && typeof problem === "object" && "detail" in problem) {
    const { title, detail } = problem as Problem;
    return detail || title;
  }
  return problem instanceof Error ? problem.message : String(problem ?? "");
}

/** A file of the server with its headers, e.g. a drawing. */
export async function fetchFile(path: string): Promise<Response> {
  const response = await fetch(path, { headers: ownHeaders() });
  if (!response.ok) throw new Error(`${path}: ${response.status}`);
  return response;
}
