import { TUNE_SORTS } from '../../../engine/index.ts';
import { SET_MUSIC } from '../../../render/pure.ts';
import { compareOptions } from '../../api/answers/comparison.ts';
import { describeHandouts, handoutLook } from '../../api/requests/handouts.ts';
import { markOptions, proofOptions } from '../../api/requests/options.ts';
import type { CommandName } from './command-flags.ts';
import { nameFlags } from './option-help.ts';

/** What says which music of a file is read, and for which harp. */
const READ = { part: true, tune: true, movement: true, instrument: true } as const;

/** What proofreading goes by beside what is read. */
const PROOF_BY = { footRestSeconds: true, tuning: true, leverSeconds: true, marksAt: true } as const;

/** What a proof reads, and whether it gives the file back. */
const PROOFED = { ...READ, repair: true } as const;

/** How each command is written and what it does, in the order in which they are listed. */
export const COMMAND_HELP: Readonly<Record<CommandName, () => string>> = {
  annotate: () => `  tringle annotate FILE [-o FILE] [options]
  tringle annotate FILE... --out-dir DIR [--to KIND] [--all-harps] [options]
      reads MusicXML (.musicxml, .xml, .mxl), MEI (.mei) or ABC (.abc) and writes the part with its pedal or lever
      changes; with --out-dir, every tune of a tune book
      -o, --output FILE   what to write, by its ending:
                            .pdf    the part (without -o, beside the input file)
                            .svg    drawings; several pages become FILE-1.svg, FILE-2.svg ...
                            .png    the same, painted
                            .json   a report: the opening setting, every move with its reasons, the findings
                            .musicxml, .mxl, .mei   your own file with the markings in it
      --out-dir DIR       the folder for the results of several files
      --to KIND           with --out-dir: pdf (if not given), svg, png, json, musicxml, mxl or mei`,
  plan: () => `  tringle plan FILE [--json] [options]
      prints the opening setting or tuning, every change and the findings`,
  proof: () => `  tringle proof FILE... [--json] [-o FILE] ${nameFlags(proofOptions.pick(PROOFED))}
          ${nameFlags(proofOptions.pick(PROOF_BY))}
          ${nameFlags(proofOptions.omit({ ...PROOFED, ...PROOF_BY, edits: true, page: true }))}
      follows only the markings in the file, and says what goes wrong for the player and how to fix it
      --repair -o FILE    writes the file with its own markings corrected
      -o FILE.pdf or .svg draws the part with each fault numbered and each edit beside it`,
  mark: () => `  tringle mark FILE [--json] [-o FILE.pdf|FILE.svg] [--points]
          ${nameFlags(markOptions.pick(READ))}
          ${nameFlags(markOptions.pick(PROOF_BY))}
          ${nameFlags(markOptions.pick({ language: true, naming: true, paper: true, staffMm: true }))}
      marks the pedals or levers that a pupil has written into a file: what is right, what has a better place and why,
      what is wrong and what sounds instead, what is missing; with -o on the pages, with --points with points`,
  compare: () => `  tringle compare FILE [--json]
          ${nameFlags(compareOptions.pick(READ))}
          ${nameFlags(compareOptions.omit(READ))}
      says how playable and how hard the part is on a pedal harp and on a lever harp, which other keys suit the lever
      harp better, and how it goes on the pedal harp in every key`,
  divide: () => `  tringle divide FILE [--out-dir DIR [--to KIND]] [--divide balanced|least] [options]
      says what a second harp must play at the least, and how a part goes that is divided between two players; with
      --out-dir it writes a part for each, in which the other's notes are grey, and as pages a score of both`,
  fixes: () => `  tringle fixes FILE [--json] [options of plan]
      for every place that is not playable the smallest fixes, each of them planned with: respell, move by an octave,
      leave out a doubled note, let a note wait, a slower tempo, a second harp;
      and up to which tempo the part is playable`,
  tunes:
    () => `  tringle tunes FILE... [--sort ${TUNE_SORTS.join('|')}] [--only 3,7,12] [--playable] [--as-tuned]
          [--most-changes N] [--set] [--csv] [--json] [-o FILE.pdf|FILE.svg]
          [--music ${SET_MUSIC.join('|')}]
          ${nameFlags(compareOptions.pick(READ))}
          ${nameFlags(compareOptions.omit(READ))}
      lists every tune of tune books, scores and ZIP archives for the lever harp: tuning, strings to retune,
      levers up, changes, difficulty and, with --max-semitones, better keys; with --set, the order of up to
      12 tunes in one tuning that needs the fewest lever changes between them, and what to set before each;
      its sheet can have the first bars of each tune, or their pages, after the table`,
  glissandi: () => `  tringle glissandi "SOUND" [--from "D C B | E F G A"] [--json]
      finds pedal settings for a chord, a scale or a list of notes, such as "Eb9", "C whole tone" or "C Eb Gb A";
      without a root, as "dim 7", for every root, those with the fewest moves first`,
  watch: () => `  tringle watch FILE [--serve [--port N]] [options of plan]
      prints the plan, and whenever the file is saved what changed: moves added, gone or moved, findings new or solved;
      ends with Ctrl-C; with --serve the web page shows it live, at an address that is printed and that nobody can
      guess: your decisions, their steps and your place stay, and it goes by the choices that you make there`,
  setting:
    () => `  tringle setting "D C# Bb | E F# G Ab" [--to SETTING] [--sound SOUND] [--foot-rest-seconds N] [--json]
  tringle setting FILE --bar N [--to SETTING] [--sound SOUND] [--json] [options of plan]
      tells the scales, chords and doubled strings of a pedal setting, or of the one at a bar of a score, and what each
      single move adds and takes; with --to the shortest way to another, with --sound the nearest for a sound`,
  handout: () => `  tringle handout NAME [-o FILE] ${nameFlags(handoutLook)}
      writes a wall chart as .pdf (NAME.pdf without -o) or .svg. The names:
${describeHandouts()
  .map((line) => `      ${line}`)
  .join('\n')}`,
  pack: () => `  tringle pack FILE... [-o FILE.pdf] [--set-title TITLE] [--only "3, 7; TITLE"] [options of annotate]
      binds several pieces, of files, tune books (all tunes, or those of --only) and ZIP archives, as one class set
      (class set.pdf without -o), with contents, a table of difficulty, what to set between pieces, and page numbers
      through; what cannot be read is named in it, the rest is done`,
  serve: () => `  tringle serve [--port N] [--host H]
      starts the web page and the HTTP service at 127.0.0.1:8017, or as these or the variables HOST and PORT say`,
};
