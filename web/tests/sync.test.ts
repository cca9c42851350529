// What the sync does with answers that go wrong: nothing half, nothing held back by another, nothing told in another's name.
import "fake-indexeddb/auto";
import Dexie from "dexie";
import { beforeEach, describe, expect, it, vi } from "vitest";
import { holes, keepReading } from "../src/office/data/known.svelte";
import { becomeDevice } from "../src/lib/session.svelte";
import { database, forgetEverything } from "../src/lib/store/database";
import { tell } from "../src/lib/store/queue";
import { fetchFiles, fetchKnown, sendEvents, sendPhotos, sync, syncState, wantFiles } from "../src/lib/store/sync.svelte";
import { troubleOf } from "../src/lib/trouble";

type Answer = (request: { path: string; method: string; body: any }) => Response | Promise<Response>;

/** Answers in place of the server. */
function serve(answer: Answer): void {
  vi.stubGlobal("fetch", async (given: Request | string, init?: RequestInit) => {
    const request = typeof given === "string" ? new Request(new URL(given, "http://localhost"), init) : given;
    const text = await request.clone().text();
    const url = new URL(request.url);
    return answer({ path: url.pathname + url.search, method: request.method, body: text.startsWith("{") ? JSON.parse(text) : text });
  });
}
const json = (value: unknown, status = 200): Response => new Response(JSON.stringify(value), { status, headers: { "content-type": "application/json" } });
const me = { account: "a", name: "idris", role: "crew", crew: "Crew Fulmar", device: "truck" };
const hole = (note: string) => ({ kind: "hole_dismissed", hole: "018f0000-0000-7000-8000-000000000001", why: note }) as never;

beforeEach(async () => {
  serve(() => json({}, 404));
  await forgetEverything();
  await becomeDevice("token", me);
});

describe("files of a round", () => {
  const ROUND = "018f0000-0000-7000-8000-00000000000a";
  const listed = (files: Record<string, string>) => json(Object.entries(files).map(([name, sha256]) => ({ name, sha256, media_type: "text/plain", bytes: 1 })));
  const kept = async () => Object.fromEntries(await Promise.all((await database.files.toArray()).map(async (file) => [file.key.split("/")[1], file.sha256])));

  it("are of one plan: all of the new, or still all of the old", async () => {
    let files: Record<string, string> = { "plan.json": "1", "zone-0.svg": "1", "zone-1.svg": "1" };
    let broken = "";
    serve(({ path }) => (path.endsWith("/files") ? listed(files) : path.endsWith(broken || "nothing") ? json({}, 503) : new Response("x")));
    wantFiles([ROUND]);
    await fetchFiles();
    expect(await kept()).toEqual(files);
    const old = files;
    files = { "plan.json": "2", "zone-0.svg": "2" };
    broken = "zone-0.svg";
    await expect(fetchFiles()).rejects.toThrow("503");
    expect(await kept()).toEqual(old);
    broken = "";
    await fetchFiles();
    expect(await kept()).toEqual(files);
  });
});

describe("photos", () => {
  const photo = (sha256: string) => ({ sha256, blob: new Blob(["x".repeat(10)], { type: "image/png" }), state: "waiting" as const, about: [] });

  it("go on where one is not taken, and from where the server says", async () => {
    await database.photos.bulkPut([photo("aa"), photo("bb"), photo("cc")]);
    let tries = 0;
    serve(({ path, method }) => {
      if (method === "HEAD") return new Response(null, { status: 404 });
      if (path.endsWith("aa")) return json({ title: "no photo" }, 415);
      if (path.endsWith("bb") && tries++ === 0) return new Response("{}", { status: 409, headers: { "upload-offset": "4" } });
      return json({ bytes: 10, complete: true });
    });
    await sendPhotos();
    expect((await database.photos.toArray()).map(({ sha256, state }) => [sha256, state])).toEqual([["aa", "refused"], ["bb", "sent"], ["cc", "sent"]]);
  });
});

describe("a photo of which all bytes are there", () => {
  const photo = { sha256: "aa", blob: new Blob(["0123456789"], { type: "image/png" }), state: "waiting" as const, about: [] };
  const ranges: string[] = [];
  function answers(complete: (range: string) => Response): void {
    vi.stubGlobal("fetch", async (_: string, init: RequestInit) => {
      if (init.method === "HEAD") return new Response(null, { status: 204, headers: { "upload-offset": "10" } });
      const range = new Headers(init.headers).get("content-range")!;
      ranges.push(range);
      return complete(range);
    });
  }

  beforeEach(async () => {
    ranges.length = 0;
    await database.photos.put(photo);
  });

  it("is sent only when the server has looked it through", async () => {
    answers(() => json({ bytes: 10, complete: true }));
    await sendPhotos();
    expect(ranges).toEqual(["bytes 9-9/10"]);
    expect(await database.photos.get("aa")).toMatchObject({ state: "sent", confirmed: expect.any(Number) });
  });

  it("is not sent while the server does not say that it has", async () => {
    let asked = 0;
    answers(() => json({ bytes: 10, complete: ++asked > 2 }));
    await sendPhotos();
    expect([asked, (await database.photos.get("aa"))?.state]).toEqual([3, "sent"]);
    await database.photos.put(photo);
    answers(() => json({ bytes: 10, complete: false }));
    await expect(sendPhotos()).rejects.toThrow();
    expect((await database.photos.get("aa"))?.state).toBe("waiting");
  });

  it("is sent anew when they were spoilt", async () => {
    answers((range) => (range.startsWith("bytes 0-") ? json({ bytes: 10, complete: true }) : json({}, 422)));
    await sendPhotos();
    expect(ranges).toEqual(["bytes 9-9/10", "bytes 0-9/10"]);
    expect((await database.photos.get("aa"))?.state).toBe("sent");
  });

  it("is refused when it is never that file", async () => {
    answers(() => json({}, 422));
    await sendPhotos();
    expect((await database.photos.get("aa"))?.state).toBe("refused");
  });
});

