import { describeHelp } from '../../findings/help/help.ts';
import { describeGiven } from '../../findings/help/note-help.ts';
import type { FindingPlace } from '../../findings/model.ts';
import { nameString } from '../../harp/scordatura.ts';
import { formatChange } from '../../harp/setting.ts';
import { midiOf, pitchName } from '../../music/pitch.ts';
import { add, compare, rationalKey, subtract, toNumber } from '../../music/rational.ts';
import { beatAt } from '../../score/bars/beats.ts';
import type { Note } from '../../score/model/note.ts';
import type { Score } from '../../score/model/score.ts';
import { notesById } from '../../score/notes-by-id.ts';
import { NO_FASTER, tempoFigure } from '../../score/slow-down.ts';
import type { NoteChange, Omitted, Respelled } from '../../sounding/changed-needs.ts';
import { writtenString } from '../../sounding/needs.ts';
import { nameBarIn, nameEndsIn } from '../../words/bar-names.ts';
import { capitalize } from '../../words/counts.ts';
import { formatBeatText } from '../../words/format-beat.ts';
import { listNames } from '../../words/lists.ts';
import { beatsToTell } from '../fixes/beats-to-tell.ts';
import { nameMeant } from '../fixes/meant-note.ts';
import { tellChanges } from '../fixes/tell-changes.ts';
import type { StringTuning } from '../model.ts';
import {
  ALSO_FIXED_WORTH,
  DAMPED_COST,
  FIX_COST,
  MOVE_COST,
  OUTER_COST,
  TUNING_COST,
  WAITING_COST,
  WARNING_COST,
} from './fix-weights.ts';
import type { NoteDeed, NoteDelay, OfferedFix, TempoLimit } from './model.ts';
import { areDoubled, type Candidate, doubleOf } from './note-candidates.ts';

/** What a plan has more than the one before. */
export interface Growth
  extends Pick<OfferedFix, 'moreMoves' | 'moreWarnings' | 'warningsThen' | 'alsoFixes'> {
  readonly tuned: readonly StringTuning[];
  /** What is said of strings that have to be damped (`tellDamped`); empty for none. */
  readonly damped: string;
}

/**
 * The ways to offer changes of notes that were found to help: what is left out may be given to a second harp as well.
 *
 * @param at the place that they are for; null for a passage
 * @param unheard notes that do not stand in for one that is left out: they cannot be played themselves, or may be left out too
 */
export const noteOffers = (
  score: Score,
  at: FindingPlace | null,
  changes: Candidate,
  growth: Growth,
  unheard: ReadonlySet<string>,
): readonly OfferedFix[] => {
  return deedsWith(score, changes, unheard).map((deed) => ({
    ...deed,
    sentence: sentenceOf(score, at, deed, growth),
    ...heardThen(heardOf(score, deed, unheard), growth),
    ...told(growth),
    cost: FIX_COST[deed.kind] * changes.length + costOfOuter(score, deed) + costOf(growth),
  }));
};

/** A delay of notes that was found to help. */
export const delayOffer = (score: Score, at: FindingPlace, delay: NoteDelay, growth: Growth): OfferedFix => {
  const notes = score.notes.filter(({ id }) => delay.notes.includes(id));
  const [first] = notes as [Note, ...Note[]];
  const bar = score.bars[first.bar]!;
  const names = listNames([...new Set(notes.map(({ pitch }) => pitchName(pitch)))]);
  const beat = formatBeatText(rationalKey(beatAt(bar, delay.until)));
  const from = notes.flatMap((note) => beatsToTell(score, writtenString(note), notes, at)).slice(0, 1);
  const quarters = toNumber(subtract(delay.until, first.onset));
  return {
    kind: 'delay',
    delay,
    sentence: `Play the ${names} in bar ${nameBarIn(score)(bar.index)}${from.map((each) => `, beat ${each},`).join('')} later, on beat ${beat}.`,
    ...heardThen(`${names} ${notes.length === 1 ? 'sounds' : 'sound'} later than the rest.`, growth),
    ...told(growth),
    cost: FIX_COST.delay + WAITING_COST * quarters + costOf(growth),
  };
};

/** A slower tempo that was found to help. */
export const tempoOffer = (score: Score, tempo: TempoLimit): OfferedFix => {
  const { quartersPerMinute, written, unit, bars } = tempo;
  const growth = { ...told(tempo), tuned: [], damped: '' };
  const limit = `${unit.sign} = ${tempoFigure(quartersPerMinute, unit)}`;
  const names = nameEndsIn(score)(bars.first, bars.last);
  const where = bars.first === bars.last ? `bar ${names[0]}` : `bars ${names.join(' to ')}`;
  return {
    kind: 'tempo',
    tempo,
    sentence: `Play ${where} ${NO_FASTER} ${limit}.`,
    heard: `It is slower: ${limit} in place of ${tempoFigure(written, unit)}.`,
    soundsSame: false,
    ...told(growth),
    cost: FIX_COST.tempo * Math.max(1, 100 * (1 - quartersPerMinute / written)) + costOf(growth),
  };
};

const told = ({ moreMoves, moreWarnings, warningsThen, alsoFixes }: Omit<Growth, 'tuned' | 'damped'>) => ({
  moreMoves,
  moreWarnings,
  warningsThen,
  alsoFixes,
});

