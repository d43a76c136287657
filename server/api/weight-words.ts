import type { WeightName } from '../../engine/pedals/weights.ts';

/** The weights that an option of that name sets: the rest of a foot has an option of its own. */
export type OpenWeight = Exclude<WeightName, 'footRestSeconds'>;

/** What each weight is the price of, for those who set it. */
export const WEIGHT_WORDS: Readonly<Record<OpenWeight, string>> = {
  move: 'Price of a move.',
  respelling: 'Price of a respelled note, where the spelling is free.',
  footTooBusy: 'Price of a move that the foot has no time for.',
  pedalsTogether: 'Price of taking two neighbouring pedals together, where that is allowed.',
  forbidden: 'Price of a move inside a span that is forbidden to moves.',
  stringSounding: 'Price of moving a pedal while a string of its letter sounds as long as it is written.',
  stringRinging: 'Price of the same after that, at most, while the string still rings.',
  noLead: 'Price of a move that falls together with the note that needs it.',
  shortLead: 'Price of a move shortly before its note, at most.',
  offBeat: 'Price of a move between the beats.',
  betweenBeats: 'Price of a move where neither a beat nor a note marks the moment.',
  handsBusy: 'Price of a move while the hands are playing.',
  perNotePlucked: 'Price of a move for each note that is plucked at its moment.',
  perSecondAhead: 'Price of a move for each second that it comes before its note.',
  startsElsewhere: 'Price of an opening setting with a pedal where its first note does not want it.',
  restoring: 'Price of a move that only a jump back makes necessary.',
  twoNotchesInHaste: 'Price of a move from flat to sharp, or back, with less than a second left.',
  comfortableLeadSeconds: 'Seconds before its note from which a move comes early enough.',
  farthestAheadSeconds: 'Seconds before its note past which a move counts as no farther ahead.',
};
