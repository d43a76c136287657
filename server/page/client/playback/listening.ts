/** The open player as the other views know it: they follow it and set where it is. */
export interface Listening {
  readonly isPlaying: () => boolean;
  /** Where the music is: index into the bars, and printed score time in quarter notes. */
  readonly place: () => { readonly bar: number; readonly quarters: number };
  /** Ids of the noteheads that sound. */
  readonly heads: () => readonly string[];
  /** Goes to a printed place: of several passes the one that is playing or comes next. */
  readonly seekPlace: (bar: number, quarters: number) => void;
  /** Tells at each frame while it plays, and whenever it was moved. */
  readonly watch: (watcher: () => void) => () => void;
}
