import type { TuneFilter, TuneSort, TuneSummary } from '../../../engine/index.ts';
import type { HandoutName, SetMusic } from '../../../render/pure.ts';
import type { Address } from '../../address.ts';
import type { Outcome } from '../../service-problem.ts';
import type { OutputKind } from '../output-files.ts';
import type { GivenOptions } from './choice.ts';
import type { CommandName } from './command-flags.ts';

/** What the command line asks for. */
export type Command =
  | HelpCommand
  | { readonly kind: 'version' }
  | AnnotateCommand
  | PlanCommand
  | ProofCommand
  | MarkCommand
  | CompareCommand
  | FixesCommand
  | DivideCommand
  | TunesCommand
  | GlissandiCommand
  | SettingCommand
  | WatchCommand
  | HandoutCommand
  | PackCommand
  | ServeCommand;

/** About one command, or about all. */
interface HelpCommand {
  readonly kind: 'help';
  readonly about: CommandName | null;
}

interface ServeCommand {
  readonly kind: 'serve';
  readonly address: Address;
}

/** A file to read, and what is made of it. */
export interface FilePair {
  readonly input: string;
  readonly output: string;
  /** The tune of a tune book. */
  readonly tune?: TuneSummary;
  /** A score of an archive: `input` is then no path, but names both. */
  readonly packed?: PackedScore;
}

/** A score of an archive, unpacked when its turn comes. */
export interface PackedScore {
  readonly fileName: string;
  readonly unpack: () => Outcome<Uint8Array>;
}

export interface AnnotateCommand {
  readonly kind: 'annotate';
  readonly files: readonly FilePair[];
  readonly form: OutputKind;
  /** The folder that the outputs go to; null where one file is written by its own name. */
  readonly folder: string | null;
  readonly options: GivenOptions;
}

export interface PlanCommand {
  readonly kind: 'plan';
  readonly input: string;
  readonly json: boolean;
  readonly options: GivenOptions;
}

export interface ProofCommand {
  readonly kind: 'proof';
  readonly inputs: readonly string[];
  /** Where the corrected file or the report on pages goes; null where none is asked for. */
  readonly output: string | null;
  readonly json: boolean;
  readonly options: GivenOptions;
}

/** A pupil's attempt to be marked. */
export interface MarkCommand {
  readonly kind: 'mark';
  readonly input: string;
  /** Where the marked pages go; null where none are asked for. */
  readonly output: string | null;
  readonly json: boolean;
  readonly options: GivenOptions;
}

export interface FixesCommand {
  readonly kind: 'fixes';
  readonly input: string;
  readonly json: boolean;
  readonly options: GivenOptions;
}

export interface DivideCommand {
  readonly kind: 'divide';
  readonly input: string;
  /** The input's name without folder and ending. */
  readonly name: string;
  /** Null where nothing is written, and the answer is told. */
  readonly output: { readonly folder: string; readonly form: OutputKind } | null;
  readonly options: GivenOptions;
}

export interface CompareCommand {
  readonly kind: 'compare';
  readonly input: string;
  readonly json: boolean;
  readonly options: GivenOptions;
}

/** The tunes of files, as a table of what each asks of the player, or as a set. */
export interface TunesCommand extends TuneFilter {
  readonly kind: 'tunes';
  readonly inputs: readonly string[];
  readonly form: 'table' | 'csv' | 'json';
  /** A PDF or SVG to be written instead; null for none. */
  readonly output: string | null;
  /** In which order tunes are listed: as in the file, or by what they ask of the player. */
  readonly sort: TuneSort;
  /** Whether the best order for playing one after the other is wanted. */
  readonly set: boolean;
  /** What of its tunes a set holds. */
  readonly music: SetMusic;
  readonly options: GivenOptions;
}

export interface GlissandiCommand {
  readonly kind: 'glissandi';
  readonly json: boolean;
  readonly options: GivenOptions;
}

export interface WatchCommand {
  readonly kind: 'watch';
  readonly input: string;
  /** Where the page shows the file live; null where it is only printed. */
  readonly serve: Address | null;
  readonly options: GivenOptions;
}

export interface SettingCommand {
  readonly kind: 'setting';
  /** The score at a bar of which the pedals stand so; null where the setting itself is given. */
  readonly input: string | null;
  readonly json: boolean;
  readonly options: GivenOptions;
}

/** Several pieces as one class set. */
export interface PackCommand {
  readonly kind: 'pack';
  readonly inputs: readonly string[];
  readonly output: string;
  readonly options: GivenOptions;
}

export interface HandoutCommand {
  readonly kind: 'handout';
  readonly name: HandoutName;
  readonly output: string;
  readonly form: 'pdf' | 'svg';
  readonly options: GivenOptions;
}

/** The command, or the sentence that says why there is none. */
export type Parsed =
  | { readonly ok: true; readonly command: Command }
  | { readonly ok: false; readonly usage: string };

export interface Environment {
  readonly PORT?: string | undefined;
  readonly HOST?: string | undefined;
}
