import { ENGLISH_NAMES, nameHeardString } from '../../findings/note-names.ts';
import type { Score } from '../../score/model/score.ts';
import { listRunsIn } from '../../words/bar-names.ts';
import { listNames } from '../../words/lists.ts';
import type { Plan } from '../model.ts';

/** A string that rings where its pedal moves. */
interface RingingString {
  /** An index. */
  readonly bar: number;
  /** As the player reads it. */
  readonly name: string;
}

const ringingIn = ({ findings }: Plan): readonly RingingString[] =>
  findings.flatMap(({ help, places }) =>
    help.flatMap((each) =>
      each.kind !== 'damp-earlier'
        ? []
        : (each.places ?? [...places.keys()]).flatMap((at) =>
            each.facts.sounding.map((string) => ({
              bar: places[at]!.bar,
              name: nameHeardString(string, ENGLISH_NAMES),
            })),
          ),
    ),
  );

/**
 * That strings do not ring as long as they are written, where a plan moves their pedals and the one before it does not.
 *
 * @returns empty where there are none
 * @example tellDamped(score, before, after) // 'E4 has to be damped early, or is heard to bend (bar 12).'
 */
export const tellDamped = (score: Score, before: Plan, after: Plan): string => {
  const had = new Set(ringingIn(before).map(keyOf));
  const ringing = ringingIn(after).filter((each) => !had.has(keyOf(each)));
  if (ringing.length === 0) return '';
  const names = [...new Set(ringing.map(({ name }) => name))];
  const bars = [...new Set(ringing.map(({ bar }) => bar))].sort((a, b) => a - b);
  const [have, are] = names.length === 1 ? ['has', 'is'] : ['have', 'are'];
  return `${listNames(names)} ${have} to be damped early, or ${are} heard to bend (${listRunsIn(score)(bars)}).`;
};

const keyOf = ({ bar, name }: RingingString): string => `${bar} ${name}`;
