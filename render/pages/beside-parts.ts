import {
  fail,
  findCalled,
  type HarpPart,
  joinHarps,
  ok,
  type Result,
  readPart,
  readPartNames,
  type Score,
} from '../../engine/index.ts';
import type { StaffRange } from '../layout/spaces/reserve-spaces.ts';

/** The harp with the parts over it that its player reads along. */
export interface ScoreWithParts {
  /** Of all staves; the notes of the other parts are there to be read. */
  readonly score: Score;
  /** All parts, from the top. */
  readonly parts: readonly HarpPart[];
  readonly harpStaves: StaffRange;
}

/**
 * Reads the parts that stand beside the harp. They stand above it; a score in MEI keeps the order of its staves.
 *
 * @param names ids, names or words of names of parts of the score, as the option has them
 * @returns `unknown-part` for a name that none or several have, and the problems of reading
 */
export const readBeside = (score: Score, names: string): Result<readonly Score[]> => {
  const beside: Score[] = [];
  for (const name of readPartNames(names)) {
    const others = score.parts.filter(({ id }) => !score.harp.partIds.includes(id));
    const part = findCalled(others, name, (each) => ({ ids: [each.id], names: [each.name] }));
    if (part === undefined)
      return fail({ code: 'unknown-part', option: 'withPart', wanted: name, parts: others });
    if (beside.some(({ harp }) => harp.partIds.includes(part.id))) continue;
    const read = readPart(score, part.id);
    if (!read.ok) return read;
    beside.push(read.value);
  }
  return ok(beside);
};

/** Sets parts over the harp; what is the harp's own stays as it is. */
export const joinBeside = (score: Score, beside: readonly Score[]): ScoreWithParts => {
  const ordered = inOrder(score, beside);
  const joined = joinHarps(ordered.map((part) => (part === score ? part : readAlong(part))));
  const before = ordered.slice(0, ordered.indexOf(score)).reduce((sum, { harp }) => sum + harp.staves, 0);
  const after = ordered.at(-1) === score ? -1 : before + score.harp.staves - 1;
  return {
    score: {
      ...joined.score,
      harp: { ...joined.score.harp, name: score.harp.name, players: score.harp.players },
      // The bars of the page bear the ids by which the harp's own are known.
      bars: score.bars.map((bar, i) => ({ ...bar, span: joined.score.bars[i]!.span })),
      // A title may come from the name of the file.
      titles: score.titles,
      texts: score.texts,
      movements: score.movements,
      sharing: score.sharing,
      share: score.share,
    },
    parts: joined.harps,
    harpStaves: { top: before, bottom: after },
  };
};

const inOrder = (score: Score, beside: readonly Score[]): readonly Score[] => {
  if (score.source.format !== 'mei') return [...beside, score];
  const placeOf = ({ harp }: Score): number => score.parts.findIndex(({ id }) => harp.partIds.includes(id));
  return [...beside, score].sort((a, b) => placeOf(a) - placeOf(b));
};

/** Notes of another player, for the harpist to read. */
const readAlong = (part: Score): Score => ({
  ...part,
  notes: part.notes.map((note) => ({ ...note, role: 'cue' })),
});
