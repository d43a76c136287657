import { ENGLISH_NAMES, type NoteNames, type PedalAt } from '../findings/note-names.ts';
import type { LeverAt } from '../harp/lever-name.ts';
import type { Pitch } from '../music/pitch.ts';

/** What would help beside the edits of a finding, and the facts that its sentence names. */
const ADVICE = {
  'annotate-first': (_facts: Record<string, never>) => 'Annotate the part first.',
  'name-pedals': (_facts: Record<string, never>) => 'Print each name as a letter with ♭, ♮ or ♯.',
  'name-levers': (_facts: Record<string, never>) =>
    'Print each name as a letter with ♭, ♮ or ♯ and the octave of its string, or with “up” or “down”.',
  'print-missing': ({ changes }: { changes: readonly PedalAt[] }, names: NoteNames) =>
    `Print it as ${changes.map(names.change).join(', ')}, if that is what it means: that is what is missing in this bar.`,
  'print-levers-up': (_facts: Record<string, never>) => 'Print which levers are up before the first note.',
  /** `other` is the string on which the note could be played; null where there is none. */
  'note-against-note': ({ rival, other }: { rival: PedalAt; other: Pitch | null }, names: NoteNames) =>
    `No marking can help, because another note needs ${names.change(rival)} at the same time: ${other === null ? 'leave it out' : `play it as ${names.pitch(other)}`}, or give it to another harp.`,
  'lever-against-lever': ({ rival }: { rival: LeverAt }, names: NoteNames) =>
    `No marking can help, because another note needs ${names.lever(rival)} at the same time: leave one out, or give it to another harp.`,
  'respell-or-wait': (_facts: Record<string, never>) =>
    'Or respell one of the notes, or take more time here.',
  'omit-or-wait': (_facts: Record<string, never>) =>
    'Or leave a note out for the hand, or take more time here.',
  'too-many-mistakes': (_facts: Record<string, never>) =>
    'There are too many mistakes to try every fix. Make the fixes given elsewhere, then proofread again.',
} as const;

/** What can be advised beside edits. */
export type AdviceKind = keyof typeof ADVICE;

type FactsByKind = { readonly [Kind in AdviceKind]: Parameters<(typeof ADVICE)[Kind]>[0] };

/** What the sentence of an advice is made of. */
export type AdviceFacts<Kind extends AdviceKind> = FactsByKind[Kind];

/** What would help where no edit does, with the facts of which its sentence is made. */
export type Advice<Of extends AdviceKind = AdviceKind> = {
  readonly [Kind in Of]: { readonly kind: Kind; readonly facts: FactsByKind[Kind] };
}[Of];

/** The engine’s own words. */
export const ADVICE_SENTENCES: {
  readonly [Kind in AdviceKind]: (facts: FactsByKind[Kind], names: NoteNames) => string;
} = ADVICE;

export const describeAdvice = <Kind extends AdviceKind>({ kind, facts }: Advice<Kind>): string =>
  ADVICE_SENTENCES[kind](facts, ENGLISH_NAMES);
