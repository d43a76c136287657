import {
  FEET,
  type Foot,
  footOf,
  formatChange,
  formatSetting,
  LETTERS,
  type Letter,
  POSITIONS,
  type Position,
  SIDES,
} from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { ANNOUNCED_BEATS, type ComingMove, type PedalBoxState } from './pedal-box-state.ts';

const words = STRINGS.listen;

/** Units of the picture: the foot of the harp from above, the player at the lower edge. */
const WIDTH = 380;
const HEIGHT = 186;
const SLOT = 60;
const NOTCH = 25;
const NOTCH_DEEP = 12;
const APART = 46;
const FEET_APART = 26;
const RING = 20;

/** Where each slot's middle is, and how it leans: the outer pedals lie farther forward round the foot of the harp. */
const placeOf = (letter: Letter): { readonly x: number; readonly y: number; readonly lean: number } => {
  const i = LETTERS.indexOf(letter);
  const x =
    WIDTH / 2 - 3 * APART - FEET_APART / 2 + i * APART + (footOf(letter) === 'right' ? FEET_APART : 0);
  const aside = (x - WIDTH / 2) / (WIDTH / 2);
  return { x, y: 84 - 22 * aside * aside, lean: -12 * aside };
};

/** Flat is the top notch, sharp the bottom one. */
const levelOf = (position: Position): number => position * NOTCH;

/** The slot with a notch for each position. */
const SLOT_PATH = `M0 ${-SLOT / 2}V${SLOT / 2}${POSITIONS.map((position) => `M0 ${levelOf(position)}h${NOTCH_DEEP}`).join('')}`;

const Pad = ({ letter }: { readonly letter: Letter }) => (
  <>
    {footOf(letter) === 'left' ? (
      <rect class="pad" x={-13} y={-11} width={26} height={22} rx={3} />
    ) : (
      <rect class="pad" x={-13} y={-11} width={26} height={22} rx={11} />
    )}
    <text class="letter" y={5.5}>
      {letter}
    </text>
  </>
);

/** Where the pedal will go, and a ring that fills as the move comes nearer. */
const Coming = ({ coming }: { readonly coming: ComingMove }) => {
  const { letter, after } = coming.played;
  const round = 2 * Math.PI * RING;
  const filled = round * Math.max(0, 1 - (coming.beats - 1) / ANNOUNCED_BEATS);
  return (
    <g class="coming" transform={`translate(0 ${levelOf(after[letter])})`}>
      <rect class="target" x={-15} y={-13} width={30} height={26} rx={footOf(letter) === 'left' ? 4 : 13} />
      <circle class="ring" r={RING} stroke-dasharray={`${filled} ${round}`} transform="rotate(-90)" />
      <text class="beats" x={RING + 8} y={4}>
        {coming.beats}
      </text>
    </g>
  );
};

const Pedal = ({ letter, state }: { readonly letter: Letter; readonly state: PedalBoxState }) => {
  const { x, y, lean } = placeOf(letter);
  const position = state.setting[letter];
  const coming = state.coming.find(({ played }) => played.letter === letter);
  const tooClose = state.tooClose.includes(letter);
  const classes = [
    'pedal',
    footOf(letter),
    coming === undefined ? '' : 'next',
    state.moved.includes(letter) ? 'moved' : '',
    tooClose ? 'close' : '',
  ];
  return (
    <g class={classes.filter((each) => each !== '').join(' ')} data-pedal={letter} data-position={position}>
      <g transform={`translate(${x} ${y}) rotate(${lean})`}>
        <path class="slot" d={SLOT_PATH} />
        {coming !== undefined && <Coming coming={coming} />}
        <g class="tread" style={{ transform: `translateY(${levelOf(position)}px)` }}>
          <Pad letter={letter} />
          {tooClose && (
            <g class="sign" transform="translate(14 -13)">
              <circle r={8} />
              <path d="M0 -4.5V1M0 3.4v1.2" />
            </g>
          )}
        </g>
      </g>
      <text class="name" x={x} y={y + SLOT / 2 + 33}>
        {formatChange(letter, position)}
      </text>
    </g>
  );
};

/** The foot of the harp, and which foot has which pedals. */
const Base = ({ state }: { readonly state: PedalBoxState }) => (
  <>
    <path
      class="body"
      d={`M4 36Q4 12 28 9Q${WIDTH / 2} -8 ${WIDTH - 28} 9Q${WIDTH - 4} 12 ${WIDTH - 4} 36V100Q${WIDTH / 2} 156 4 100Z`}
    />
    <path class="parting" d={`M${WIDTH / 2} 8V${HEIGHT - 8}`} />
    {SIDES.map((foot) => {
      const [first, last] = [placeOf(FEET[foot][0]!).x, placeOf(FEET[foot].at(-1)!).x];
      return (
        <text key={foot} class={footClass(state, foot)} x={(first + last) / 2} y={HEIGHT - 8}>
          {STRINGS.foot[foot]}
        </text>
      );
    })}
  </>
);

const footClass = ({ coming, busyFeet }: PedalBoxState, foot: Foot): string => {
  const moves = coming.some(({ played }) => played.foot === foot);
  return ['foot', foot, moves ? 'moves' : '', busyFeet.includes(foot) ? 'busy' : '']
    .filter((each) => each !== '')
    .join(' ');
};

/** The seven pedals in their slots, as the player sees them from above. */
export const PedalBox = ({ state }: { readonly state: PedalBoxState }) => (
  <svg
    class="pedal-box"
    viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
    role="img"
    aria-label={words.boxLabel(STRINGS.spoken(formatSetting(state.setting)))}
  >
    <Base state={state} />
    {LETTERS.map((letter) => (
      <Pedal key={letter} letter={letter} state={state} />
    ))}
  </svg>
);

/** The next move in words, and whether the foot has time. */
export const PedalLine = ({ state }: { readonly state: PedalBoxState }) => {
  const [first] = state.coming;
  const changes = state.coming.map(({ played }) => formatChange(played.letter, played.after[played.letter]));
  const [foot, ...others] = new Set(state.coming.map(({ played }) => played.foot));
  return (
    <p class="pedal-line">
      <span>
        {first === undefined || foot === undefined
          ? words.noMoveSoon
          : words.nextMove(changes.join(', '), others.length > 0 ? null : foot, first.beats)}
      </span>
      {state.busyFeet.length > 0 && <strong class="stop">{words.tooClose(state.busyFeet)}</strong>}
    </p>
  );
};
