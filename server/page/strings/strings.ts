import { accidentalSign, formatBeatText, nameOfPosition, POSITIONS } from '../../../engine/index.ts';
import { DECISION_STRINGS } from './decision-strings.ts';
import { FINDING_STRINGS } from './finding-strings.ts';
import { LISTEN_STRINGS } from './listen-strings.ts';
import { OPENING_STRINGS } from './opening-strings.ts';
import { SCORE_STRINGS } from './score-strings.ts';
import { FOOT } from './shared-strings.ts';
import { TAKE_STRINGS } from './take-strings.ts';

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
    POSITIONS.reduce(
      (text, position) => text.replaceAll(accidentalSign(position), ` ${nameOfPosition(position)}`),
      names,
    ),
} as const;
