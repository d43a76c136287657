import { describeFinding } from '../../findings/describe-finding.ts';
import { type Help, help } from '../../findings/help/help.ts';
import { moveIntoRange } from '../../findings/help/into-range.ts';
import type { NoteHelp } from '../../findings/help/note-help.ts';
import type { PedalFinding } from '../../findings/model.ts';
import { type NoteFix, noteFix } from '../../findings/model.ts';
import { ornamentNotesOf } from '../../findings/ornament-notes.ts';
import { isInRange, type PedalHarpProfile, rangeOf, stringOf } from '../../harp/profile.ts';
import { isPosition } from '../../harp/setting.ts';
import { type Pitch, stepOf } from '../../music/pitch.ts';
import type { Score } from '../../score/model/score.ts';
import { notesById } from '../../score/notes-by-id.ts';
import { type NeedList, otherStrings, type StringNeed } from '../../sounding/needs.ts';
import type { Respelling } from '../../sounding/respelling.ts';
import { isTaken } from '../../sounding/taken-string.ts';
import { type FixedStringClash, type FixedStringTunings, tuningOf } from '../fixed-strings.ts';
import type { StringTuning } from '../model.ts';
import type { PreparedScore } from '../pedal-problem.ts';
import { adviseForMicrotones } from './scordatura-findings.ts';

/** What concerns strings and no pedal: notes that none gives, strings without discs, double accidentals. */
export const stringFindings = (
  { score, options }: PreparedScore,
  needs: NeedList,
  fixed: FixedStringTunings,
): PedalFinding[] => {
  const retuned = needs.microtones.length === 0 ? [] : [adviseForMicrotones(score, options)];
  return [
    ...needs.outOfRange.map((asked) => outOfRangeFinding(score, asked, options.profile)),
    ...needs.microtones.map((note) =>
      describeFinding(
        score,
        'quarter-tone',
        { pitch: note.pitch, harp: 'pedal' },
        { notes: [note], help: [...retuned, help('replace-note', {})] },
      ),
    ),
    // A string that the user chose needs no telling.
    ...needs.respellings
      .filter(
        ({ note, from }) =>
          Number.isInteger(from.alter) && !isPosition(from.alter) && !options.respelled.has(note),
      )
      .map((respelling) =>
        doubleAccidental(score, respelling, [
          noteFix(writeFor(respelling), [{ kind: 'respell', ...respelling }]),
        ]),
      ),
    ...needs.ornamentRespellings.map((each) =>
      isPosition(each.from.alter) ? neighbourElsewhere(score, each) : doubleAccidental(score, each, []),
    ),
    ...fixed.tunings.map(({ string, alter }, i) =>
      describeFinding(
        score,
        'fixed-string-tuning',
        { string, change: { letter: string.letter, position: alter } },
        { notes: fixed.served[i]! },
      ),
    ),
    ...fixed.clashes.map((clash) => clashFinding(score, clash, fixed.tunings)),
  ];
};

const outOfRangeFinding = (score: Score, asked: StringNeed, profile: PedalHarpProfile): PedalFinding => {
  const { note, pitch, kind } = asked;
  // The neighbour of an ornament is not printed, so that no other name can be written for it.
  const others = kind === 'implied' ? [] : otherStrings(pitch);
  const fixes = others
    .filter((other) => isInRange(profile, stringOf(other)))
    .map(
      (other): NoteFix =>
        noteFix(writeFor({ from: pitch, to: other }), [
          { kind: 'respell', note: note.id, from: pitch, to: other },
        ]),
    );
  return describeFinding(
    score,
    'out-of-range',
    { pitch, range: rangeOf(profile), ofOrnaments: ornamentNotesOf([asked]) },
    { notes: [note], fixes, help: [octaveHelp(score, asked, profile)] },
  );
};

/** Towards the middle of the harp. */
const octaveNearer = (pitch: Pitch): Pitch => ({
  ...pitch,
  octave: pitch.octave + (stepOf(pitch) < MIDDLE_C_STEP ? 1 : -1),
});

/** To move a note by an octave, unless it stands there already: then to leave it out. */
const octaveHelp = (score: Score, { note, pitch, kind }: StringNeed, profile: PedalHarpProfile): Help => {
  const nearer = octaveNearer(pitch);
  const stands = kind === 'plucked' && isInRange(profile, stringOf(nearer)) && isTaken(score, note, nearer);
  return stands
    ? help('octave-stands-there', { pitch, to: nearer })
    : help('into-range', { pitch, to: moveIntoRange(pitch, rangeOf(profile)) });
};

const neighbourElsewhere = (score: Score, { note, from, to }: Respelling): PedalFinding =>
  describeFinding(
    score,
    'played-on-other-string',
    { from, to, isOfOrnament: true, times: 1, fromBar: '' },
    { notes: [notesById(score.notes).get(note)!] },
  );

const clashFinding = (
  score: Score,
  clash: FixedStringClash,
  tunings: readonly StringTuning[],
): PedalFinding => {
  const { note, pitch } = clash;
  const fixes = fixesOfClash(clash, tunings);
  const nearer = octaveNearer(pitch);
  const stands = clash.kind === 'plucked' && isTaken(score, note, nearer);
  return describeFinding(
    score,
    'fixed-string-in-two-pitches',
    { pitch },
    {
      notes: [note],
      fixes,
      help: [
        stands
          ? help('octave-stands-there', { pitch, to: nearer })
          : help('octave-or-leave-out', { pitch, to: nearer }),
      ],
    },
  );
};

const MIDDLE_C_STEP = stepOf({ letter: 'C', octave: 4 });

/** The same pitch on the other string without a disc. */
const fixesOfClash = (
  { note, pitch, elsewhere }: FixedStringClash,
  tunings: readonly StringTuning[],
): NoteFix[] => {
  if (elsewhere === null) return [];
  const facts = { to: elsewhere, string: stringOf(elsewhere), tuned: tuningOf(elsewhere, tunings) !== null };
  return [
    noteFix({ kind: 'write-on-fixed-string', facts }, [
      { kind: 'respell', note: note.id, from: pitch, to: elsewhere },
    ]),
  ];
};

const writeFor = ({ from, to }: Pick<Respelling, 'from' | 'to'>): NoteHelp => ({
  kind: 'write-for',
  facts: { from, to },
});

/** @param fixes none where the pitch is an ornament's neighbour, which is not a note of its own */
const doubleAccidental = (
  score: Score,
  { note, from, to }: Respelling,
  fixes: readonly NoteFix[],
): PedalFinding =>
  describeFinding(
    score,
    'double-accidental',
    { from, to },
    {
      notes: [notesById(score.notes).get(note)!],
      fixes,
      help: [help('write-for', { from, to })],
    },
  );
