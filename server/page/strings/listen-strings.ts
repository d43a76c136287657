import { capitalize, type Foot, nameCount, nameOrdinal, namePlaceInBar } from '../../../engine/index.ts';
import { FOOT } from './shared-strings.ts';

/** The player. */
export const LISTEN_STRINGS = {
  listen: {
    heading: 'Playback',
    open: 'Listen to the part and watch the pedals',
    play: 'Play',
    pause: 'Pause',
    stop: 'Back to the start',
    barBack: 'Back one bar',
    barOn: 'Forward one bar',
    fromSelection: 'From the selected bar',
    position: 'Position',
    tempo: 'Tempo',
    volume: 'Volume',
    loop: {
      label: 'Repeat some bars',
      from: 'from bar',
      until: 'to bar',
      faster: 'each time a little faster, up to the written tempo',
    },
    more: 'Volume, repeats, what is heard',
    heard: {
      legend: 'What is heard',
      strings: 'Strings',
      pedals: 'Pedals as they move: left foot low, right foot high',
      beats: 'Beats',
      countIn: 'One bar counted before',
    },
    countedIn: (place: string) => `Counting to: ${place}`,
    percent: (percent: number) => `${percent} %`,
    place: (bar: string, beat: number, pass: number) =>
      `${capitalize(namePlaceInBar(bar, `${beat}`))}${pass === 1 ? '' : `, the ${nameOrdinal(pass)} time`}`,
    boxLabel: (setting: string) => `The pedals from above: ${setting}`,
    nextMove: (changes: string, foot: Foot | null, beats: number) =>
      `Next: ${changes}, ${foot === null ? 'both feet' : FOOT[foot]}, in ${nameCount(beats, 'beat')}`,
    noMoveSoon: 'No moves soon',
    tooClose: (feet: readonly Foot[]) =>
      `Moves too close together for the ${feet.map((foot) => FOOT[foot]).join(' and the ')}`,
    say: 'Read out the setting',
    pedalsStand: (setting: string) => `The pedals: ${setting}.`,
    standsAt: (place: string, harp: string) => `${place}. ${harp}`,
    stoppedAt: (place: string, harp: string) => `Stopped. ${place}. ${harp}`,
    close: 'Close the player',
    keys: 'The space bar plays and pauses unless a button or slider has the focus. On the position slider, the arrow keys move by one beat. Click a note, a bar or the chart to go there.',
  },
} as const;
