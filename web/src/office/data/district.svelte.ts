// The district and its weather, asked for when the office opens and kept for the next time without signal.
import { setUnits, units, type Units } from "../../lib/measure.svelte";
import { database } from "../../lib/store/database";
import { get } from "./server";
import type { District, WeatherDay } from "./shapes";

const state = $state<{ district: District | undefined; weather: WeatherDay[] }>({ district: undefined, weather: [] });

export const district = (): District | undefined => state.district;
export const weather = (): WeatherDay[] => state.weather;
export const weatherOf = (date: string): WeatherDay | undefined => state.weather.find((day) => day.date === date);

/** Today where the district lies. */
export function today(): string {
  return state.district?.today ?? new Date().toISOString().slice(0, 10);
}

export const crews = (): string[] => state.district?.crews.map(({ name }) => name) ?? [];

export async function chooseUnits(chosen: Units): Promise<void> {
  setUnits(chosen);
  await database.meta.put({ key: "units", value: chosen });
}

export async function startDistrict(): Promise<void> {
  const [kept, chosen] = await Promise.all([database.meta.get("district"), database.meta.get("units")]);
  if (chosen) setUnits(chosen.value as Units);
  if (kept && !state.district) state.district = kept.value as District;
  await refreshDistrict();
  if (!chosen && state.district && state.district.units !== units()) setUnits(state.district.units);
}

export async function refreshDistrict(): Promise<void> {
  try {
    state.district = await get<District>("/api/district");
    await database.meta.put({ key: "district", value: $state.snapshot(state.district) });
    state.weather = (await get<{ days: WeatherDay[] }>("/api/weather")).days;
  } catch {
    // no signal, or a server without them: what was known stays
  }
}
