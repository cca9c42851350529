// Who is there: somebody signed in with a browser (a cookie that scripts can't read), or a device that was made known (a token kept in the
// app's database). A device stays somebody's without signal.
import type { components } from "../api/schema";
import { api, setToken } from "./api";
import { database, forgetEverything } from "./store/database";

export type Me = components["schemas"]["Me"];

const state = $state<{ me: Me | undefined; kind: "none" | "browser" | "device"; checked: boolean }>({ me: undefined, kind: "none", checked: false });

export function me(): Me | undefined {
  return state.me;
}

export function isDevice(): boolean {
  return state.kind === "device";
}

/** Whether somebody of this role, or one of these, is there. */
export function may(...roles: string[]): boolean {
  return state.me !== undefined && roles.includes(state.me.role);
}

/** Who is there as far as the device knows; asks the server afterwards, without waiting for it where the device knows. */
export async function startSession(): Promise<void> {
  const kept = await database.meta.get("device");
  if (kept) {
    const { token, me } = kept.value as { token: string; me: Me };
    setToken(token);
    state.me = me;
    state.kind = "device";
    void ask();
    return;
  }
  await ask();
}

/** Asks the server who is there. */
export async function ask(): Promise<void> {
  try {
    const { data, response } = await api.GET("/api/me");
    if (data) {
      state.me = data;
      if (state.kind !== "device") state.kind = "browser";
      // another crew or role since: also for the next start without signal
      else await database.meta.put({ key: "device", value: { token: ((await database.meta.get("device"))!.value as { token: string }).token, me: data } });
    } else if (response.status === 401) {
      // a device that is known no more keeps what it has not sent; its person enrols it anew
      if (state.kind === "browser") {
        state.me = undefined;
        state.kind = "none";
      }
      state.checked = true;
    }
  } catch {
    // no signal: who is there stays who is there
  }
}

export async function becomeDevice(token: string, me: Me): Promise<void> {
  await database.meta.put({ key: "device", value: { token, me } });
  setToken(token);
  state.me = me;
  state.kind = "device";
}

/** Leaves. What a device has not sent yet would be lost: the caller asks first. */
export async function leave(): Promise<void> {
  try {
    if (state.kind === "device") await api.DELETE("/api/devices/this");
    else await api.POST("/api/sign-out");
  } catch {
    // without signal the token stays known to the server until it runs out; here it is gone
  }
  setToken(undefined);
  // not while a sync is under way, which would write back what is cleared
  if (navigator.locks) await navigator.locks.request("lengthsman-sync", forgetEverything);
  else await forgetEverything();
  // whatever pages still hold of this person goes as well
  location.reload();
}
