import type { Side } from '../harp/side.ts';
import { pitchName } from '../music/pitch.ts';
import { type Rational, rationalKey } from '../music/rational.ts';
import type { NoteChange } from '../sounding/changed-needs.ts';
import { nameBars, namePlaceInBar } from '../words/bars.ts';
import { capitalize, nameCount, uncapitalize } from '../words/counts.ts';
import type { FindingCode, LeverFindingCode, PedalFindingCode, Told } from './catalogue.ts';
import { describeHelp, type Help } from './help/help.ts';
import type { NoteHelp } from './help/note-help.ts';
import type { Severity } from './severity.ts';

/** One thing to know: what, where, why, and how to fix it. */
export interface Finding<Code extends FindingCode> extends FindingPlace {
  readonly code: Code;
  readonly severity: Severity;
  /** What the sentence is made of, to be told in another language. */
  readonly told: Told<Code>;
  /** Changes to notes that would fix it, each as a whole. */
  readonly fixes: readonly NoteFix[];
  /** What would help beside them. */
  readonly help: readonly Help[];
  /** The fixes and the help in words, each sentence once (`suggestionsOf`). */
  readonly suggestions: readonly string[];
  /** Every place that it is told of, at least one; the first is at `bar` and `beat`. */
  readonly places: readonly FindingPlace[];
}

/** One thing that the pedal planner found. */
export type PedalFinding = Finding<PedalFindingCode>;
/** One thing that the lever planner found. */
export type LeverFinding = Finding<LeverFindingCode>;

/** One place of a finding, and what goes wrong just there. */
export interface FindingPlace {
  /** Index into the score's bars, and its printed number. */
  readonly bar: number;
  readonly barNumber: string;
  /** How people are told of the bar (`nameBarIn`). */
  readonly barName: string;
  readonly beat: Rational;
  readonly staff: number | null;
  /** The hand that has the trouble; null where it is no matter of one hand. */
  readonly hand: Side | null;
  /** All the notes concerned, each once. */
  readonly notes: readonly string[];
  readonly sentence: string;
}

/** A set of changes to notes that fixes a place together. */
export interface NoteFix {
  /** What to do, and what that costs or saves. */
  readonly sentence: string;
  /** What to do, without its place and its cost. */
  readonly told: NoteHelp;
  readonly changes: readonly NoteChange[];
  /** By how much the whole plan then has more moves at the most, other fixes taken or not; below zero where it has fewer. */
  readonly moreMoves: number;
  /** Which of the places of its finding it is for: indices, in order. */
  readonly places: readonly number[];
}

/** A fix of the first place; before it is known whether it costs moves, it costs none. */
export const noteFix = (told: NoteHelp, changes: readonly NoteChange[], moreMoves = 0): NoteFix => ({
  sentence: describeFix(told, moreMoves),
  told,
  changes,
  moreMoves,
  places: [0],
});

/**
 * “Write B4 for the C♭5 in bar 3 (costs at most 2 more moves).” Where the music around the notes alone was planned, with
 * the pedals as before on either side, the whole may come to fewer.
 */
export const describeFix = (told: NoteHelp, moreMoves: number): string => {
  const cost = describeMoves(moreMoves);
  return cost === '' ? describeHelp(told) : describeHelp(told).replace(/\.$/, ` (${cost}).`);
};

const describeMoves = (more: number): string => {
  if (more === 0) return '';
  return more < 0
    ? `saves at least ${nameCount(-more, 'move')}`
    : `costs at most ${nameCount(more, 'more move')}`;
};

/** What would help in words: the fixes first. */
export const suggestionsOf = ({
  fixes,
  help,
  places,
}: Pick<Finding<FindingCode>, 'fixes' | 'help' | 'places'>): Finding<FindingCode>['suggestions'] => {
  const atAll = tellAtAll(fixes, places.length);
  return [
    ...new Set([
      ...(atAll?.sentences ?? []),
      ...fixes.filter((fix) => !atAll?.fixes.includes(fix)).map(({ sentence }) => sentence),
      ...help.map((each) => inPlaces(places, each.places, describeHelp(each))),
    ]),
  ];
};

/**
 * The first fix of every place of a passage, which keep what they promise together, in one sentence where they do alike.
 *
 * @example “At all 12 places: write A♭4 for the G♯4 (each costs at most 2 more moves).”
 */
const tellAtAll = (fixes: readonly NoteFix[], places: number) => {
  if (fixes.some((fix) => fix.places.length > 1)) return null;
  const firsts = firstFixes({ fixes });
  const [first] = firsts;
  if (places < 2 || first === undefined || firsts.length < places) return null;
  const alike = new Set(firsts.map(nameFix));
  const [what] = alike;
  if (alike.size > 1 || what === undefined) return null;
  const most = Math.max(...firsts.map(({ moreMoves }) => moreMoves));
  const cost = most > 0 ? ` (each ${describeMoves(most)})` : '';
  return {
    fixes: firsts,
    sentences: [`${places === 2 ? 'At both' : `At all ${places}`} places: ${what}${cost}.`],
  };
};

/** Of each place of a finding the first of its fixes, each once: those of all findings keep what they promise together. */
export const firstFixes = ({ fixes }: Pick<Finding<FindingCode>, 'fixes'>): readonly NoteFix[] =>
  fixes.filter((fix) => fix.places.some((at) => fixes.find(({ places }) => places.includes(at)) === fix));

/** What a fix does, whichever notes of these names it concerns. */
const nameFix = ({ told, changes }: NoteFix): string =>
  told.kind === 'change-notes'
    ? changes.map(nameAlike).sort().join(', ')
    : uncapitalize(describeHelp(told)).replace(/\.$/, '');

const nameAlike = (change: NoteChange): string =>
  change.kind === 'respell'
    ? `write ${pitchName(change.to)} for the ${pitchName(change.from)}`
    : `leave out the ${pitchName(change.from)}`;

/**
 * A sentence that is meant for some of the places of a finding: “Bar 2; bar 6, beat 1½: Damp F4.” The beat is told where
 * several are in the bar.
 *
 * @param meant indices; null where it is meant for all of them, which needs no words
 */
export const inPlaces = (
  places: readonly Pick<FindingPlace, 'bar' | 'barName' | 'beat'>[],
  meant: readonly number[] | null,
  sentence: string,
): string => {
  if (meant === null) return sentence;
  const names = meant.map((i) => {
    const { bar, barName, beat } = places[i]!;
    const isAlone = places.every((other, at) => at === i || other.bar !== bar);
    return isAlone ? nameBars(barName, barName) : namePlaceInBar(barName, rationalKey(beat));
  });
  return `${capitalize([...new Set(names)].join('; '))}: ${sentence}`;
};
