// When each device last told something, as far as it stands in the record.

/** Of every teller in what is known: the device's name and the last time. */
export function lastHeard(known: object[]): Map<string, string> {
  const heard = new Map<string, string>();
  const look = (value: unknown): void => {
    if (typeof value !== "object" || value === null) return;
    const { device, at } = value as { device?: unknown; at?: unknown };
    if (typeof device === "string" && typeof at === "string") {
      if ((heard.get(device) ?? "") < at) heard.set(device, at);
      return;
    }
    for (const one of Object.values(value)) look(one);
  };
  look(known);
  return heard;
}
