import { bisector } from 'd3-array';
import { handFindings } from '../../findings/hands/hand-findings.ts';
import { KeptByText, perObject } from '../../memoize.ts';
import { compare } from '../../music/rational.ts';
import type { Note } from '../../score/model/note.ts';
import { notesById } from '../../score/notes-by-id.ts';
import type { NoteChange } from '../../sounding/changed-needs.ts';
import type { NeedList } from '../../sounding/needs.ts';
import { type PlannedPart, type Stretch, stringsOf } from './fix-trials.ts';

/** Moments on either side within which a hand can meet a changed string. */
const MOMENTS_NEAR = 8;

/** What goes wrong for the hands near some moments once notes are changed, in keys. */
export type HandTroubles = (changes: readonly NoteChange[], near: Stretch) => ReadonlySet<string>;

export const createHandTroubles = (part: PlannedPart): HandTroubles => {
  const { score, options, moments } = part.prepared;
  const played = stringsOf(part.problem);
  const known = troublesKnownOf(part.problem.listed);
  const byId = notesById(score.notes);
  const windowAround = ({ first, last }: Stretch): Stretch => ({
    first: Math.max(0, first - MOMENTS_NEAR),
    last: Math.min(moments.all.length - 1, last + MOMENTS_NEAR),
  });
  const search: HandTroubles = (changes, { first, last }) => {
    const [from, until] = [moments.all[first]!.at, moments.all[last]!.at];
    const notes = score.notes.slice(byOnset.left(score.notes, from), byOnset.right(score.notes, until));
    const strings = new Map(
      notes.flatMap(({ id }) => (played.has(id) ? [[id, played.get(id)!] as const] : [])),
    );
    const omitted = new Set(options.omitted);
    for (const change of changes) {
      if (change.kind === 'respell') strings.set(change.note, change.to);
      else omitted.add(change.note);
    }
    return new Set(
      handFindings({ score: { ...score, notes }, played: strings, omitted }, part.prepared).map(keyOfTrouble),
    );
  };
  return (changes, near) => {
    const around = windowAround(near);
    const own = changes.filter(({ note }) => {
      const moment = moments.ofNote(byId.get(note)!);
      return moment >= around.first && moment <= around.last;
    });
    return known.get(JSON.stringify([own, around]), () => search(own, around));
  };
};

/** What was found with the strings of one list of needs: the hands go by nothing else, but for the changes. */
const troublesKnownOf = perObject((_listed: NeedList) => new KeptByText<ReadonlySet<string>>(MOST_KEPT));

const MOST_KEPT = 8_000;

const byOnset = bisector((note: Note, at: Note['onset']) => compare(note.onset, at));

/**
 * The same for a finding, for one of its places and for the trouble that they tell of, in any plan of the part: of two notes
 * that are in each other's way one plan blames the one, and another the other.
 */
export const keyOfTrouble = ({
  code,
  notes,
}: {
  readonly code: string;
  readonly notes: readonly string[];
}): string => `${code} ${notes.toSorted().join(' ')}`;
