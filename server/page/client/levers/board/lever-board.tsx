import type { LeverAnnotateReport } from '../../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../../lever-strings.ts';
import { ANNOUNCED_BEATS, type LeverBoardState } from './lever-board-state.ts';

type HarpStrings = LeverAnnotateReport['strings'];

/** Units of the picture: the strings side by side, the lowest left; their levers under the neck. */
const APART = 11;
const MARGIN = 14;
const NECK = 18;
const LEVER_TOP = 30;
const LEVER = 16;
const LONGEST = 118;
const SHORTEST = 46;
const NAMES = 14;
const HEIGHT = LEVER_TOP + LONGEST + NAMES + 8;

/** The C strings are red, the F strings black or dark blue (common practice, no source). */
const colourOf = (string: string): string =>
  string.startsWith('C') ? 'red' : string.startsWith('F') ? 'dark' : 'plain';

interface StringProps {
  readonly each: HarpStrings[number];
  readonly place: number;
  readonly of: number;
  readonly state: LeverBoardState;
}

/** A lever that is up lies across its string; one that is down hangs beside it. */
const leverPath = (isUp: boolean): string =>
  isUp ? `M-4.5 ${LEVER_TOP + 3}h9v4h-9z` : `M1.5 ${LEVER_TOP + 3}h4v${LEVER - 4}h-4z`;

const BoardString = ({ each, place, of, state }: StringProps) => {
  const { string, lever } = each;
  const isUp = state.up.has(string);
  const coming = state.coming.find(({ played }) => played.string === string);
  const length = LONGEST - ((LONGEST - SHORTEST) * place) / Math.max(1, of - 1);
  const classes = [
    'string',
    colourOf(string),
    isUp ? 'up' : '',
    coming === undefined ? '' : 'next',
    state.moved.includes(string) ? 'moved' : '',
  ];
  const isNamed = colourOf(string) !== 'plain' || coming !== undefined;
  return (
    <g
      class={classes.filter((each) => each !== '').join(' ')}
      data-string={string}
      data-lever={lever ? (isUp ? 'up' : 'down') : 'none'}
      transform={`translate(${MARGIN + place * APART} 0)`}
    >
      <path class="line" d={`M0 ${NECK}v${LEVER_TOP - NECK + length}`} />
      {lever && <path class="lever" d={leverPath(isUp)} />}
      {coming !== undefined && (
        <g class="coming">
          <path class="target" d={leverPath(coming.played.to === 'up')} />
          <path
            class="count"
            d={`M-5 ${LEVER_TOP + LEVER + 6}v${Math.max(0, 26 * (1 - (coming.beats - 1) / ANNOUNCED_BEATS))}`}
          />
        </g>
      )}
      {isNamed && (
        <text class="name" y={LEVER_TOP + length + NAMES}>
          {string}
        </text>
      )}
    </g>
  );
};

/** The strings of the harp in their colours with their levers, as the player has them from the lowest to the highest. */
export const LeverBoard = ({
  strings,
  state,
}: {
  readonly strings: HarpStrings;
  readonly state: LeverBoardState;
}) => {
  const width = 2 * MARGIN + (strings.length - 1) * APART;
  return (
    <svg
      class="lever-board"
      viewBox={`0 0 ${width} ${HEIGHT}`}
      role="img"
      aria-label={LEVER_STRINGS.listen.board([...state.up])}
    >
      <path class="neck" d={`M4 ${NECK}Q${width / 2} ${NECK - 22} ${width - 4} ${NECK}`} />
      {strings.map((each, place) => (
        <BoardString key={each.string} each={each} place={place} of={strings.length} state={state} />
      ))}
    </svg>
  );
};

/** The next changes in words, and whether the hands have time. */
export const LeverLine = ({ state: { coming, busyHands } }: { readonly state: LeverBoardState }) => {
  const words = LEVER_STRINGS.listen;
  const changes = coming.map(({ played }) => LEVER_STRINGS.detail.to(played.string, played.to));
  const hands = [...new Set(coming.map(({ played }) => played.hand))];
  return (
    <p class="pedal-line">
      <span>{coming[0] === undefined ? words.none : words.next(changes, hands, coming[0].beats)}</span>
      {busyHands.length > 0 && <strong class="stop">{words.tooClose(busyHands)}</strong>}
    </p>
  );
};
