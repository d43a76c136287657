import { formatChange, formatSetting, isPosition, settingFrom } from '../harp/setting.ts';
import { keyAlter, pitchName } from '../music/pitch.ts';
import { compare, type Rational } from '../music/rational.ts';
import type { Note, Score } from '../score/model.ts';
import type { PlacedMove } from './foot.ts';
import type { Finding, FindingCode, Severity } from './model.ts';
import { beatAt, type Moments } from './moments.ts';
import type { Need, Needs } from './needs.ts';
import type { FixedTuning } from './tuning.ts';

/** What the planner knows when it tells its findings. */
export interface PlanFacts {
  readonly score: Score;
  readonly needs: Needs;
  readonly unserved: readonly Need[];
  readonly moves: readonly PlacedMove[];
  readonly moments: Moments;
  readonly fixed: FixedTuning;
}

/** Everything the player, engraver or composer should know, in order of bar. */
export const findingsOf = (facts: PlanFacts): Finding[] =>
  [...clashFindings(facts), ...moveFindings(facts), ...stringFindings(facts), ...sweepFindings(facts)].sort(
    (a, b) => a.bar - b.bar || compare(a.beat, b.beat),
  );

interface Told {
  readonly code: FindingCode;
  readonly severity: Severity;
  readonly notes: readonly Note[];
  /** Where it is, if not at the first of the notes. */
  readonly place?: { readonly bar: number; readonly at: Rational };
  readonly sentence: string;
  readonly suggestions: readonly string[];
}

const tell = (score: Score, { code, severity, notes, place, sentence, suggestions }: Told): Finding => {
  const first = notes[0];
  const bar = score.bars[place?.bar ?? first?.bar ?? 0]!;
  return {
    code,
    severity,
    bar: bar.index,
    barNumber: bar.number,
    beat: beatAt(bar, place?.at ?? first?.onset ?? bar.onset),
    staff: first?.staff ?? null,
    notes: notes.map((note) => note.id),
    sentence,
    suggestions,
  };
};

const clashFindings = ({ score, needs, unserved }: PlanFacts): Finding[] =>
  unserved.map((need) => {
    const rival = needs.needs.find(
      (other) =>
        other.letter === need.letter &&
        other.position !== need.position &&
        compare(other.onset, need.heldUntil) <= 0 &&
        compare(other.heldUntil, need.onset) >= 0,
    );
    const oneString = rival?.octave === need.octave;
    const wanted = formatChange(need.letter, need.position);
    const against = rival === undefined ? '' : ` and ${formatChange(rival.letter, rival.position)}`;
    return tell(score, {
      code: oneString ? 'string-in-two-pitches' : 'pedal-in-two-positions',
      severity: 'stop',
      notes: rival === undefined ? [need.note] : [need.note, rival.note],
      sentence: oneString
        ? `The string ${need.letter}${need.octave} is asked for ${wanted}${against} at once.`
        : `The ${need.letter} pedal is asked for ${wanted}${against} at once; it moves every ${need.letter} string.`,
      suggestions: [`Respell one of the notes on another string, leave it out, or give it to a second harp.`],
    });
  });

const moveFindings = ({ score, moves, moments }: PlanFacts): Finding[] =>
  moves.flatMap((move) => {
    const change = formatChange(move.letter, move.to);
    const place = { bar: moments.all[move.moment]!.bar, at: moments.all[move.moment]!.at };
    const notes = move.before === null ? [] : [move.before.note];
    const told: Finding[] = [];
    if (move.manner === 'too-soon') {
      told.push(
        tell(score, {
          code: 'foot-too-busy',
          severity: 'stop',
          notes,
          place,
          sentence: `The ${move.foot} foot has no time for ${change}: it moves another pedal too shortly before.`,
          suggestions: ['Respell the note on another string, leave it out, or take more time here.'],
        }),
      );
    }
    if (move.manner === 'together') {
      told.push(
        tell(score, {
          code: 'pedals-together',
          severity: 'warn',
          notes,
          place,
          sentence: `The ${move.foot} foot takes ${change} together with the pedal beside it.`,
          suggestions: ['Respell one of the notes, or take more time here.'],
        }),
      );
    }
    if (move.cost.some((term) => term.name === 'stringSounding')) {
      told.push(
        tell(score, {
          code: 'ringing-string-moved',
          severity: 'warn',
          notes: move.after === null ? notes : [move.after.note, ...notes],
          place,
          sentence: `${change} must be set while a ${move.letter} string still sounds.`,
          suggestions: [`Damp or shorten the ${move.letter} before the change.`],
        }),
      );
    }
    if (move.restores) {
      told.push(
        tell(score, {
          code: 'repeat-restored',
          severity: 'note',
          notes,
          place,
          sentence: `${change} is set again for the music that comes back to this bar with the pedal elsewhere.`,
          suggestions: [],
        }),
      );
    }
    return told;
  });

const stringFindings = ({ score, needs, fixed }: PlanFacts): Finding[] => [
  ...needs.outOfRange.map((note) =>
    tell(score, {
      code: 'out-of-range',
      severity: 'stop',
      notes: [note],
      sentence: `${pitchName(note.pitch)} lies outside the harp’s range.`,
      suggestions: ['Play it an octave nearer.'],
    }),
  ),
  ...needs.microtones.map((note) =>
    tell(score, {
      code: 'quarter-tone',
      severity: 'stop',
      notes: [note],
      sentence: `${pitchName(note.pitch)} lies between the semitones: no pedal gives it.`,
      suggestions: ['Retune a string before the piece, or replace the note.'],
    }),
  ),
  ...needs.respellings.map(({ note, from, to }) =>
    tell(score, {
      code: 'double-accidental',
      severity: 'note',
      notes: score.notes.filter((each) => each.id === note),
      sentence: `${pitchName(from)} has no string; it is played as ${pitchName(to)}.`,
      suggestions: [`Write ${pitchName(to)}.`],
    }),
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
  ...fixed.clashes.map((note) =>
    tell(score, {
      code: 'fixed-string-in-two-pitches',
      severity: 'stop',
      notes: [note],
      sentence: `${pitchName(note.pitch)} lies on a string without a disc that is tuned to another pitch for this piece.`,
      suggestions: ['Play it an octave higher, or leave it out.'],
    }),
  ),
];

const sweepFindings = ({ score, needs }: PlanFacts): Finding[] =>
  needs.guessedSweeps.map(({ note, sweep }) => {
    const fifths = score.bars[sweep.bar]!.keyFifths;
    const swept = needs.needs.filter((need) => need.kind === 'swept' && need.note.id === note.id);
    const setting = settingFrom((letter) => {
      const alter = swept.find((need) => need.letter === letter)?.position ?? keyAlter(fifths, letter);
      return isPosition(alter) ? alter : 0;
    });
    return tell(score, {
      code: 'glissando-setting-guessed',
      severity: 'note',
      notes: [note],
      sentence: `The glissando’s setting is not stated; ${formatSetting(setting)} is taken from the key and its end notes.`,
      suggestions: ['State the setting of the glissando in the score.'],
    });
  });
