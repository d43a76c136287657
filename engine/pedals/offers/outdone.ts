import type { OfferedFix, TempoLimit } from './model.ts';

/** An offer, and the places that it is for where these are several. */
type Offer = OfferedFix & { readonly places?: readonly number[] };

/**
 * Without what another offer outdoes: it does as much for as many places, asks for no more, and for less in one way at least.
 * Which of two notes is lost or waits is for the composer to say, whatever it costs: only respellings, notes for another
 * harp and tempos are held against each other.
 */
export const withoutOutdone = <Each extends Offer>(offers: readonly Each[]): readonly Each[] =>
  offers.filter((offer) => !offers.some((other) => other !== offer && outdoes(other, offer)));

const outdoes = (a: Offer, b: Offer): boolean =>
  isNoLess(a, b) &&
  ((a.kind === 'tempo' &&
    b.kind === 'tempo' &&
    isNarrower(a.tempo, b.tempo) &&
    !isSameTempo(a.tempo, b.tempo)) ||
    (a.kind === b.kind && (a.kind === 'respell' || a.kind === 'second-harp') && asksForLess(a, b)));

/** Whether it mends as much, and costs the feet no more. */
const isNoLess = (a: Offer, b: Offer): boolean =>
  (b.places ?? []).every((at) => a.places?.includes(at)) &&
  a.alsoFixes >= b.alsoFixes &&
  a.moreMoves <= b.moreMoves &&
  a.moreWarnings <= b.moreWarnings;

/** Of as many notes: one note of a clash or two of the other side is a choice of the composer. */
const asksForLess = (a: Offer, b: Offer): boolean =>
  notesOf(a) === notesOf(b) &&
  (a.soundsSame || !b.soundsSame) &&
  (a.moreMoves < b.moreMoves || (a.soundsSame && !b.soundsSame));

const notesOf = (offer: Offer): number => ('changes' in offer ? offer.changes.length : 0);

/** Whether a tempo is for no more bars, and no slower. */
export const isNarrower = (a: TempoLimit, b: TempoLimit): boolean =>
  a.bars.first >= b.bars.first && a.bars.last <= b.bars.last && a.quartersPerMinute >= b.quartersPerMinute;

const isSameTempo = (a: TempoLimit, b: TempoLimit): boolean =>
  a.bars.first === b.bars.first && a.bars.last === b.bars.last && a.quartersPerMinute === b.quartersPerMinute;
