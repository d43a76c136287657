import { cutFacts } from '../cut.ts';
import { type AnyProblem, anyProblemMessage } from '../service-problem.ts';
import { describeSettings } from '../settings.ts';

/** How the program ends. `HELP` explains each. */
export const EXIT = {
  done: 0,
  /** The input was read, but refused. */
  refused: 1,
  usage: 2,
  /** A file, folder or port cannot be used. */
  system: 3,
  /** The markings of a file do not hold. */
  unclean: 4,
  /** A bug (70 is `EX_SOFTWARE` of BSD sysexits). */
  internal: 70,
} as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** How a command ended, and if badly, the sentence for the error output. */
export type Ending =
  | { readonly code: typeof EXIT.done }
  | { readonly code: Exclude<ExitCode, typeof EXIT.done>; readonly message: string };

/**
 * How a command ends for a file that a problem befell: by the options where they do not fit the file, else by the file.
 */
export const endWithProblem = (
  input: string,
  problem: AnyProblem,
): Exclude<Ending, { code: typeof EXIT.done }> => ({
  code: isOfOptions(problem) ? EXIT.usage : EXIT.refused,
  message: `${input}: ${anyProblemMessage(cutFacts(problem))}`,
});

const isOfOptions = ({ code }: AnyProblem): boolean =>
  code === 'bad-option' || code === 'unknown-option' || code === 'missing-option';

export const HELP = `tringle works out the pedals or levers of a harp part and prints them into the score.

  tringle annotate FILE [-o FILE] [options]
  tringle annotate FILE... --out-dir DIR [--to KIND] [options]
      reads MusicXML (.musicxml, .xml, .mxl) or MEI (.mei) and writes the part with its pedal markings
      -o, --output FILE   what to write, by its ending:
                            .pdf    the part (without -o: beside the input)
                            .svg    a drawing; of several pages, FILE-1.svg, FILE-2.svg ...
                            .json   a report: the setting, every move and why, the findings
                            .musicxml, .mxl, .mei   your own file with the markings in it
      --out-dir DIR       the folder for the results of many files; --to pdf, svg, json, musicxml, mxl or mei

  tringle plan FILE [--json] [options]
      prints the setting, every change and the findings

  tringle proof FILE... [--json] [--part PART] [--instrument HARP] [--foot-rest SECONDS]
      plays the part by the markings in the file alone, and tells what goes wrong and what mends it

  tringle compare FILE [--json] [--part PART] [--instrument HARP] [--tuning TUNING] [--farthest SEMITONES]
      tells how the part goes on a pedal harp and on a lever harp, and which other keys suit the lever harp better

  tringle glissandi "SOUND" [--from "D C B | E F G A"] [--json]
      finds settings for a chord, a scale or notes, such as "C whole tone" or "Eb9"

  tringle serve [--port N] [--host H]
      answers over HTTP; without options at PORT and HOST of the environment, else 127.0.0.1:8017

Options of annotate and plan:
  --part PART             the part by its id or name; without it the harp is looked for
  --instrument HARP       concert-harp, pedal-harp-46, -44 or -40, lever-harp-34, -38, -36, -27 or -22; without it the
                          part's name and sound tell
  --spelling keep, suggest or free                  --foot-rest SECONDS   between two moves of one foot
  --keep-markings         plan by the markings in the file
  --pedals-together, --cross-feet                   last resorts that may be taken
  --scordatura STRINGS    strings tuned otherwise, with cents: "A4 +50, B3 -50"
  --weights-NAME N        a price of the planner    --options FILE        any options as JSON
  --work FILE             your work on the part as JSON: pins, strings chosen, notes left out, settings put or dropped
  --saved-work=false      pass over the work that an earlier annotation saved in the file

For the lever harp:
  --tuning TUNING         a key such as "Eb major", seven note names, sparing, best-key or best
  --lever-seconds SECONDS a hand needs for one change
  --lever-look names or notes

Looks, for annotate:
  --setting-look diagram, letters-one-row or letters-two-rows    --naming english, german or fixed-do
  --placement below, above or between                           --density changes, settings or both
  --settings-start, --settings-after-rest-bars N, --settings-rehearsal-marks, --settings-glissandi,
  --settings-three-changes, --settings-system-start, --settings-page-start (each may be =false)
  --ring-changed  --paper a4, a3, letter or concert-part  --staff-mm N  --keep-breaks  --condense-rests=false
  --page-turns every-page, right-hand-pages or ignored  --file-markings  --number-impossible=false
  --string-colours none, c-red-f-black or c-red-f-blue  --respelled plain, bracketed or named

  --help, -h    this text
  --version     the version

Written to the output: one line for each finding that stops or warns, one for each remark on how the file was read,
and a last line that sums up. Errors are one line on the error output.

Ends with 0 done, 1 input refused, 2 command line not understood or not fit for the input, 3 a file or port cannot be used, 4 markings that need
mending, 70 a bug.

The service also reads from the environment:
${describeSettings()
  .map((line) => `  ${line}`)
  .join('\n')}
`;
