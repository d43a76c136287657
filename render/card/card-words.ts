import { nameCount } from '../../engine/index.ts';

/** What a summary card says beside the plan. */
export const CARD_WORDS = {
  opening: 'Opening setting',
  strings: 'Levers before the start',
  difficulty: 'Difficulty',
  moves: 'Pedal moves',
  changes: 'Lever changes',
  perMinute: (count: number, perMinute: number) =>
    count === 0 ? 'none' : `${count}, ${perMinute.toFixed(1)} a minute while the harp plays`,
  duration: 'Length',
  lasts: (seconds: number, bars: number, assumed: boolean) =>
    `${nameSeconds(seconds)}, ${nameCount(bars, 'bar')}${assumed ? ' (no tempo is given: at a walking pace)' : ''}`,
  tune: 'To tune',
  tuning: 'Tuning',
} as const;

/** A length in minutes and seconds: `3 min 05 s`. */
export const nameSeconds = (seconds: number): string => {
  const whole = Math.round(seconds);
  const [minutes, rest] = [Math.floor(whole / 60), whole % 60];
  return minutes === 0 ? `${rest} s` : `${minutes} min ${`${rest}`.padStart(2, '0')} s`;
};