/** A bass that is heard in another octave alone is missed all the same, and what nothing else gives most where it is the melody. */
const costOfOuter = (score: Score, { kind, changes }: NoteDeed): number => {
  if (kind !== 'leave-out-doubled' && kind !== 'leave-out') return 0;
  const sides = kind === 'leave-out' ? (['lowest', 'highest'] as const) : (['lowest'] as const);
  return (
    OUTER_COST *
    [...changes].filter(({ note }) => sides.some((side) => isOutermost(score, note, side))).length
  );
};

/** Whether nothing lower or higher sounds when a note begins; a grace note is gone at once. */
const isOutermost = ({ notes }: Score, id: string, side: 'lowest' | 'highest'): boolean => {
  const own = notesById(notes).get(id);
  if (own === undefined || own.grace !== null) return false;
  const sign = side === 'lowest' ? 1 : -1;
  return notes.every(
    ({ role, grace, onset, duration, pitch }) =>
      role === 'cue' ||
      grace !== null ||
      compare(onset, own.onset) > 0 ||
      compare(add(onset, duration), own.onset) <= 0 ||
      sign * (midiOf(pitch) - midiOf(own.pitch)) >= 0,
  );
};

/** What is done with changes, and by whom the notes are played that this part leaves out. */
const deedsWith = (score: Score, changes: Candidate, unheard: ReadonlySet<string>): readonly NoteDeed[] => {
  const respelled = changes.filter((change): change is Respelled => change.kind === 'respell');
  const omitted = changes.filter((change): change is Omitted => change.kind === 'omit');
  if (omitted.length === 0)
    return [{ kind: changes.some(isOctave) ? 'octave' : 'respell', changes: respelled }];
  if (respelled.length > 0) return [{ kind: 'leave-out', changes }];
  const kind = areDoubled(score, changes, unheard) ? 'leave-out-doubled' : 'leave-out';
  return [
    { kind, changes: omitted },
    { kind: 'second-harp', changes: omitted },
  ];
};

const isOctave = (change: NoteChange): boolean =>
  change.kind === 'respell' && midiOf(change.from) !== midiOf(change.to);

const costOf = ({ moreMoves, moreWarnings, alsoFixes, tuned, damped }: Growth): number =>
  -ALSO_FIXED_WORTH * Math.max(0, alsoFixes) +
  (damped === '' ? 0 : DAMPED_COST) +
  MOVE_COST * Math.max(0, moreMoves) +
  WARNING_COST * Math.max(0, moreWarnings) +
  TUNING_COST * tuned.length;

const sentenceOf = (
  score: Score,
  at: FindingPlace | null,
  { kind, changes }: NoteDeed,
  { tuned }: Growth,
): string => {
  const told = tellChanges(changes, score, at);
  const done = kind === 'second-harp' ? describeGiven(told.facts.changes) : describeHelp(told);
  return [done, ...tuned.map(describeTuning)].join(' ');
};

/** “Tune the string D1, which has no disc, to D♯ before the piece.” */
const describeTuning = ({ string, alter }: StringTuning): string =>
  `Tune the string ${nameString(string)}, which has no disc, to ${formatChange(string.letter, alter)} before the piece.`;

const heardOf = (score: Score, deed: NoteDeed, unheard: ReadonlySet<string>): string => {
  const { changes } = deed;
  switch (deed.kind) {
    case 'octave': {
      const moved = deed.changes.filter(isOctave);
      const up = moved.some(({ from, to }) => midiOf(to) > midiOf(from));
      return `${capitalize(tellOf(namesIn(score, moved), 'sounds', 'sound'))} an octave ${up ? 'higher' : 'lower'}.`;
    }
    case 'leave-out-doubled': {
      const silent = new Set([...unheard, ...changes.map(({ note }) => note)]);
      const byId = notesById(score.notes);
      const others = changes.map(({ note }) => pitchName(doubleOf(score, byId.get(note)!, silent)!.pitch));
      return `Little: ${tellOf(others, 'sounds', 'sound')} at the same time.`;
    }
    case 'leave-out': {
      const out = deed.changes.filter(({ kind }) => kind === 'omit');
      return `${capitalize(tellOf(namesIn(score, out), 'is', 'are'))} missing.`;
    }
    case 'respell':
    case 'second-harp':
      return NOTHING_HEARD;
  }
};

/** What is heard of the pedals then is heard otherwise as well. */
const heardThen = (heard: string, { damped }: Growth): Pick<OfferedFix, 'heard' | 'soundsSame'> => {
  const all = [...(heard === NOTHING_HEARD ? [] : [heard]), ...(damped === '' ? [] : [damped])];
  return { heard: all.length === 0 ? NOTHING_HEARD : all.join(' '), soundsSame: all.length === 0 };
};

/** What is told where nothing is heard otherwise. */
export const NOTHING_HEARD = 'Nothing.';

/** Notes that are changed together by what tells each from others. */
const namesIn = (score: Score, changes: readonly NoteChange[]): readonly string[] => {
  const notes = changes.map(({ note }) => notesById(score.notes).get(note)!);
  return notes.map((note) => nameMeant(score, note, notes));
};

/** Names, each once, with what is said of one or of several. */
const tellOf = (names: readonly string[], one: string, several: string): string => {
  const each = [...new Set(names)];
  return `${listNames(each)} ${each.length === 1 ? one : several}`;
};
