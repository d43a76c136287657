/** A length in minutes and seconds: `3 min 05 s`. */
export const nameSeconds = (seconds: number): string => {
  const whole = Math.round(seconds);
  const [minutes, rest] = [Math.floor(whole / 60), whole % 60];
  return minutes === 0 ? `${rest} s` : `${minutes} min ${`${rest}`.padStart(2, '0')} s`;
};
