import { bisector, group } from 'd3-array';
import {
  add,
  type Bar,
  compare,
  equals,
  multiply,
  type Rational,
  rational,
  rationalKey,
  type Score,
  subtract,
} from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import type { Fence } from '../layout/spaces/reserve-spaces.ts';
import type { Standing } from '../layout/spaces/stance.ts';
import type { DrawnMarking } from './printed-markings.ts';

/** Has its middle at its moment, whatever is there. */
export const STANDS_OVER: Standing = {
  stance: 'over',
  begins: [],
  endsBefore: [],
  beginsInBar: false,
  endsInBar: false,
};

/** What is told before the first note. */
const BEGINS_WITH_BAR: Standing = { ...STANDS_OVER, stance: 'from', beginsInBar: true };

/**
 * Says of a marking how it stands to the notes of its moment. A change ends before the note that begins there and needs
 * it; where it is needed later, or nothing begins there, it begins at its moment and ends before the note in need; one that
 * must be made with its note begins there too, since before it, it would be read at the note before, and so does a setting.
 * Another setting inside a bar ends before what begins there, unless markings are printed at the note that needs them. A
 * setting that belongs to a bar as a whole begins with the bar, and what is for a player who comes back begins in it. A
 * change that is printed at the note that needs it has its middle there.
 */
export const standingFinder = (
  score: Score,
  marksAt: EngravingOptions['marksAt'],
): ((marking: DrawnMarking) => Standing) => {
  const events = listEvents(score);
  return (marking) => {
    if (marking.kind === 'levers' || marking.kind === 'tuning') return BEGINS_WITH_BAR;
    const { at, bar, graceNote } = marking;
    if (marksAt === 'note' && marking.kind === 'change') return STANDS_OVER;
    const here = events.at(at);
    // The names of strings are wide, and bar lines run through the room between the staves.
    const isWithinBar = marking.kind === 'lever-change' && !equals(at, score.bars[bar]!.onset);
    // Who comes back to a bar does not see what stands before it.
    const beginsInBar =
      marking.kind === 'setting' || (marking.kind === 'change' && marking.onReturn.length > 0) || isWithinBar;
    const endsInBar = marking.kind !== 'setting';
    const { onset, duration } = score.bars[bar]!;
    const nextNotes = events.nextNotes(at, add(onset, duration));
    if (beginsInBar && graceNote === null && equals(at, onset)) {
      // In a bar of rest it stands rather before the rest than over the bar line.
      const isSilent = here.notes.length === 0 && nextNotes.length === 0;
      const begins = [...here.notes, ...here.rests];
      return { stance: 'from', begins, endsBefore: [], beginsInBar, endsInBar: endsInBar || isSilent };
    }
    if (graceNote !== null)
      return { stance: 'before', begins: [], endsBefore: [graceNote], beginsInBar, endsInBar };
    const isUnderNote =
      marking.kind === 'setting'
        ? (marking.withNote || marksAt === 'note') && here.notes.length > 0
        : marking.kind === 'change' && marking.withNote;
    if (isUnderNote) return { stance: 'from', begins: here.notes, endsBefore: [], beginsInBar, endsInBar };
    // Under what sounds when the foot moves: further to the left it would be read as earlier than the old position's last note.
    if (marking.kind !== 'setting' && marking.neededLaterBy !== null && here.notes.length > 0)
      return {
        stance: 'from',
        begins: [...here.notes, ...here.rests],
        endsBefore: marking.neededLaterBy,
        beginsInBar: beginsInBar || marking.kind === 'lever-change',
        endsInBar,
      };
    if (here.notes.length > 0)
      return { stance: 'before', begins: [], endsBefore: here.notes, beginsInBar, endsInBar };
    return { stance: 'from', begins: here.rests, endsBefore: nextNotes, beginsInBar, endsInBar };
  };
};

/**
 * Finds the note beside a change of levers under which its name must not reach: the name of a string is as wide as a beat
 * of quick music. Before a note it begins behind the one before that; where its string is played later, it ends before the
 * next. Null where there is no such note in its bar.
 */
export const fenceFinder = (score: Score): ((marking: DrawnMarking, standing: Standing) => Fence | null) => {
  const inBars = group(
    score.notes.filter(({ role, grace }) => role === 'played' && grace === null),
    ({ bar }) => bar,
  );
  return (marking, { stance }) => {
    const { at, bar, graceNote } = marking;
    if (marking.kind !== 'lever-change' || graceNote !== null || stance === 'over') return null;
    // With words before its names it is wider than any music has room for.
    if (marking.onReturn.length > 0) return null;
    const onsets = (inBars.get(bar) ?? []).map(({ onset }) => onset).sort(compare);
    const side = stance === 'before' ? 'behind' : 'before';
    const beside =
      side === 'behind'
        ? onsets.findLast((onset) => compare(onset, at) < 0)
        : (onsets.find((onset) => compare(onset, at) > 0) ?? lateIn(score.bars[bar]!, at));
    return beside === undefined ? null : { at: beside, side };
  };
};

/** Shortly before the end of a bar, which is no place in it. */
const lateIn = ({ onset, duration }: Bar, at: Rational): Rational => {
  const end = add(onset, duration);
  return subtract(end, multiply(subtract(end, at), rational(1, 8)));
};

interface EventsAt {
  readonly notes: string[];
  readonly rests: string[];
}

const NOTHING: EventsAt = { notes: [], rests: [] };

/** What is printed when, by ids. */
const listEvents = (score: Score) => {
  const events = new Map<string, EventsAt>();
  const onsets: Rational[] = [];
  const eventsAt = (onset: Rational): EventsAt => {
    const key = rationalKey(onset);
    const known = events.get(key) ?? { notes: [], rests: [] };
    events.set(key, known);
    return known;
  };
  for (const { id, role, onset, grace } of score.notes) {
    if (role !== 'played') continue;
    const { notes } = eventsAt(onset);
    if (grace === null || notes.length === 0) onsets.push(onset);
    notes.push(id);
  }
  for (const { id, onset } of score.rests) eventsAt(onset).rests.push(id);
  return {
    at: (moment: Rational): EventsAt => events.get(rationalKey(moment)) ?? NOTHING,
    /** The notes of the next onset before the end; none where the rest of the bar is silent. */
    nextNotes: (moment: Rational, end: Rational): readonly string[] => {
      const next = onsets[firstAfter(onsets, moment)];
      return next === undefined || compare(next, end) >= 0
        ? []
        : (events.get(rationalKey(next))?.notes ?? []);
    },
  };
};

const firstAfter: (onsets: readonly Rational[], moment: Rational) => number = bisector(compare).right;
