import { group } from '../../group.ts';
import { perObject } from '../../memoize.ts';
import type { Note } from '../../score/model/note.ts';
import { notesById } from '../../score/notes-by-id.ts';
import type { NoteChange, Respelled } from '../../sounding/changed-needs.ts';
import { otherPedalStrings, writtenString } from '../../sounding/needs.ts';
import { isTaken } from '../../sounding/taken-string.ts';
import { needsByNote } from './bearing.ts';
import type { PlannedPart } from './fix-trials.ts';
import { areAllAlike } from './likeness.ts';

/** Bars from one note to the next of the same run: one bar between them may be without. */
const BARS_APART = 2;
/** Bars with the name before and after that are respelled with those of a place. */
const MOST_BARS = 4;

/**
 * Some respelled notes with more and more of those that go the same way: the notes of their letter and accidental, in any
 * octave, that stand in the same bars and in bars in a row with them. While one of them is left as it is, the pedal has to
 * go back for it.
 *
 * @returns sets of more notes than were given, the smallest first; none where the notes are not all respelled alike
 */
export const runsOfName = (
  part: PlannedPart,
  changes: readonly NoteChange[],
): readonly (readonly Respelled[])[] => {
  const [first] = changes;
  if (first?.kind !== 'respell' || !areAllAlike(changes)) return [];
  const byId = notesById(part.prepared.score.notes);
  const around = changes.map(({ note }) => byId.get(note)!.bar);
  const byBar = group(respelledAlike(part, first, around), ({ bar }) => bar);
  const bars = [...byBar].flatMap(([bar, all]) => (all.every(({ change }) => change !== null) ? [bar] : []));
  const changed = new Set(changes.map(({ note }) => note));
  const own = bars.filter((bar) => byBar.get(bar)!.some(({ change }) => changed.has(change!.note)));
  if (own.length === 0) return [];
  const before = inARow(bars.filter((bar) => bar < own[0]!).reverse(), own[0]!);
  const after = inARow(
    bars.filter((bar) => bar > own.at(-1)!),
    own.at(-1)!,
  );
  const between = bars.filter((bar) => bar >= own[0]! && bar <= own.at(-1)!);
  return reaches(before.length, after.length)
    .map(([back, on]) => [...before.slice(0, back), ...between, ...after.slice(0, on)])
    .map((some) =>
      some.toSorted((a, b) => a - b).flatMap((bar) => byBar.get(bar)!.map(({ change }) => change!)),
    )
    .filter(({ length }) => length > changes.length);
};

/** The notes of the name in the bars around some, in order, with what becomes of each; null where it has no such string, or that is taken. */
const respelledAlike = (
  { prepared: { score, options }, problem }: PlannedPart,
  { from: { letter, alter }, to: asked }: Respelled,
  around: readonly number[],
): readonly { readonly bar: number; readonly change: Respelled | null }[] => {
  const reach = MOST_BARS * BARS_APART;
  const [from, until] = [Math.min(...around) - reach, Math.max(...around) + reach];
  const byBar = notesByBar(score.notes);
  const near = Array.from({ length: until - from + 3 }, (_, i) => byBar.get(from - 1 + i) ?? []).flat();
  const needsOf = needsByNote(problem.needs);
  const notes = near.filter(
    ({ id, bar }) =>
      bar >= from &&
      bar <= until &&
      (needsOf.get(id) ?? []).some(
        ({ need }) => need.letter === letter && need.position === alter && need.kind === 'plucked',
      ),
  );
  return [...new Set(notes)].map((note) => {
    const own = writtenString(note);
    const to = otherPedalStrings(own, options.profile, options.scordatura).find(
      (other) => other.letter === asked.letter && other.alter === asked.alter,
    );
    const isOpen = own.letter === letter && to !== undefined && !isTaken({ notes: near }, note, to);
    return { bar: note.bar, change: isOpen ? { kind: 'respell', note: note.id, from: own, to } : null };
  });
};

const notesByBar = perObject((notes: readonly Note[]) => group(notes, ({ bar }) => bar));

/** The nearest of some bars, as far as each is near the one before it. */
const inARow = (nearestFirst: readonly number[], from: number): readonly number[] => {
  const end = nearestFirst.findIndex((bar, i) => Math.abs(bar - (nearestFirst[i - 1] ?? from)) > BARS_APART);
  return nearestFirst.slice(0, end < 0 ? MOST_BARS : Math.min(end, MOST_BARS));
};

/** How many bars before and after, the fewest first. */
const reaches = (before: number, after: number): readonly (readonly [number, number])[] =>
  Array.from({ length: before + 1 }, (_, back) =>
    Array.from({ length: after + 1 }, (_each, on) => [back, on] as const),
  )
    .flat()
    .filter(([back, on]) => back + on <= MOST_BARS)
    .toSorted(([back, on], [other, others]) => back + on - other - others);
