import { uncapitalize } from '../../words/counts.ts';
import type { NoteNames } from '../note-names.ts';
import { describeNoteHelp, NOTE_HELP, type NoteHelp } from './note-help.ts';
import { PLAYING_HELP } from './playing-help.ts';
import { STRING_HELP } from './string-help.ts';

/** All that can be said of what would help, each with the facts that its sentence names. */
const HELP = {
  ...NOTE_HELP,
  ...STRING_HELP,
  ...PLAYING_HELP,
  /** Of several fixes that cannot be made together. */
  'without-other-fixes': ({ fix }: { fix: NoteHelp }) =>
    `Without the other fixes: ${uncapitalize(describeNoteHelp(fix))}`,
} as const;

/** What can be advised where something cannot be played, or hardly. */
export type HelpKind = keyof typeof HELP;

type FactsByKind = { readonly [Kind in HelpKind]: Parameters<(typeof HELP)[Kind]>[0] };

/** What the sentence of an advice is made of. */
export type HelpFacts<Kind extends HelpKind> = FactsByKind[Kind];

/** What would help, as data: pitches, strings and numbers, to be told in any language. */
export type ToldHelp<Of extends HelpKind = HelpKind> = {
  readonly [Kind in Of]: { readonly kind: Kind; readonly facts: FactsByKind[Kind] };
}[Of];

/** What would help at places of a finding. */
export type Help = ToldHelp & {
  /** Which of the places of its finding it is for: indices, in order; null where it is for all of them. */
  readonly places: readonly number[] | null;
};

/** The engine’s own words. */
export const HELP_SENTENCES: {
  readonly [Kind in HelpKind]: (facts: FactsByKind[Kind], names?: NoteNames) => string;
} = HELP;

/** Help of a kind for a whole finding; the compiler sees to its facts. */
export const help = <Kind extends HelpKind>(kind: Kind, facts: HelpFacts<Kind>): Help =>
  ({ kind, facts, places: null }) as Help;

export const describeHelp = <Kind extends HelpKind>({ kind, facts }: ToldHelp<Kind>): string =>
  HELP_SENTENCES[kind](facts);
