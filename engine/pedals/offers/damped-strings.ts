import { ENGLISH_NAMES, type HeardString, nameHeardString } from '../../findings/note-names.ts';
import { isSamePitch } from '../../music/pitch.ts';
import type { Score } from '../../score/model/score.ts';
import { notesById } from '../../score/notes-by-id.ts';
import { writtenString } from '../../sounding/needs.ts';
import { listRunsIn } from '../../words/bar-names.ts';
import { listNames } from '../../words/lists.ts';
import type { Plan } from '../model.ts';

/** A string that rings where its pedal moves. */
interface RingingString {
  /** An index. */
  readonly bar: number;
  /** As the player reads it. */
  readonly name: string;
  /** The ids of what rings on it; none for what is not printed. */
  readonly notes: readonly string[];
}

const ringingIn = (score: Score, { findings }: Plan): readonly RingingString[] =>
  findings.flatMap(({ help, places }) =>
    help.flatMap((each) =>
      each.kind !== 'damp-earlier'
        ? []
        : (each.places ?? [...places.keys()]).flatMap((at) =>
            each.facts.sounding.map((string) => ({
              bar: places[at]!.bar,
              name: nameHeardString(string, ENGLISH_NAMES),
              notes: notesOn(score, places[at]!.notes, string),
            })),
          ),
    ),
  );

const notesOn = (score: Score, ids: readonly string[], { written }: HeardString): readonly string[] =>
  ids.filter((id) => isSamePitch(writtenString(notesById(score.notes).get(id)!), written));

/**
 * That strings do not ring as long as they are written, where a plan moves their pedals and the one before it does not: a string
 * that is plucked again rings anew.
 *
 * @returns empty where there are none
 * @example tellDamped(score, before, after) // 'E4 has to be damped early, or is heard to bend (bar 12).'
 */
export const tellDamped = (score: Score, before: Plan, after: Plan): string => {
  const had = new Set(ringingIn(score, before).flatMap(keysOf));
  const ringing = ringingIn(score, after).filter((each) => keysOf(each).some((key) => !had.has(key)));
  if (ringing.length === 0) return '';
  const names = [...new Set(ringing.map(({ name }) => name))];
  const bars = [...new Set(ringing.map(({ bar }) => bar))].sort((a, b) => a - b);
  const [have, are] = names.length === 1 ? ['has', 'is'] : ['have', 'are'];
  return `${listNames(names)} ${have} to be damped early, or ${are} heard to bend (${listRunsIn(score)(bars)}).`;
};

const keysOf = ({ bar, name, notes }: RingingString): readonly string[] =>
  notes.length === 0 ? [`${bar} ${name}`] : notes;
