import {
  fail,
  headsOfTies,
  midiOf,
  type Note,
  nameBarIn,
  ok,
  type Respelling,
  type Result,
  type Score,
  type XmlElement,
} from '../../../engine/index.ts';
import type { Edit } from '../../edit.ts';
import { type PitchShift, shiftBetween } from './pitch-shift.ts';
import { respellMeiNote } from './respell-mei.ts';
import { respellMusicXmlNote } from './respell-musicxml.ts';

/**
 * Edits that write notes on another string, or in another octave: step, alteration, octave and accidental, of a tied note in every note of
 * its tie, since a tie holds one string. Nothing else is touched.
 *
 * Notes played on a string that is tuned otherwise keep their writing, which tells what sounds.
 *
 * A respelling tells sounding pitches; what is written moves by as much, so that transposition and octave lines hold.
 *
 * @returns `unsupported` for a note whose written pitch the file leaves open (see `respellMeiNote`)
 */
export const respellingEdits = (score: Score, respellings: readonly Respelling[]): Result<Edit[]> => {
  const renamed = respellings.filter(({ from, to }) => (midiOf(from) - midiOf(to)) % 12 === 0);
  if (renamed.length === 0) return ok([]);
  const { text, root, format } = score.source;
  const shifts = shiftsByNote(score.notes, renamed);
  const byStart = new Map(
    score.notes.filter((note) => shifts.has(note.id)).map((note) => [note.span.start, note]),
  );
  const respell = format === 'mei' ? respellMeiNote : respellMusicXmlNote;
  const edits: Edit[] = [];
  const unclear: Note[] = [];
  const visit = (element: XmlElement): void => {
    const note = element.name === 'note' ? byStart.get(element.span.start) : undefined;
    if (note !== undefined) {
      const done = respell(text, element, shifts.get(note.id)!, note);
      if (done === null) unclear.push(note);
      else edits.push(...done);
    }
    for (const each of element.children) visit(each);
  };
  visit(root);
  return unclear.length === 0 ? ok(edits) : fail(unclearPitch(score, unclear[0]!));
};

const unclearPitch = (score: Score, note: Note) => ({
  code: 'unsupported' as const,
  feature: `Respelling a transposed note without an accidental (bar ${nameBarIn(score)(note.bar)})`,
  advice: 'Write the part at sounding pitch, or keep its spelling.',
});

/** Every note that moves: those of a tie move together. */
const shiftsByNote = (
  notes: readonly Note[],
  respellings: readonly Respelling[],
): ReadonlyMap<string, PitchShift> => {
  const headOf = headsOfTies(notes);
  const ofHead = new Map(
    respellings.map(({ note, from, to }) => [headOf.get(note)?.id ?? note, shiftBetween(from, to)]),
  );
  return new Map(
    notes.flatMap((note) => {
      const shift = ofHead.get(headOf.get(note.id)!.id);
      return shift === undefined ? [] : [[note.id, shift] as const];
    }),
  );
};
