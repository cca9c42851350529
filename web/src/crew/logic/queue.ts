// Whose is what on this phone. Several people may tell on one; what one told waits until that person is signed in on it again.
import type { Told } from "../../lib/store/database";

export interface Queues {
  /** What the person who is there told. */
  own: Told[];
  /** So many that others told are not with the office yet, by person. */
  others: { who: string; count: number }[];
}

export function queuesOf(name: string | undefined, queue: readonly Told[]): Queues {
  const others = new Map<string, number>();
  for (const { event, state } of queue) {
    if (event.actor === name || state === "sent") continue;
    others.set(event.actor, (others.get(event.actor) ?? 0) + 1);
  }
  return {
    own: queue.filter(({ event }) => event.actor === name),
    others: [...others].map(([who, count]) => ({ who, count })).sort((a, b) => (a.who < b.who ? -1 : 1)),
  };
}

/** Photos that were told in these. */
export function photosIn(queue: readonly Told[]): Set<string> {
  return new Set(queue.flatMap(({ event: { happened } }) => (happened.kind === "photo_taken" ? [happened.photo] : [])));
}
