// The server's answers as JSON, and jobs that take their time.
import { fetchFile, ownHeaders } from "../../lib/api";
import type { Job } from "./plan_shapes";

/** Asks, and gives what is answered; what is refused is thrown as the server says it. */
export async function call<T>(method: string, path: string, body?: unknown): Promise<T> {
  const isFile = body instanceof Blob;
  const response = await fetch(path, {
    method,
    headers: { ...ownHeaders(), ...(body === undefined ? {} : { "content-type": isFile ? body.type : "application/json" }) },
    ...(body === undefined ? {} : { body: isFile ? body : JSON.stringify(body) }),
  });
  const isJson = /json/.test(response.headers.get("content-type") ?? "");
  const answer: unknown = isJson ? await response.json() : undefined;
  if (!response.ok) throw answer ?? new Error(`${path}: ${response.status}`);
  return answer as T;
}

export const get = <T>(path: string): Promise<T> => call<T>("GET", path);

const ENDED = ["done", "failed", "stopped"];

/** Follows a job to its end, telling how far it is, and gives it as it came out. Server-sent events where they come through, else it asks. */
export async function follow(path: string, tell: (job: Job) => void, signal: AbortSignal): Promise<Job> {
  try {
    await followEvents(path, tell, signal);
  } catch (error) {
    if (signal.aborted) throw error;
  }
  for (;;) {
    const job = await get<Job>(path);
    tell(job);
    if (ENDED.includes(job.state)) return job;
    await new Promise((done) => setTimeout(done, 700));
    signal.throwIfAborted();
  }
}

/** Read with `fetch`, since an `EventSource` can't send a device's token. */
async function followEvents(path: string, tell: (job: Job) => void, signal: AbortSignal): Promise<void> {
  const response = await fetch(`${path}/progress`, { headers: { ...ownHeaders(), accept: "text/event-stream" }, signal });
  if (!response.ok || !response.body) return;
  const reader = response.body.pipeThrough(new TextDecoderStream()).getReader();
  let text = "";
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return;
    const { jobs, rest } = readEvents(text + value);
    text = rest;
    for (const job of jobs) {
      tell(job);
      if (ENDED.includes(job.state)) {
        void reader.cancel();
        return;
      }
    }
  }
}

/** What has come whole of a stream of server-sent events, and the rest of it. */
export function readEvents(text: string): { jobs: Job[]; rest: string } {
  const blocks = text.replaceAll("\r\n", "\n").split("\n\n");
  const rest = blocks.pop() ?? "";
  const jobs = blocks.flatMap((block) => {
    const data = block.split("\n").flatMap((line) => (line.startsWith("data:") ? [line.slice(5).trimStart()] : []));
    return data.length === 0 ? [] : [JSON.parse(data.join("\n")) as Job];
  });
  return { jobs, rest };
}

/** Saves a file of the server; with the token where it is a device. */
export async function saveFile(path: string, name: string): Promise<void> {
  const blob = await (await fetchFile(path)).blob();
  const url = URL.createObjectURL(blob);
  Object.assign(document.createElement("a"), { href: url, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
