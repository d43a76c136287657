import { group } from 'd3-array';
import { formatChange } from '../../../engine/index.ts';
import type { LeverMarking } from '../../levers/lever-markings.ts';
import { leverName, timeInWords } from '../../levers/lever-words.ts';
import type { Marking, PedalChange } from '../../markings/markings.ts';
import { ENGLISH } from '../../words/english/english.ts';

/** As the wedge on the pages: the feet move with the note, and not before it. */
export const WITH_NOTE = '▸';

/**
 * The changes of each foot as a line of text, the right foot's first; a foot at rest has none. What is for a player who
 * comes back stands in brackets: other words would keep programs, proofreading among them, from reading it.
 */
export const changeLines = (marking: Marking & { readonly kind: 'change' }): string[] => [
  ...[marking.right, marking.left]
    .filter((changes) => changes.length > 0)
    .map((changes) => `${isWithNote(changes, marking) ? WITH_NOTE : ''}${joinNames(changes)}`),
  ...(marking.onReturn.length === 0 ? [] : [`(${joinNames(marking.onReturn)})`]),
];

const isWithNote = (
  changes: readonly PedalChange[],
  { lettersWithNote }: Marking & { readonly kind: 'change' },
): boolean => changes.some(({ letter }) => lettersWithNote.includes(letter));

/**
 * The same for levers, all hands in one line; what is made at one time of playing alone after that time. One that is only
 * needless at the others stands without.
 */
export const leverChangeLines = ({
  changes,
  onReturn,
  atOneTime,
  timesPlayed,
}: LeverMarking & { readonly kind: 'lever-change' }): string[] => {
  const binding = atOneTime.filter(({ isBinding }) => isBinding);
  const always = changes.filter(({ string }) => !binding.some((each) => each.string === string));
  const byTime = [...group(binding, ({ time }) => time)];
  return [
    ...(always.length === 0 ? [] : [always.map(leverName).join(' ')]),
    ...byTime.map(
      ([time, own]) =>
        `${timeInWords(time, { timesPlayed }, ENGLISH.inWords.times)}: ${own.map(leverName).join(' ')}`,
    ),
    ...(onReturn.length === 0 ? [] : [`(${onReturn.map(leverName).join(' ')})`]),
  ];
};

const joinNames = (changes: readonly PedalChange[]): string =>
  changes.map(({ letter, position }) => formatChange(letter, position)).join(' ');
