import type { FindingPlace } from '../../findings/model.ts';
import { group } from '../../group.ts';
import { FEET, footOf } from '../../harp/setting.ts';
import { compare } from '../../music/rational.ts';
import type { Note } from '../../score/model/note.ts';
import type { Score } from '../../score/model/score.ts';
import { notesById } from '../../score/notes-by-id.ts';
import { isPlucked } from '../../score/plucked.ts';
import type { Respelled } from '../../sounding/changed-needs.ts';
import { otherPedalStrings, writtenString } from '../../sounding/needs.ts';
import { isTaken } from '../../sounding/taken-string.ts';
import { kindOfChange } from '../fixes/likeness.ts';
import type { Plan } from '../model.ts';
import type { PlanOptions } from '../options.ts';
import { type Candidate, octavesOf } from './note-candidates.ts';

/** The nearest notes of a foot that are respelled one by one, with all near ones of their name, and two by two. */
const MOST_SINGLE = 12;
const MOST_NEAR = 24;
const MOST_PAIRED = 8;

/**
 * Notes near a place that may go to other strings so that its foot has less to do: notes on the pedals of that foot, the
 * nearest first, on strings that nothing else is plucked on then.
 *
 * @param secondsAt clock time of a score time
 * @returns sets of them in steps, the smallest first: single notes, all near notes of one name, pairs
 */
export const respellingsNear = (
  score: Score,
  { respellings }: Plan,
  place: FindingPlace,
  { profile, scordatura, omitted }: Pick<PlanOptions, 'profile' | 'scordatura' | 'omitted'>,
  secondsAt: (at: Note['onset']) => number,
): readonly (readonly Candidate[])[] => {
  const late = notesById(score.notes).get(place.notes[0] ?? '');
  if (late === undefined) return [];
  const letters = FEET[footOf(writtenString(late).letter)];
  const decided = new Set([...omitted, ...respellings.map(({ note }) => note)]);
  const away = (note: Note): number => Math.abs(secondsAt(note.onset) - secondsAt(late.onset));
  const near = score.notes
    .filter((note) => isPlucked(note) && note.tiedFrom === null && !decided.has(note.id))
    .filter((note) => letters.includes(writtenString(note).letter))
    .sort((a, b) => away(a) - away(b) || compare(a.onset, b.onset))
    .slice(0, MOST_NEAR);
  const changes = near.map((note): readonly Respelled[] => {
    const from = writtenString(note);
    return otherPedalStrings(from, profile, scordatura)
      .filter((to) => !isTaken(score, note, to))
      .map((to) => ({ kind: 'respell', note: note.id, from, to }));
  });
  return [
    changes.slice(0, MOST_SINGLE).flatMap((ways) => ways.map((change) => [change])),
    [...group(changes.flat(), kindOfChange).values()].filter(({ length }) => length > 1),
    pairsOf(changes.slice(0, MOST_PAIRED)),
  ];
};

/** The octaves of each note of a place respelled together, on strings of one other name that nothing else is plucked on then. */
export const octavesRespelled = (
  score: Score,
  { notes }: FindingPlace,
  { profile, scordatura }: Pick<PlanOptions, 'profile' | 'scordatura'>,
): readonly Candidate[] =>
  octavesOf(score, notes)
    .filter(({ length }) => length > 1)
    .flatMap((octaves) => {
      const ways = octaves.flatMap((note): Respelled[] => {
        const from = writtenString(note);
        return otherPedalStrings(from, profile, scordatura)
          .filter((to) => !isTaken(score, note, to))
          .map((to) => ({ kind: 'respell', note: note.id, from, to }));
      });
      return [...group(ways, kindOfChange).values()].filter(({ length }) => length === octaves.length);
    });

const pairsOf = (changes: readonly (readonly Respelled[])[]): readonly Candidate[] =>
  changes.flatMap((ways, i) =>
    ways.flatMap((one) => changes.slice(i + 1).flatMap((others) => others.map((other) => [one, other]))),
  );
