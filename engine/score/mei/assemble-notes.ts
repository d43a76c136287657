import { midiOf, pitchName } from '../../music/pitch.ts';
import { type Rational, rationalKey } from '../../music/rational.ts';
import type { HandWords, Note } from '../model/note.ts';
import type { NoteDraft } from './draft.ts';
import type { ReadLog } from './log.ts';
import { comparePlayingOrder } from './marks/mark-times.ts';
import type { Ties } from './marks/ties.ts';
import type { Sounding } from './resolve-pitches.ts';

interface Parts {
  readonly soundings: ReadonlyMap<NoteDraft, Sounding>;
  readonly ties: Ties;
  readonly arpeggios: ReadonlyMap<string, NonNullable<Note['arpeggio']>>;
  readonly letRing: ReadonlySet<NoteDraft>;
  readonly beams: ReadonlyMap<NoteDraft, string>;
  readonly hands: ReadonlyMap<NoteDraft, HandWords>;
  readonly log: ReadLog;
}

/** The notes of the harp in playing order, hidden doubles of printed ones left out. */
export const assembleNotes = (drafts: readonly NoteDraft[], parts: Parts): readonly Note[] => {
  const doubles = findDoubles(drafts, parts);
  const prolonged = prolongedByDoubles(doubles, parts.ties);
  const orders = countGraces(drafts);
  return drafts
    .filter((draft) => !doubles.has(draft))
    .toSorted(
      (a, b) => comparePlayingOrder(a, b) || (orders.get(a) ?? 0) - (orders.get(b) ?? 0) || a.staff - b.staff,
    )
    .map((draft): Note => {
      const { id, span, bar, staff, voice, onset, chord, role, tremolo, grace } = draft;
      const { pitch, ornament, harmonic } = parts.soundings.get(draft)!;
      return {
        id,
        span,
        bar,
        staff,
        voice,
        onset,
        duration: prolonged.get(draft) ?? draft.duration,
        pitch,
        chord,
        grace: grace && { order: orders.get(draft)!, slashed: grace.slashed },
        tiedFrom: tiedFrom(draft, doubles, parts),
        role,
        ornament,
        tremolo,
        harmonic,
        arpeggio: parts.arpeggios.get(chord) ?? null,
        letRing: draft.letRing || parts.letRing.has(draft),
        stem: draft.stem,
        beam: parts.beams.get(draft) ?? draft.beam,
        hand: parts.hands.get(draft) ?? null,
      };
    });
};

/** A hidden note that sounds as a printed one does, when it does, adds nothing. Gives the printed note for each. */
const findDoubles = (drafts: readonly NoteDraft[], parts: Parts): ReadonlyMap<NoteDraft, NoteDraft> => {
  const placeOf = (draft: NoteDraft): string =>
    `${rationalKey(draft.onset)} ${draft.grace === null} ${midiOf(parts.soundings.get(draft)!.pitch)} ${draft.written.letter}`;
  const hidden = drafts.filter((draft) => draft.role === 'hidden');
  if (hidden.length === 0) return new Map();
  const printed = new Map(
    drafts.filter((draft) => draft.role === 'played').map((draft) => [placeOf(draft), draft]),
  );
  return new Map(
    hidden.flatMap((draft) => {
      const double = printed.get(placeOf(draft));
      if (double !== undefined) parts.log.skip('hidden notes that double printed ones', draft.bar);
      return double === undefined ? [] : [[draft, double] as const];
    }),
  );
};

/** Lengths of printed notes whose hidden double is tied to a later note. */
const prolongedByDoubles = (
  doubles: ReadonlyMap<NoteDraft, NoteDraft>,
  ties: Ties,
): ReadonlyMap<NoteDraft, Rational> =>
  new Map(
    [...ties.values()].flatMap((from) => {
      const printed = doubles.get(from);
      return printed === undefined ? [] : [[printed, from.duration] as const];
    }),
  );

/** Graces that share an onset in a voice, counted over the bar line: one at a bar's end comes before the next bar's. */
const countGraces = (drafts: readonly NoteDraft[]): ReadonlyMap<NoteDraft, number> => {
  const counted = new Map<string, { count: number; chord: string }>();
  const orders = new Map<NoteDraft, number>();
  for (const draft of drafts) {
    if (draft.grace === null) continue;
    const place = `${draft.voice} ${rationalKey(draft.onset)}`;
    const last = counted.get(place);
    const count = last === undefined ? 0 : last.chord === draft.chord ? last.count : last.count + 1;
    counted.set(place, { count, chord: draft.chord });
    orders.set(draft, count);
  }
  return orders;
};

/** A tie holds one string: where its ends ask for two, the second note is plucked, and the user is told. */
const tiedFrom = (
  draft: NoteDraft,
  doubles: ReadonlyMap<NoteDraft, NoteDraft>,
  parts: Parts,
): string | null => {
  const from = parts.ties.get(draft);
  if (from === undefined) return null;
  const [start, end] = [parts.soundings.get(from)!.pitch, parts.soundings.get(draft)!.pitch];
  if (start.letter === end.letter && start.octave === end.octave && sameAlter(start.alter, end.alter)) {
    return (doubles.get(from) ?? from).id;
  }
  const bar = draft.bar;
  parts.log.remark(
    'skipped',
    bar,
    `A tie from ${pitchName(start)} to ${pitchName(end)} goes to another string, so the second note is plucked.`,
  );
  return null;
};

const sameAlter = (a: number, b: number): boolean => Math.abs(a - b) < 1e-9;
