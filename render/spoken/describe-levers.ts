import type { LeverChange } from '../levers/lever-change.ts';
import type { LeverMarking } from '../levers/lever-markings.ts';
import { groupLevers } from '../levers/lever-words.ts';
import { returnTime } from '../markings/markings.ts';
import type { Language } from '../words/language.ts';
import { speakIn } from './spoken-language.ts';

type LeverStart = LeverMarking & { readonly kind: 'levers' };

/** The start of a piece in two sentences: how the strings are tuned, and which levers are up. */
export const describeLeverStart = (
  { tuning, up, levers }: Pick<LeverStart, 'tuning' | 'up' | 'levers'>,
  language: Language = 'english',
): string[] => {
  const { names, words } = speakIn(language);
  const { start } = words.levers;
  const named = groupLevers(up, levers).map(({ kind, change }) => {
    const { letter } = change.string;
    return kind === 'string'
      ? names.lever(change)
      : start.allOf(names.written({ letter, octave: null, alter: change.alter }));
  });
  const sentences = [start.tuning(names.tuning(tuning)), up.length === 0 ? start.allDown : start.up(named)];
  return sentences.map((sentence) => sentence.replace(/\.$/, ''));
};

/** A marking for levers in words, for screen readers and tool tips. */
export const describeLeverMarking = (marking: LeverMarking, language: Language = 'english'): string => {
  const { names, words } = speakIn(language);
  const { inWords, spoken } = words;
  if (marking.kind === 'levers') {
    const told = describeLeverStart(marking, language)
      .slice(marking.isReminder ? 1 : 0)
      .join('. ');
    return marking.firstTimeOnly ? `${told}, ${inWords.times.first}` : told;
  }
  const join = (changes: readonly LeverChange[]): string => spoken.together(changes.map(names.lever));
  const { onReturn, atOneTime } = marking.kind === 'lever-change' ? marking : { onReturn: [], atOneTime: [] };
  const isAtOneTime = ({ string }: LeverChange): boolean => atOneTime.some((each) => each.string === string);
  const always = marking.changes.filter((change) => !isAtOneTime(change));
  const said = (changes: readonly LeverChange[], time?: string): readonly string[] =>
    changes.length === 0 ? [] : [time === undefined ? join(changes) : `${time} ${join(changes)}`];
  const first = atOneTime.filter(({ time }) => time === 'first');
  const later = [...atOneTime.filter(({ time }) => time === 'later'), ...onReturn];
  const { times } = inWords;
  const clauses = [...said(always), ...said(first, times.first), ...said(later, returnTime(marking, times))];
  return spoken.leverChange(clauses.join(', '));
};
