/** A number in a drawing: where it stands, and what it points at. */
export type Mark = [x: number, y: number, toX: number, toY: number];

export interface DrawingProps {
  /** What the drawing shows, for those who do not see it. */
  title: string;
  /** Numbers of the legend shown in it. */
  numbered?: boolean;
  /** Traffic keeps left. */
  mirrored?: boolean;
}
