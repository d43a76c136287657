import { midiOf } from '../../engine/music/pitch.ts';
import { rationalKey, subtract, toNumber } from '../../engine/music/rational.ts';
import { descendantsNamed } from '../../engine/xml/tree.ts';
import type { ReadNote } from './all-parts.ts';
import { type Comparison, count, startComparison } from './differences.ts';
import type { OracleNote, OracleReading } from './oracle.ts';
import type { NoteFacts } from './source-facts.ts';

/** Quarter notes; Verovio's timemap is in decimals. */
const NEAR = 0.002;

/** Compares onset within the bar and MIDI key of each of our notes, and looks for notes that we did not read. */
export const compareWithOracle = (
  ours: ReadonlyMap<string, ReadNote>,
  theirs: OracleReading,
  facts: ReadonlyMap<string, NoteFacts>,
): Comparison => {
  const comparison = startComparison();
  const graced = new Set([...ours.values()].filter((each) => each.note.grace !== null).map(moment));
  for (const [id, read] of ours) {
    const heard = theirs.notes.get(id);
    const fact = facts.get(id);
    const place = describe(read, heard);
    if (fact === undefined) count(comparison, undefined, `not in the source: ${place}`);
    else if (heard === undefined)
      count(comparison, theirs.notes.size === 0 ? 'lost by Verovio' : undefined, place);
    else count(comparison, explain(read, heard, fact, graced), place);
  }
  for (const [id, heard] of theirs.notes) {
    const fact = facts.get(id);
    if (ours.has(id) || fact === undefined || !isPitched(fact)) continue;
    count(comparison, isDouble(heard, fact, ours) ? 'hidden double' : undefined, `unread: ${id}`);
  }
  return comparison;
};

const isPitched = ({ element }: NoteFacts): boolean =>
  element.attributes.pname !== undefined || element.children.some((each) => each.name === 'pitch');

/** A note that is not printed, of the letter of a grace that is printed in its bar. */
const isDouble = (heard: OracleNote, { element }: NoteFacts, ours: ReadonlyMap<string, ReadNote>): boolean =>
  element.attributes.visible === 'false' &&
  [...ours.values()].some(
    ({ note }) =>
      note.bar === heard.bar &&
      note.role === 'played' &&
      note.grace !== null &&
      note.pitch.letter.toLowerCase() === element.attributes.pname,
  );

const moment = ({ part, note }: ReadNote): string => `${part} ${rationalKey(note.onset)}`;

const onsetInBar = ({ score, note }: ReadNote): number =>
  toNumber(subtract(note.onset, score.bars[note.bar]!.onset));

const explain = (
  read: ReadNote,
  heard: OracleNote,
  fact: NoteFacts,
  graced: ReadonlySet<string>,
): string | null | undefined => {
  const onset = explainOnset(read, heard, fact, graced);
  const pitch = explainPitch(read, heard, fact);
  if (onset === undefined || pitch === undefined) return undefined;
  return pitch ?? onset;
};

const explainOnset = (
  read: ReadNote,
  heard: OracleNote,
  fact: NoteFacts,
  graced: ReadonlySet<string>,
): string | null | undefined => {
  const { note } = read;
  const late = heard.onset - onsetInBar(read);
  if (heard.bar === note.bar && Math.abs(late) < NEAR) return null;
  if (fact.lengthMissing) return 'length missing';
  if (fact.tupletAttribute) return 'tuplet without ratio';
  if (fact.contradicted) return 'value against duration';
  if (heard.bar !== note.bar) return undefined;
  if (note.grace !== null) return 'grace';
  const within = late > 0 && late < toNumber(note.duration) + NEAR;
  if (within && graced.has(moment(read))) return 'after graces';
  if (!within || note.arpeggio === null || late > 1) return undefined;
  return note.arpeggio === 'none' ? 'non-arpeggiate' : 'arpeggio';
};

const explainPitch = (
  { note }: ReadNote,
  { midi }: OracleNote,
  fact: NoteFacts,
): string | null | undefined => {
  if (midi === null) return null;
  const away = midiOf(note.pitch) - midi;
  if (Math.abs(away) < 0.01) return null;
  if (note.harmonic !== null && away === 12) return 'harmonic';
  const key = fact.element.name === 'note' && isUnmarked(fact) ? note.pitch.alter : 0;
  if (fact.transpositions.has(away)) return 'transposition';
  if (key !== 0 && away === key) return 'key signature';
  return [...fact.transpositions].some((semitones) => Math.abs(away - semitones) <= 1 && isUnmarked(fact))
    ? 'key signature and transposition'
    : undefined;
};

/** A note of MEI that tells neither its printed nor its performed accidental. */
const isUnmarked = ({ element }: NoteFacts): boolean =>
  element.attributes.pname !== undefined &&
  [element, ...descendantsNamed(element, 'accid')].every(
    (each) => each.attributes.accid === undefined && each.attributes['accid.ges'] === undefined,
  );

const describe = ({ part, score, note }: ReadNote, heard: OracleNote | undefined): string => {
  const bar = score.bars[note.bar]!;
  const { letter, alter, octave } = note.pitch;
  const theirs =
    heard === undefined ? 'nothing' : `${heard.midi} in bar ${heard.bar} at ${heard.onset.toFixed(3)}`;
  const at = rationalKey(subtract(note.onset, bar.onset));
  return `${part} bar ${bar.number} (${note.bar}) at ${at} ${letter}${alter}/${octave} ${note.id}; Verovio: ${theirs}`;
};
