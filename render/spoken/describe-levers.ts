import type { LeverMarking } from '../levers/lever-markings.ts';
import { groupLevers } from '../levers/lever-words.ts';
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
  if (marking.kind === 'levers')
    return describeLeverStart(marking, language)
      .slice(marking.isReminder ? 1 : 0)
      .join('. ');
  const { names, words } = speakIn(language);
  return words.spoken.leverChange(words.spoken.together(marking.changes.map(names.lever)));
};
