import { accidentalSign, formatBeatText, nameOfPosition, POSITIONS } from '../../../engine/index.ts';
import { DECISION_STRINGS } from './decision-strings.ts';
import { FINDING_STRINGS } from './finding-strings.ts';
import { LISTEN_STRINGS } from './listen-strings.ts';
import { OPENING_STRINGS } from './opening-strings.ts';
import { SCORE_STRINGS } from './score-strings.ts';
import { DOUBLE_SHARP, FOOT } from './shared-strings.ts';
import { TAKE_STRINGS } from './take-strings.ts';

/** Accidentals in words, those of two signs first. */
const SPOKEN_SIGNS: readonly (readonly [sign: string, word: string])[] = [
  [accidentalSign(2), DOUBLE_SHARP],
  ['\u{1d12b}', 'double flat'],
  [accidentalSign(-2), 'double flat'],
  ...POSITIONS.map((position) => [accidentalSign(position), nameOfPosition(position)] as const),
];

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
  spoken: (names: string) =>
    SPOKEN_SIGNS.reduce(
      (text, [sign, word]) =>
        text.replace(new RegExp(`${sign}(\\d?)`, 'gu'), (_, octave) => ` ${word}${octave && ` ${octave}`}`),
      names,
    ),
} as const;
