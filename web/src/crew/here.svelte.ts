// Where the phone is, for as long as a page asks.
export interface Here {
  lon: number;
  lat: number;
  /** Metres, two of three times within. */
  accuracy_m: number;
}

let here = $state.raw<Here | undefined>(undefined);
let trouble = $state<"" | "denied" | "none">("");

export function whereHere(): Here | undefined {
  return here;
}

export function hereTrouble(): string {
  return trouble;
}

/** Begins to look; gives the end of it. */
export function lookHere(): () => void {
  here = undefined;
  trouble = "";
  if (!navigator.geolocation) {
    trouble = "none";
    return () => undefined;
  }
  const watch = navigator.geolocation.watchPosition(
    ({ coords }) => {
      trouble = "";
      here = { lon: coords.longitude, lat: coords.latitude, accuracy_m: coords.accuracy };
    },
    (error) => (trouble = error.code === error.PERMISSION_DENIED ? "denied" : "none"),
    { enableHighAccuracy: true, maximumAge: 5_000 },
  );
  return () => navigator.geolocation.clearWatch(watch);
}
