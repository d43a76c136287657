import {
  type FixPlace,
  formatBeat,
  type JudgedChange,
  type Score,
  type StatedPedal,
} from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { printedBarNumber } from '../markings/bar-number.ts';
import { nameChange, namePitch } from '../sheets/note-words.ts';
import { wordsOf } from '../words/words.ts';

type Told = Pick<EngravingOptions, 'language' | 'naming'>;

const ALL_PEDALS = 7;

/** What was written or is to be written: `F♯`, or that it is the opening setting. */
const nameOf = ({ kind, pedals }: JudgedChange, { language, naming }: Told): string =>
  kind === 'opening' && pedals.length === ALL_PEDALS
    ? wordsOf({ language }).marked.opening
    : namePedals(pedals, naming);

const namePedals = (pedals: readonly StatedPedal[], naming: Told['naming']): string =>
  pedals.map(({ letter, position }) => nameChange(letter, position, naming)).join(' ');

const placeIn = (score: Score, { language }: Told, { bar, beat }: Pick<FixPlace, 'bar' | 'beat'>): string =>
  wordsOf({ language }).places.beatInBar(printedBarNumber(score.bars[bar]!.number), formatBeat(beat));

/** What a teacher says of a change: where it is, what is thought of it, what sounds instead, and what belongs there. */
export const tellJudged = (score: Score, change: JudgedChange, told: Told): string => {
  const { marked } = wordsOf(told);
  const { verdict, sounds, correction, tooQuick, better, needless, pedals } = change;
  const place = (where: Pick<FixPlace, 'bar' | 'beat'>): string => placeIn(score, told, where);
  const heard = sounds.map((each) => {
    const note = namePitch(each.pitch, told.naming);
    return each.instead === null
      ? marked.unstated(place(each.place), note)
      : marked.sounds(place(each.place), note, namePitch(each.instead, told.naming));
  });
  const corrected =
    correction === null
      ? []
      : correction.kind === 'write'
        ? [marked.write(namePedals(correction.pedals, told.naming))]
        : [correction.kind === 'move' ? marked.move(place(correction.to)) : marked.strike];
  return [
    marked.comment(place(change), nameOf(change, told), marked.verdicts[verdict]),
    ...heard,
    ...(tooQuick ? [marked.tooQuick] : []),
    ...corrected,
    ...(verdict === 'missing' && change.kind === 'opening' && pedals.length === ALL_PEDALS
      ? [marked.write(namePedals(pedals, told.naming))]
      : []),
    ...(better === null ? [] : [marked.better(place(better.to), marked.why[better.why])]),
    ...(needless === null ? [] : [marked.needless[needless]]),
  ].join(' ');
};
