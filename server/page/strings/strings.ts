import { accidentalSign, formatBeatText, nameOfPosition, POSITIONS } from '../../../engine/index.ts';
import { DECISION_STRINGS } from './decision-strings.ts';
import { FINDING_STRINGS } from './finding-strings.ts';
import { LISTEN_STRINGS } from './listen-strings.ts';
import { OPENING_STRINGS } from './opening-strings.ts';
import { SCORE_STRINGS } from './score-strings.ts';
import { DOUBLE_SHARP, FOOT } from './shared-strings.ts';
import { TAKE_STRINGS } from './take-strings.ts';

type SpokenSign = readonly [sign: string, word: string];

const DOUBLE_SIGNS: readonly SpokenSign[] = [
  [accidentalSign(2), DOUBLE_SHARP],
  ['\u{1d12b}', 'double flat'],
  [accidentalSign(-2), 'double flat'],
];

const SINGLE_SIGNS = POSITIONS.map(
  (position): SpokenSign => [accidentalSign(position), nameOfPosition(position)],
);

/** @param signs those of two characters first */
const sayIn = (names: string, signs: readonly SpokenSign[]): string =>
  signs.reduce(
    (text, [sign, word]) =>
      text.replace(
        new RegExp(`${sign}(\\d?)`, 'gu'),
        (_, octave: string) => ` ${word}${octave && ` ${octave}`}`,
      ),
    names,
  );

/** Every word that the page shows, in English, but for those of the options, which the catalogue of options holds. */
export const STRINGS = {
  title: 'tringle',
  windowTitle: (piece: string) => `${piece} · tringle`,
  subtitle: 'Pedal and lever changes for the harp',
  ...OPENING_STRINGS,
  settings: {
    heading: 'Settings and sounds',
    open: 'Explore a setting',
  },
  goTo: 'Go to',
  viewFailed: 'This could not be loaded. Try again.',
  ...SCORE_STRINGS,
  ...FINDING_STRINGS,
  ...DECISION_STRINGS,
  ...LISTEN_STRINGS,
  ...TAKE_STRINGS,
  variants: { heading: 'Other plans', open: 'Compare plans, keep variants' },
  foot: FOOT,
  beat: formatBeatText,
  position: nameOfPosition,
  /** All accidentals as words. */
  spoken: (names: string) => sayIn(names, [...DOUBLE_SIGNS, ...SINGLE_SIGNS]),
  /** Those as words that screen readers do not know. */
  spokenDoubles: (names: string) => sayIn(names, DOUBLE_SIGNS),
} as const;
