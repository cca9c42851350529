// Dragging a site with the pointer onto another crew's day or out. The same can be asked for with the menu of the site.

export interface Site {
  holes: string[];
  road: string;
  date?: string;
  crew?: string;
}

export type To = { date?: string; crew?: string } | "out";

/** Pointer that moved less than this is a click. */
const FAR = 6;

/** So near to the window's edge the page goes along. */
const EDGE = 56;
const STEP = 14;

class Drag {
  ghost = $state.raw<{ x: number; y: number; site: Site }>();
  /** What it would drop on: `out`, or `DATE|CREW`. */
  over = $state<string>();
  /** The click that follows a drop is none. */
  justDropped = false;

  begin(event: PointerEvent, site: Site, drop: (site: Site, to: To) => void): void {
    if (event.button !== 0) return;
    const { clientX, clientY } = event;
    const move = (now: PointerEvent): void => {
      if (!this.ghost && Math.hypot(now.clientX - clientX, now.clientY - clientY) < FAR) return;
      this.ghost = { x: now.clientX, y: now.clientY, site };
      if (now.clientY < EDGE) window.scrollBy(0, -STEP);
      else if (now.clientY > window.innerHeight - EDGE) window.scrollBy(0, STEP);
      const target = document.elementFromPoint(now.clientX, now.clientY)?.closest<HTMLElement>("[data-drop]");
      this.over = target?.dataset["drop"];
    };
    const end = (now: Event): void => {
      window.removeEventListener("pointermove", move);
      window.removeEventListener("pointerup", end);
      window.removeEventListener("pointercancel", end);
      window.removeEventListener("keydown", key);
      const { ghost, over } = this;
      this.ghost = this.over = undefined;
      if (!ghost) return;
      this.justDropped = true;
      setTimeout(() => (this.justDropped = false));
      if (now.type === "pointerup" && over) drop(site, placeOf(over));
    };
    const key = (now: KeyboardEvent): void => {
      if (now.key === "Escape") end(now);
    };
    window.addEventListener("pointermove", move);
    window.addEventListener("pointerup", end);
    window.addEventListener("pointercancel", end);
    window.addEventListener("keydown", key);
  }
}

export const dropName = (date: string, crew: string): string => `${date}|${crew}`;

/** What a drop's name means. */
export function placeOf(over: string): To {
  if (over === "out") return "out";
  const [date, ...crew] = over.split("|");
  return { date: date!, crew: crew.join("|") };
}

export const drag = new Drag();
