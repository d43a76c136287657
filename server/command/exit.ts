/** How the program ends. `HELP` explains each. */
export const EXIT = {
  done: 0,
  /** The input was read, but refused. */
  refused: 1,
  usage: 2,
  /** A file, folder or port cannot be used. */
  system: 3,
  /** A bug (70 is `EX_SOFTWARE` of BSD sysexits). */
  internal: 70,
} as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** How a command ended, and if badly, the sentence for the error output. */
export type Ending =
  | { readonly code: typeof EXIT.done }
  | { readonly code: Exclude<ExitCode, typeof EXIT.done>; readonly message: string };

export const HELP = `tringle works out the pedals of a harp part and prints them into the score.

  tringle annotate FILE [-o FILE] [--part PART]
      reads MusicXML (.musicxml, .xml, .mxl) or MEI (.mei) and writes the part with its pedal markings
      -o, --output FILE   what to write, by its ending:
                            .pdf    the part (without -o: beside the input)
                            .svg    a drawing; of several pages, FILE-1.svg, FILE-2.svg ...
                            .json   a report: the setting, every move and why, the findings
      --part PART         the part by its id or name; without it the harp is looked for

  tringle serve [--port N] [--host H]
      answers over HTTP; without options at PORT and HOST of the environment, else 127.0.0.1:8017

  --help, -h    this text
  --version     the version

Written to the output: one line for each finding that stops or warns, one for each remark on how the file was read,
and a last line that sums up. Errors are one line on the error output.

Ends with 0 done, 1 input refused, 2 command line not understood, 3 a file or port cannot be used, 70 a bug.
`;
