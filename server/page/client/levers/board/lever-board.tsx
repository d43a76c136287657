import {
  leverShape,
  STRING_PICTURE,
  stringColour,
  stringEnd,
  stringsWidth,
} from '../../../../../render/pure.ts';
import type { LeverPlanReport } from '../../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../../strings/lever-strings.ts';
import { ANNOUNCED_BEATS, type LeverBoardState } from './lever-board-state.ts';

type HarpStrings = LeverPlanReport['strings'];

/** Under the strings: their names. */
const NAMES = 14;
const { apart: APART, lever: LEVER, leverTop: LEVER_TOP, margin: MARGIN, neck: NECK } = STRING_PICTURE;
const HEIGHT = LEVER_TOP + STRING_PICTURE.longest + NAMES + 8;

const colourOf = (string: string) => stringColour(string.charAt(0));

interface StringProps {
  readonly each: HarpStrings[number];
  readonly place: number;
  readonly of: number;
  readonly state: LeverBoardState;
}

const leverPath = (isUp: boolean): string => {
  const { x, y, width, height } = leverShape(isUp);
  return `M${x} ${y}h${width}v${height}h${-width}z`;
};

const BoardString = ({ each, place, of, state }: StringProps) => {
  const { string, lever } = each;
  const isUp = state.up.has(string);
  const coming = state.coming.find(({ played }) => played.string === string);
  const end = stringEnd(place, of);
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
      <path class="line" d={`M0 ${NECK}V${end}`} />
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
        <text class="name" y={end + NAMES}>
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
  const width = stringsWidth(strings.length);
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
