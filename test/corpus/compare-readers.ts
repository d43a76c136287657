import { midiOf, stepOf } from '../../engine/music/pitch.ts';
import { add, equals, rationalKey, subtract } from '../../engine/music/rational.ts';
import { descendantsNamed, type XmlElement } from '../../engine/xml/tree.ts';
import type { ReadNote } from './all-parts.ts';
import { type Comparison, count, startComparison } from './differences.ts';
import type { NoteFacts } from './source-facts.ts';

/**
 * Compares a MusicXML score as read directly with the same score converted to MEI by Verovio and read by our MEI
 * reader: bar, onset, length, spelled pitch, staff, and what marks a note bears.
 *
 * @param converted the `note` elements of the conversion by id
 */
export const compareReadings = (
  direct: ReadonlyMap<string, ReadNote>,
  viaMei: ReadonlyMap<string, ReadNote>,
  facts: ReadonlyMap<string, NoteFacts>,
  converted: ReadonlyMap<string, XmlElement>,
): Comparison => {
  const comparison = startComparison();
  for (const [id, one] of direct) {
    const other = viaMei.get(id);
    const fact = facts.get(id);
    const place = `${one.part} bar ${one.score.bars[one.note.bar]!.number}: ${signature(one)} (${id}); via MEI ${other && signature(other)}`;
    if (fact === undefined) count(comparison, undefined, `not in the source: ${place}`);
    else if (other === undefined) count(comparison, viaMei.size === 0 ? 'lost by Verovio' : undefined, place);
    else count(comparison, explain(one, other, fact, converted.get(id)), place);
  }
  return comparison;
};

const explain = (
  one: ReadNote,
  other: ReadNote,
  fact: NoteFacts,
  converted: XmlElement | undefined,
): string | null | undefined => {
  const sameStaves = one.score.harp.staves === other.score.harp.staves;
  if (signature(one, sameStaves) !== signature(other, sameStaves))
    return explainPlace(one, other, fact, converted);
  if ((one.note.tiedFrom === null) === (other.note.tiedFrom === null)) return null;
  return explainTie(one, other, fact);
};

const explainTie = (one: ReadNote, other: ReadNote, { element }: NoteFacts): string | undefined => {
  const isTiedTo = element.children.some((each) => each.name === 'tie' && each.attributes.type === 'stop');
  if (isTiedTo === (one.note.tiedFrom !== null)) return 'tie misread by Verovio';
  const from = other.score.notes.find((each) => each.id === other.note.tiedFrom);
  const meets = from !== undefined && equals(add(from.onset, from.duration), other.note.onset);
  return isTiedTo && from !== undefined && !meets ? 'tie over a gap' : undefined;
};

const explainPlace = (
  one: ReadNote,
  other: ReadNote,
  fact: NoteFacts,
  converted: XmlElement | undefined,
): string | undefined => {
  const timesDiffer = times(one) !== times(other);
  if (timesDiffer) return fact.contradicted ? 'value against duration' : undefined;
  const [a, b] = [one.note.pitch, other.note.pitch];
  const octaves = a.letter === b.letter && a.alter === b.alter ? b.octave - a.octave : 0;
  if (octaves !== 0 && converted?.attributes['oct.ges'] === undefined)
    return 'octave line over sounding octaves';
  const isOctaveMoved = [...fact.transpositions].some((semitones) => Math.abs(semitones) > 12);
  const printed = fact.element.children.some((each) => each.name === 'accidental');
  const sameLine = stepOf(a) === stepOf(b) || isOctaveMoved;
  if (midiOf(a) !== midiOf(b) && sameLine && !printed && isUnmarked(converted))
    return 'unmarked after conversion';
  if (midiOf(a) === midiOf(b) && isOctaveMoved) return 'transposition beyond an octave';
  return undefined;
};

const isUnmarked = (converted: XmlElement | undefined): boolean =>
  converted !== undefined &&
  converted.attributes['accid.ges'] === undefined &&
  descendantsNamed(converted, 'accid').length === 0;

const times = ({ score, note }: ReadNote): string => {
  const onset =
    note.grace === null ? rationalKey(subtract(note.onset, score.bars[note.bar]!.onset)) : 'grace';
  return `${note.bar} ${onset} ${rationalKey(note.duration)}`;
};

/** @param withStaff false where Verovio joined two parts, so that staves have other numbers */
const signature = (read: ReadNote, withStaff = true): string => {
  const { pitch, staff, arpeggio, tremolo, harmonic } = read.note;
  const marks = [arpeggio, tremolo && `${tremolo.kind}${tremolo.marks}`, harmonic && 'harmonic'].filter(
    Boolean,
  );
  return `${times(read)} ${pitch.letter}${pitch.alter}/${pitch.octave} ${withStaff ? `staff ${staff}` : ''} ${marks.join(' ')}`;
};