describe("what keeps the device from the server is told apart", () => {
  const unreachable = (): never => {
    throw new TypeError("Failed to fetch");
  };
  it.each([
    ["no network", unreachable, false, "network", "Failed to fetch"],
    ["a network, but no answer", unreachable, true, "server", "Failed to fetch"],
    ["a server in front without one behind", () => new Response("<html>", { status: 502 }), true, "server", "502"],
    ["too many requests", () => json({ title: "slow down", detail: "" }, 429), true, "server", "slow down"],
    ["a page of the network's own", () => new Response("<html>sign in to the network</html>"), true, "server", undefined],
    ["a sign-in that has ended", () => json({ title: "who are you", detail: "sign in" }, 401), true, "session", "sign in"],
    ["a request that is refused", () => json({ title: "no", detail: "not for this role" }, 403), true, "refused", "not for this role"],
  ])("%s", async (_, answer, onLine, trouble, said) => {
    vi.stubGlobal("navigator", { onLine });
    vi.stubGlobal("fetch", async () => answer());
    await tell(hole("mine"), { actor: "idris", device: "truck" });
    await sync();
    expect(syncState().trouble).toBe(trouble);
    if (said !== undefined) expect(syncState().said).toContain(said);
    // nothing is lost by it, and it is over when the server answers
    expect((await database.told.toArray()).map(({ state }) => state)).toEqual(["waiting"]);
    serve(({ path, body }) => json(path.endsWith("/files") ? [] : body?.events ? { now: new Date().toISOString(), events: [{ outcome: "recorded", position: 1 }] } : { known: [], matched: 0 }));
    await sync();
    expect([syncState().trouble, syncState().said]).toEqual(["", ""]);
    vi.unstubAllGlobals();
  });

  it("from a device that has no room", () => {
    expect(troubleOf(new DOMException("full", "QuotaExceededError"))).toBe("device");
    expect(troubleOf(new Dexie.AbortError("full"))).toBe("device");
    expect(troubleOf(new DOMException("too long", "TimeoutError"))).toBe("server");
  });
});

describe("events", () => {
  it("of another person wait for that person; a phone's new name counts", async () => {
    await tell(hole("mine"), { actor: "idris", device: "old name" });
    await tell(hole("other"), { actor: "wren", device: "truck" });
    const sent: any[] = [];
    serve(({ body }) => {
      sent.push(...body.events);
      return json({ now: new Date().toISOString(), events: body.events.map(() => ({ outcome: "recorded", position: 7 })) });
    });
    await sendEvents();
    expect(sent.map(({ actor, device }) => [actor, device])).toEqual([["idris", "truck"]]);
    expect((await database.told.orderBy("order").toArray()).map(({ state }) => state)).toEqual(["sent", "waiting"]);
  });
});

describe("what is known", () => {
  it("that changes while pages are read is asked for again", async () => {
    const row = (id: string, position: number) => ({ position, known: { hole: id } });
    const asked: string[] = [];
    serve(({ path }) => {
      if (!path.startsWith("/api/known/holes")) return json({ known: [], matched: 0 });
      const query = new URL(path, "http://localhost").searchParams;
      asked.push(query.get("changed_after")!);
      if (query.get("after") === "1") return json({ known: [row("2", 9)], matched: 2 });
      return json({ known: [row("1", 5)], matched: 2, next_after: asked.length === 1 ? "1" : null });
    });
    await fetchKnown();
    expect((await database.known.toArray()).map(({ id }) => id)).toEqual(["1", "2"]);
    await fetchKnown();
    expect(asked.at(-1)).toBe("5");
  });

  it("and is known no more goes, and who has read all reads anew though no position is new", async () => {
    const row = (id: string, position: number) => ({ position, known: { hole: id } });
    let gone: string[] | undefined;
    serve(({ path }) => {
      if (!path.startsWith("/api/known/holes")) return json({ known: [], matched: 0, gone: [] });
      return json(gone === undefined ? { known: [row("1", 5), row("2", 6)], matched: 2 } : { known: [], matched: 0, gone });
    });
    await fetchKnown();
    const stop = keepReading();
    await vi.waitFor(() => expect(holes().map(({ known }) => known.hole).sort()).toEqual(["1", "2"]));
    gone = ["1", "of another that was never here"];
    await fetchKnown();
    expect((await database.known.toArray()).map(({ key }) => key)).toEqual(["holes/2"]);
    await vi.waitFor(() => expect(holes().map(({ known }) => known.hole)).toEqual(["2"]));
    // told a second time it changes nothing
    const marks = await database.meta.where("key").startsWith("position/").toArray();
    await fetchKnown();
    expect(await database.meta.where("key").startsWith("position/").toArray()).toEqual(marks);
    stop();
  });
});
