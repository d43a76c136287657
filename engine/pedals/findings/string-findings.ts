import { tell } from '../../findings/describe-finding.ts';
import { isInRange, type PedalHarpProfile, stringOf } from '../../harp/profile.ts';
import { nameString } from '../../harp/scordatura.ts';
import { formatChange, isPosition } from '../../harp/setting.ts';
import { pitchName, stepOf } from '../../music/pitch.ts';
import type { Note, Score } from '../../score/model.ts';
import { type Needs, otherStrings, writtenString } from '../../sounding/needs.ts';
import { type FixedClash, type FixedTuning, tuningOf } from '../fixed-string-tuning.ts';
import type { Finding, Mend, Respelling, Tuning } from '../model.ts';
import type { PreparedScore } from '../prepared.ts';
import { retuningsFor } from './scordatura-findings.ts';

/** What concerns strings and no pedal: notes that none gives, strings without discs, double accidentals. */
export const stringFindings = (
  { score, options }: PreparedScore,
  needs: Needs,
  fixed: FixedTuning,
): Finding[] => {
  const retuned = needs.microtones.length === 0 ? [] : retuningsFor(score, options);
  return [
    ...needs.outOfRange.map((note) => outOfRangeFinding(score, note, options.profile)),
    ...needs.microtones.map((note) =>
      tell(score, {
        code: 'quarter-tone',
        severity: 'stop',
        notes: [note],
        sentence: `${pitchName(note.pitch)} lies between the semitones: no pedal gives it.`,
        suggestions: [...retuned, 'Or replace the note.'],
      }),
    ),
    // A string that the user chose needs no telling.
    ...needs.respellings
      .filter(
        ({ note, from }) =>
          Number.isInteger(from.alter) && !isPosition(from.alter) && !options.respelled.has(note),
      )
      .map((respelling) =>
        doubleAccidental(score, respelling, [
          { sentence: `Write ${pitchName(respelling.to)}.`, changes: [{ kind: 'respell', ...respelling }] },
        ]),
      ),
    ...needs.neighbours.map((each) =>
      isPosition(each.from.alter) ? neighbourElsewhere(score, each) : doubleAccidental(score, each, []),
    ),
    ...fixed.tunings.map(({ string, alter }, i) =>
      tell(score, {
        code: 'fixed-string-tuning',
        severity: 'note',
        notes: fixed.served[i]!,
        sentence: `The string ${string.letter}${string.octave} has no disc: tune it to ${formatChange(string.letter, alter)} before the piece.`,
        suggestions: [],
      }),
    ),
    ...fixed.clashes.map((clash) => clashFinding(score, clash, fixed.tunings)),
  ];
};

const outOfRangeFinding = (score: Score, note: Note, profile: PedalHarpProfile): Finding => {
  const pitch = writtenString(note);
  const mends = otherStrings(pitch)
    .filter((other) => isInRange(profile, stringOf(other)))
    .map(
      (other): Mend => ({
        sentence: `Write ${pitchName(other)}.`,
        changes: [{ kind: 'respell', note: note.id, from: pitch, to: other }],
      }),
    );
  return tell(score, {
    code: 'out-of-range',
    severity: 'stop',
    notes: [note],
    sentence: `${pitchName(note.pitch)} lies outside the harp’s range.`,
    suggestions: [
      ...mends.map(({ sentence }) => sentence),
      mends.length > 0 ? 'Or play it an octave nearer.' : 'Play it an octave nearer.',
    ],
    mends,
  });
};

const neighbourElsewhere = (score: Score, { note, from, to }: Respelling): Finding =>
  tell(score, {
    code: 'played-on-other-string',
    severity: 'note',
    notes: score.notes.filter((each) => each.id === note),
    sentence: `The ${pitchName(from)} of the ornament is played on the ${nameString(to)} string, as ${pitchName(to)}.`,
    suggestions: [],
  });

const clashFinding = (score: Score, clash: FixedClash, tunings: readonly Tuning[]): Finding => {
  const { note, pitch } = clash;
  const mends = mendsOfClash(clash, tunings);
  const nearer = stepOf(pitch) < MIDDLE_C_STEP ? 'higher' : 'lower';
  const away = `lay it an octave ${nearer}, or leave it out.`;
  return tell(score, {
    code: 'fixed-string-in-two-pitches',
    severity: 'stop',
    notes: [note],
    sentence: `${pitchName(pitch)} lies on a string without a disc that is tuned to another pitch for this piece.`,
    suggestions: [...mends.map(({ sentence }) => sentence), mends.length > 0 ? `Or p${away}` : `P${away}`],
    mends,
  });
};

const MIDDLE_C_STEP = stepOf({ letter: 'C', octave: 4 });

/** The same pitch on the other string without a disc. */
const mendsOfClash = ({ note, pitch, elsewhere }: FixedClash, tunings: readonly Tuning[]): Mend[] => {
  if (elsewhere === null) return [];
  const string = nameString(elsewhere);
  const how =
    tuningOf(elsewhere, tunings) === null
      ? `: tune the string ${string} to it before the piece.`
      : `: the string ${string} is tuned to it for this piece.`;
  return [
    {
      sentence: `Write ${pitchName(elsewhere)}${how}`,
      changes: [{ kind: 'respell', note: note.id, from: pitch, to: elsewhere }],
    },
  ];
};

/** @param mends none where the pitch is an ornament's neighbour, which is not a note of its own */
const doubleAccidental = (score: Score, { note, from, to }: Respelling, mends: readonly Mend[]): Finding =>
  tell(score, {
    code: 'double-accidental',
    severity: 'note',
    notes: score.notes.filter((each) => each.id === note),
    sentence: `${pitchName(from)} has no string; it is played as ${pitchName(to)}.`,
    suggestions: [`Write ${pitchName(to)}.`],
    mends,
  });
