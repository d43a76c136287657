import type { PartSummary, Result } from '../../engine/problem.ts';
import { readMei } from '../../engine/score/mei/read.ts';
import type { Note } from '../../engine/score/model/note.ts';
import type { Score } from '../../engine/score/model/score.ts';
import { readMusicXml } from '../../engine/score/musicxml/read.ts';
import type { ParsedSource } from '../../engine/score/open.ts';

/** A note and the reading it belongs to. */
export interface ReadNote {
  readonly part: string;
  readonly score: Score;
  readonly note: Note;
}

const readPart = ({ source, root }: ParsedSource, part: string): Result<Score> =>
  source.format === 'mei' ? readMei(root, source, { part }) : readMusicXml(root, source, { part });

/** The parts of a score, learnt by asking for one that cannot be there. */
const partsOf = (parsed: ParsedSource): readonly PartSummary[] => {
  const answer = readPart(parsed, '\u0001');
  return !answer.ok && answer.problem.code === 'unknown-part' ? answer.problem.parts : [];
};

/** Every note of every part that has notes, by id; and the problem of each part that is refused. */
export const readAllParts = (
  parsed: ParsedSource,
): { readonly notes: ReadonlyMap<string, ReadNote>; readonly refused: readonly string[] } => {
  const notes = new Map<string, ReadNote>();
  const refused: string[] = [];
  const done = new Set<string>();
  for (const { id, notes: count } of partsOf(parsed)) {
    if (count === 0 || done.has(id)) continue;
    const result = readPart(parsed, id);
    if (!result.ok) {
      refused.push(`${id}: ${result.problem.code}`);
      continue;
    }
    for (const part of result.value.harp.partIds) done.add(part);
    for (const note of result.value.notes) notes.set(note.id, { part: id, score: result.value, note });
  }
  return { notes, refused };
};
