// Where in the app somebody is: what stands behind the `#`, so that the server needs no page of its own for each place and links with
// secrets are in no log.

/** A place: `#/crew/site/3?photo=1` is `["crew", "site", "3"]` with `photo`. */
export interface Place {
  path: string[];
  query: URLSearchParams;
  /** A link that works once: `#set-up=…`, `#password=…`, `#device=…`. */
  link: { kind: string; token: string } | undefined;
}

export function readPlace(hash: string): Place {
  const text = hash.replace(/^#/, "");
  const once = /^(set-up|password|device)=([0-9A-Za-z_-]+)$/.exec(text);
  if (once) return { path: [], query: new URLSearchParams(), link: { kind: once[1]!, token: once[2]! } };
  const [path = "", query = ""] = text.split("?", 2);
  return {
    path: path.split("/").filter((part) => part !== "").map(decoded),
    query: new URLSearchParams(query),
    link: undefined,
  };
}

function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

const state = $state<{ place: Place }>({ place: readPlace("") });

export function place(): Place {
  return state.place;
}

/** Goes somewhere: `go("crew", "site", 3)`. */
export function go(...path: (string | number)[]): void {
  location.hash = href(...path);
}

/** As `go` would, for links. */
export function href(...path: (string | number)[]): string {
  return `#/${path.map((part) => encodeURIComponent(String(part))).join("/")}`;
}

/** Goes somewhere without a step back to here: for links that work once. */
export function replace(...path: (string | number)[]): void {
  history.replaceState(null, "", href(...path));
  state.place = readPlace(location.hash);
}

export function watchPlace(): void {
  const look = (): void => {
    state.place = readPlace(location.hash);
    window.scrollTo(0, 0);
  };
  window.addEventListener("hashchange", look);
  look();
}
