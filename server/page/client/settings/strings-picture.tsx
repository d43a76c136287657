import { formatChange, LETTERS_FROM_C, type Letter, midiOf, type Setting } from '../../../../engine/index.ts';
import { SETTING_STRINGS } from '../../strings/setting-strings.ts';
import { STRINGS } from '../../strings/strings.ts';

/** Units of the picture: strings from left to right, pitch from below. */
const STRING_APART = 40;
const SEMITONE = 11;
const LEFT = 26;
const TOP = 14;
const BOTTOM = 40;

/** The strings of an octave and the C above: B sharp and C, or B and C flat, stand side by side. */
const DRAWN: readonly { readonly letter: Letter; readonly octaves: number }[] = [
  ...LETTERS_FROM_C.map((letter) => ({ letter, octaves: 0 })),
  { letter: 'C', octaves: 1 },
];

/** From the lower C flat up to the upper C sharp, in semitones above C. */
const LOWEST = -1;
const HIGHEST = 13;
const WIDTH = 2 * LEFT + (DRAWN.length - 1) * STRING_APART;
const FOOT = TOP + (HIGHEST - LOWEST) * SEMITONE;
const HEIGHT = FOOT + BOTTOM;

/** The C of the lower octave. */
const MIDDLE_C = midiOf({ letter: 'C', alter: 0, octave: 4 });

const yOf = (semitones: number): number => FOOT - (semitones - LOWEST) * SEMITONE;

const placeStrings = (setting: Setting) =>
  DRAWN.map(({ letter, octaves }, i) => ({
    letter,
    x: LEFT + i * STRING_APART,
    y: yOf(midiOf({ letter, alter: setting[letter], octave: 4 + octaves }) - MIDDLE_C),
  }));

export interface StringsPictureProps {
  readonly setting: Setting;
  /** Strings that are pointed out: those of a chord, say. */
  readonly marked: ReadonlySet<Letter>;
}

/** Eight strings: each has its note at the height of its pitch, and neighbours of one pitch are joined. */
export const StringsPicture = ({ setting, marked }: StringsPictureProps) => {
  const strings = placeStrings(setting);
  const names = LETTERS_FROM_C.map((letter) => formatChange(letter, setting[letter])).join(' ');
  return (
    <svg
      class="strings-picture"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-label={SETTING_STRINGS.picture(STRINGS.spoken(names))}
    >
      {Array.from({ length: HIGHEST - LOWEST + 1 }, (_, i) => (
        <path key={i} class="pitch" d={`M8 ${yOf(LOWEST + i)}H${WIDTH - 8}`} />
      ))}
      {strings.map(({ letter, x }) => (
        <path key={x} class="string" data-letter={letter} d={`M${x} 4V${FOOT + 8}`} />
      ))}
      {strings.map(({ x, y }, i) => {
        const next = strings[i + 1];
        return next?.y === y && <path key={x} class="same" d={`M${x} ${y}H${next.x}`} />;
      })}
      {strings.map(({ letter, x, y }) => (
        <g key={x} class={marked.has(letter) ? 'sounding marked' : 'sounding'} data-letter={letter}>
          <circle cx={x} cy={y} r={marked.has(letter) ? 8 : 6} />
          <text x={x} y={HEIGHT - 10}>
            {formatChange(letter, setting[letter])}
          </text>
        </g>
      ))}
    </svg>
  );
};
