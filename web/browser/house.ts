// A server of its own with the invented district, people and a week's holes: for browser tests, and by hand (see by_hand.ts).
import { spawn, type ChildProcess } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { openFront } from "./front";

const DEMO = fileURLToPath(new URL("../../demo", import.meta.url));

export interface House {
  address: string;
  folder: string;
  server: ChildProcess;
  /** Calls the server as somebody: `house.call("mara", "GET", "/api/me")`. */
  call(who: string | undefined, method: string, path: string, body?: unknown): Promise<{ status: number; value: any; headers: Headers }>;
  /** The cookie of somebody who is signed in. */
  cookie(who: string): string;
  /** Holes of the demo's list, by their number in it. */
  holes: Map<string, string>;
  end(): Promise<void>;
}

/** Everybody's password in a house of tests. */
export const PASSWORD = "a long password";

/** Names, roles and crews of who works there. */
export const PEOPLE = [
  { name: "mara", role: "engineer", crew: "" },
  { name: "pell", role: "planner", crew: "" },
  { name: "sorrel", role: "storekeeper", crew: "" },
  { name: "idris", role: "crew", crew: "Crew Fulmar" },
  { name: "wren", role: "crew", crew: "Crew Petrel" },
] as const;

/** Today where the district lies. */
export function today(offsetDays = 0): string {
  return new Date(Date.now() - 2 * 3_600_000 + offsetDays * 86_400_000).toISOString().slice(0, 10);
}

function after(day: string, days: number): string {
  return new Date(Date.parse(day) + days * 86_400_000).toISOString().slice(0, 10);
}

/** A day on which everything is the same whenever the tests run: that of the demo's forecast. */
export const FIXED_DAY = "2026-06-09";

export interface HouseOptions {
  /** First day of the forecast; today where nothing is said. */
  forecast?: string;
  /** Width of every shoulder, where it is not that of the demo's roads, which have no room to stop for a look. */
  shoulderM?: number;
}

