// What of the events stands after corrections: the same rules as the record's, for events that it may not have yet.
import type { Event, Happened } from "./store/database";

export interface Standing {
  /** The event that was told first: when it happened. */
  event: Event;
  /** The event that says what happened: the same, or the last correction of it. */
  told: Event;
  happened: Happened;
}

/** When it happened by the server's clock, milliseconds. */
export function happenedAt(event: Event): number {
  return Date.parse(event.device_time) - (event.clock_ahead_ms ?? 0);
}

/** What orders events: when they happened, then their numbers. */
export function inOrder(a: Event, b: Event): number {
  return happenedAt(a) - happenedAt(b) || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);
}

/** What became of an event that is no correction. */
export interface Judged {
  event: Event;
  /** The event that decides what happened: the same, or the last correction of it. */
  told: Event;
  /** Nothing: it did not happen. */
  happened: Happened | undefined;
}

/** What became of every event that is no correction, in the order in which they happened; an event given twice counts once, whatever the order they are given in. */
export function judged(events: readonly Event[]): Judged[] {
  const ordered = [...new Map(events.map((event) => [event.id, event])).values()].sort(inOrder);
  const targets = new Map<string, string>();
  for (const { id, happened } of ordered) if (happened.kind === "corrected") targets.set(id, happened.event);
  const corrections = new Map<string, Event[]>();
  for (const event of ordered) {
    const target = targets.get(event.id);
    if (target !== undefined && !inACircle(event.id, targets)) corrections.set(target, [...(corrections.get(target) ?? []), event]);
  }
  return ordered.filter((event) => !targets.has(event.id)).map((event) => ({ event, ...decided(event, corrections) }));
}

/** What stands, in the order in which it happened. */
export function inForce(events: readonly Event[]): Standing[] {
  // what is no correction can't be put right into one
  return judged(events).flatMap(({ event, told, happened }) => (happened && happened.kind !== "corrected" ? [{ event, told, happened }] : []));
}

function decided(event: Event, corrections: Map<string, Event[]>): { told: Event; happened: Happened | undefined } {
  for (const correction of [...(corrections.get(event.id) ?? [])].reverse()) {
    const now = decided(correction, corrections);
    if (now.happened?.kind !== "corrected" || now.happened.event !== event.id) continue;
    return { told: now.told, happened: (now.happened.instead ?? undefined) as Happened | undefined };
  }
  return { told: event, happened: event.happened };
}

function inACircle(id: string, targets: Map<string, string>): boolean {
  const seen = new Set<string>();
  for (let at = targets.get(id); at !== undefined && !seen.has(at); at = targets.get(at)) {
    if (at === id) return true;
    seen.add(at);
  }
  return false;
}

/** Events of others that these correct, as far as the corrections stand: what happened instead, or that it did not happen. */
export function putRight(events: readonly Event[]): { event: string; told: Event; instead: Happened | undefined }[] {
  const own = new Set(events.map((event) => event.id));
  const last = new Map<string, { event: string; told: Event; instead: Happened | undefined }>();
  for (const told of [...events].sort(inOrder)) {
    const happened = told.happened;
    if (happened.kind !== "corrected" || own.has(happened.event)) continue;
    last.set(happened.event, { event: happened.event, told, instead: (happened.instead ?? undefined) as Happened | undefined });
  }
  return [...last.values()];
}
