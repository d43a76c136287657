/** How far a group of a drawing is moved from where the layout set it, in the page's units. */
export interface Shift {
  readonly dx: number;
  readonly dy: number;
}

/** Groups that are moved, by where their start tags begin in the text of the drawing. */
export type MovedGroups = ReadonlyMap<number, Shift>;