export async function openHouse(program: string, port = 0, { forecast = today(), shoulderM }: HouseOptions = {}): Promise<House> {
  const folder = mkdtempSync(join(tmpdir(), "lengthsman-house-"));
  cpSync(DEMO, folder, { recursive: true });
  cpSync(join(DEMO, "week.toml"), join(folder, "district.toml"));
  // the demo's forecast, moved
  const days = [...new Set(readFileSync(join(DEMO, "forecast.csv"), "utf8").match(/\d{4}-\d\d-\d\d/g) ?? [])].sort();
  const shifted = readFileSync(join(DEMO, "forecast.csv"), "utf8").replace(/\d{4}-\d\d-\d\d/g, (day) => after(forecast, days.indexOf(day)));
  writeFileSync(join(folder, "forecast.csv"), shifted);
  if (shoulderM !== undefined) {
    const roads = readFileSync(join(folder, "roads.geojson"), "utf8");
    writeFileSync(join(folder, "roads.geojson"), roads.replace(/"shoulder_m": ?[\d.]+/g, `"shoulder_m":${shoulderM}`));
  }
  // everybody signs in from one address here
  writeFileSync(join(folder, "server.toml"), "[sign_in]\ntries_per_minute = 600\n");
  const listen = `127.0.0.1:${port}`;
  const server = spawn(program, ["serve", "--data", folder, "--listen", listen], { stdio: ["ignore", "pipe", "pipe"] });
  let said = "";
  // its log only where it ends by itself
  let log = "";
  server.stderr!.on("data", (bytes: Buffer) => (log = (log + bytes.toString()).slice(-4_000)));
  const own = await new Promise<string>((done, failed) => {
    server.on("exit", (code) => failed(new Error(`the server ended with ${code}: ${said}${log}`)));
    server.stdout!.on("data", (bytes: Buffer) => {
      said += bytes.toString();
      const found = /listening at (\S+)/.exec(said);
      if (found) done(`http://${found[1]}`);
    });
  });
  // another build of the app than the one in the program
  const dist = process.env["LENGTHSMAN_DIST"];
  const front = dist ? await openFront(dist, own) : undefined;
  const address = front?.address ?? own;
  const cookies = new Map<string, string>();
  const call: House["call"] = async (who, method, path, body) => {
    const cookie = who === undefined ? undefined : cookies.get(who);
    const answer = await fetch(address + path, {
      method,
      headers: { "x-lengthsman": "1", ...(cookie ? { cookie } : {}), ...(body === undefined ? {} : { "content-type": "application/json" }) },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    const text = await answer.text();
    const value: unknown = /json/.test(answer.headers.get("content-type") ?? "") ? JSON.parse(text) : text;
    return { status: answer.status, value, headers: answer.headers };
  };
  const signIn = async (name: string): Promise<void> => {
    const answer = await call(undefined, "POST", "/api/sign-in", { name, password: PASSWORD });
    if (answer.status !== 200) throw new Error(`${name} can't sign in: ${JSON.stringify(answer.value)}`);
    cookies.set(name, answer.headers.getSetCookie()[0]!.split(";")[0]!);
  };
  const token = /set-up=(\S+)/.exec(said)![1];
  await call(undefined, "POST", "/api/set-up", { token, name: "mara", password: PASSWORD });
  await signIn("mara");
  for (const { name, role, crew } of PEOPLE.slice(1)) {
    const made = await call("mara", "POST", "/api/accounts", { name, role, crew });
    if (made.status >= 300) throw new Error(JSON.stringify(made.value));
    await call(undefined, "POST", "/api/password", { token: made.value.link.split("password=")[1], password: PASSWORD });
    await signIn(name);
  }
  const holes = await importHoles({ address, call }, cookies.get("mara")!);
  return {
    address,
    folder,
    server,
    call,
    cookie: (who) => cookies.get(who) ?? "",
    holes,
    end: async () => {
      await front?.end();
      await new Promise<void>((done) => {
        server.removeAllListeners("exit");
        server.on("exit", () => {
          rmSync(folder, { recursive: true, force: true });
          done();
        });
        server.kill("SIGINT");
      });
    },
  };
}

/** Puts the demo's list of holes into the record, as an office's export; what is wrong with some rows is told by the program, and is not of interest here. */
async function importHoles(house: { address: string; call: House["call"] }, cookie: string): Promise<Map<string, string>> {
  const sent = await fetch(`${house.address}/api/imports?source=patrol`, {
    method: "POST",
    headers: { "x-lengthsman": "1", "content-type": "text/csv", cookie },
    body: readFileSync(join(DEMO, "holes.csv")),
  });
  const path = sent.headers.get("location");
  if (!path) throw new Error(await sent.text());
  let job;
  do {
    await new Promise((done) => setTimeout(done, 100));
    job = (await house.call("mara", "GET", path)).value;
  } while (job.state === "waiting" || job.state === "working");
  if (job.state !== "done") throw new Error(job.words);
  const known = (await house.call("mara", "GET", "/api/known/holes?limit=1000")).value.known;
  return new Map(known.map((row: any) => [row.known.reports[0]?.reference ?? row.known.hole, row.known.hole]));
}

/** Plans from today on and waits for it; takes it as the crews' rounds when asked to. */
export async function planWeek(house: House, { days = 2, accept = true, date = today() } = {}): Promise<any> {
  const asked = await house.call("pell", "POST", "/api/plans", { date, days, seed: 1 });
  const path = asked.headers.get("location")!;
  for (;;) {
    const job = (await house.call("pell", "GET", path)).value;
    if (job.state === "done") {
      if (accept) await house.call("pell", "POST", `${path}/rounds`);
      return job;
    }
    if (job.state === "failed" || job.state === "stopped") throw new Error(job.words);
    await new Promise((done) => setTimeout(done, 200));
  }
}
