import type { Position } from '../../harp/setting.ts';
import type { Letter } from '../../music/pitch.ts';
import type { Rational } from '../../music/rational.ts';
import type { Span } from '../../xml/tree.ts';
import type { OneTime } from '../bars/one-time.ts';
import type { LeverWords } from '../words/lever-words.ts';

/** A pedal marking found in the file. */
export interface SourceMarking {
  readonly at: Rational;
  readonly bar: number;
  readonly span: Span;
  readonly form: 'harp-pedals' | 'words';
  /** The positions it states; for MEI `harpPedal` always all seven. */
  readonly positions: Readonly<Partial<Record<Letter, Position>>>;
  /** To be prepared ahead of need, as said by words such as “prepare”. */
  readonly ahead: boolean;
  /** It says how things stand before the first note, and is not read again where the music comes back to it. */
  readonly beforeStart?: true;
  /** It is for one time of playing alone. */
  readonly onlyAt?: OneTime;
  readonly text: string;
}

/** At which time of playing alone a marking is read; null where it is read each time. */
export const readOnlyAt = ({ beforeStart, onlyAt }: SourceMarking): OneTime | null =>
  beforeStart ? 'first' : (onlyAt ?? null);

/** Words or a small note that tell of levers; `says` is null where words seem to and are not understood. */
export interface LeverMarking extends Pick<SourceMarking, 'at' | 'bar' | 'span' | 'text'> {
  readonly form: 'words' | 'note';
  readonly says: LeverWords | null;
}

/** Words that seem to name pedals: no position is read from them. */
export type UnreadWords = Pick<SourceMarking, 'at' | 'bar' | 'span' | 'text'>;
