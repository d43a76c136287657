import {
  amount,
  amountOrNever,
  type Catalogue,
  entry,
  group,
  namedOrOwn,
  ok,
  oneOf,
  readPartNames,
  text,
  yesOrNo,
} from '../engine/index.ts';
import { describeLooks, labelLooks } from './looks/describe-looks.ts';
import { LEVER_LOOKS } from './looks/lever-looks.ts';
import { SETTING_LOOKS } from './looks/setting-looks.ts';
import { labelLanguages } from './words/language.ts';

interface Size {
  readonly widthMm: number;
  readonly heightMm: number;
}

export const PAPERS = {
  a4: { widthMm: 210, heightMm: 297 },
  letter: { widthMm: 215.9, heightMm: 279.4 },
  // 9 x 12 in, the size of orchestral parts (common practice, no source).
  'concert-part': { widthMm: 228.6, heightMm: 304.8 },
  a3: { widthMm: 297, heightMm: 420 },
} as const satisfies Readonly<Record<string, Size>>;

export type PaperName = keyof typeof PAPERS;

const PAPER_WORDS: Readonly<Record<PaperName, string>> = {
  a4: 'A4',
  letter: 'Letter',
  'concert-part': '9 × 12 in',
  a3: 'A3',
};

const USUAL_PAPER = 'a4' satisfies PaperName;

/** What can be laid out at all: smaller or larger is no part for a stand. */
const STAFF_MM_LIMITS = { least: 3, most: 14 } as const;
const PAPER_MM_LIMITS = { least: 100, most: 1000 } as const;

const paperSide = (label: string, description: string, usual: number) =>
  amount({
    label,
    description,
    unit: 'millimetres',
    default: usual,
    ...PAPER_MM_LIMITS,
    step: null,
    offered: null,
  });

const occasion = (label: string, usual: boolean) =>
  yesOrNo({ label, description: `${label}.`, default: usual });

/** What a user may choose about how the printed page looks. */
export const ENGRAVING_CATALOGUE = {
  level: entry(
    'both',
    'markings',
    oneOf({
      label: 'Level of the player',
      description:
        'How much the pages tell, for whom. beginner: a setting or a table of the levers at every line, every change in words the first time, strings in colours, beats counted in every bar, every bar numbered, a legend, and a staff of 8 mm; intermediate: a setting or a table at every page and, of pedals, after rests of two bars, strings in colours, beats counted where something changes, a legend; advanced: as for the stand. Options that are given win over what a level has.',
      values: { beginner: 'beginner', intermediate: 'intermediate', advanced: 'advanced' },
      default: 'advanced',
    }),
  ),
  settingLook: entry(
    'pedal',
    'markings',
    oneOf({
      label: 'Full settings',
      description: `How a full setting is printed. ${describeLooks(SETTING_LOOKS)}.`,
      values: labelLooks(SETTING_LOOKS),
      default: 'diagram',
    }),
  ),
  leverLook: entry(
    'lever',
    'markings',
    oneOf({
      label: 'Lever changes',
      description: `How a change of a lever is shown. ${describeLooks(LEVER_LOOKS)}.`,
      values: labelLooks(LEVER_LOOKS),
      default: 'names',
    }),
  ),
  settingMm: entry(
    'both',
    'markings',
    amountOrNever({
      label: 'Width of full settings',
      description:
        'Width of a full setting, or of the table of the levers, whatever the height of the staff; null for as large as the staff asks. The opening setting of a study edition is never smaller than usual.',
      unit: 'millimetres',
      default: null,
      least: 8,
      most: 900,
      step: null,
      offered: { values: [15, 20, 30, 40, 60, 80, 120, 160], words: '{}' },
      never: 'as large as the staff asks',
    }),
  ),
  changeWords: entry(
    'both',
    'markings',
    yesOrNo({
      label: 'Tell each change in words the first time',
      description:
        'Where a pedal or a lever is first changed so, the pages tell it in words too, in the language of the sheets: “F to sharp, right foot”.',
      default: false,
    }),
  ),
  leverTables: entry(
    'lever',
    'markings',
    oneOf({
      label: 'Table of the levers',
      description:
        'Where the table of the levers is printed: before the first note alone, or again as the levers then stand at each page or each line.',
      values: { start: 'before the first note', 'each-page': 'at each page', 'each-line': 'at each line' },
      default: 'start',
    }),
  ),
  leverHands: entry(
    'lever',
    'markings',
    yesOrNo({
      label: 'Name the hand that changes a lever',
      description: 'Print before the name of each lever change which hand makes it: l.h. or r.h.',
      default: false,
    }),
  ),
  naming: entry(
    'both',
    'markings',
    oneOf({
      label: 'Note names',
      description:
        'How notes are named in letters: C♯ D♭ B♮, Cis Des H, Do♯ Ré♭ Si♮, or Do♯ Re♭ Si♮. If it is not given, as the language of the sheets names them.',
      values: {
        english: 'English',
        german: 'German',
        'fixed-do': 'fixed do (French)',
        italian: 'fixed do (Italian, Spanish)',
      },
      default: 'english',
    }),
  ),
  placement: entry(
    'both',
    'markings',
    oneOf({
      label: 'Position of markings',
      description:
        'Where the markings stand: below the lowest staff of a system, above its highest, or between its staves.',
      values: { below: 'below the staves', above: 'above the staves', between: 'between the staves' },
      // Below or above both staves, never between (Harp Notation, Sibelius Academy, Helsinki).
      default: 'below',
      // Common practice, no source.
      leverDefault: 'between',
    }),
  ),
  density: entry(
    'pedal',
    'markings',
    oneOf({
      label: 'What is printed',
      description: 'What is printed: every change, full settings only, or both.',
      values: { both: 'settings and changes', changes: 'changes only', settings: 'settings only' },
      default: 'both',
    }),
  ),
  marksAt: entry(
    'pedal',
    'markings',
    oneOf({
      label: 'Changes stand',
      description:
        'Where a change is printed: where the foot moves, or at the note that needs it, where a remark tells which changes must be made earlier. The plan is the same.',
      values: { foot: 'where the foot moves', note: 'at the note that needs them' },
      // Common practice, no source; composers often write the other.
      default: 'foot',
    }),
  ),
  circleChanged: entry(
    'pedal',
    'markings',
    yesOrNo({
      label: 'Circle the pedals that have changed',
      description: 'Circle the pedals that have changed since the last full setting.',
      default: false,
    }),
  ),
  numberUnplayable: entry(
    'both',
    'markings',
    yesOrNo({
      label: 'Number the places that are not playable',
      description: 'Number the places on the pages that are not playable.',
      default: true,
    }),
  ),
  legend: entry(
    'both',
    'markings',
    yesOrNo({
      label: 'Explain the markings after the last line',
      description:
        'Explain how the markings are read: after the last line of music, or in a study edition on a sheet before the part, with a picture of the pedals or the levers.',
      default: false,
    }),
  ),
  fileMarkings: entry(
    'both',
    'markings',
    yesOrNo({
      label: 'Keep the markings in the file beside tringle’s',
      description:
        'Print the pedal markings of the file beside those of tringle, and leave them in your own file. Otherwise they are replaced.',
      default: false,
    }),
  ),
  fileSettings: entry(
    'pedal',
    'markings',
    oneOf({
      label: 'Full settings in your own file',
      description:
        'How a full setting is written into your own file: as a diagram, or as a diagram and in words, since not every program draws the diagrams.',
      values: { diagrams: 'as diagrams', both: 'as diagrams and in words' },
      default: 'diagrams',
    }),
  ),
  settings: entry(
    'pedal',
    'settings',
    group('Where a full setting is printed.', {
      start: occasion('Before the first note', true),
      movements: occasion('At the start of each movement', true),
      rehearsalMarks: occasion('At rehearsal marks', true),
      glissandi: occasion('Before each glissando', true),
      keyChangeLetters: amountOrNever({
        label: 'At a change of key',
        description: 'At a change of key signature that changes at least this many letters; null for never.',
        unit: 'letters',
        default: 3,
        least: 1,
        most: 7,
        step: 1,
        offered: { values: [1, 2, 3, 4, 5], words: 'of {} letters or more' },
        never: 'never',
      }),
      // At one moment or within one silence.
      threeChanges: occasion('Where three or more pedals change', true),
      systemStart: occasion('At the start of each system', false),
      pageStart: occasion('At the start of each page', false),
      afterRestBars: amountOrNever({
        label: 'After a rest',
        description: 'After a rest of at least this many whole bars; null for never.',
        unit: 'bars',
        default: 4,
        least: 1,
        most: 1000,
        step: 1,
        offered: { values: [1, 2, 4, 8, 16], words: 'of {} or more' },
        never: 'never',
      }),
    }),
  ),
  edition: entry(
    'both',
    'page',
    oneOf({
      // On the page a download of its own.
      label: null,
      description:
        'What the pages hold. part: the part alone; study: the part with a title page, a pedal chart of the whole piece or a tuning sheet for the levers, the feet or the levers alone with counts, tables of the moves and of the difficulty, the hard spots with exercises, and the findings in words; exercise: the part without its settings and changes, for a pupil to write them in, and the solution on the last pages; card: a summary of the piece on one card of its own size, for a page of the web or a catalogue.',
      values: {
        part: 'the part alone',
        study: 'study edition',
        exercise: 'exercise with its solution',
        card: 'summary card',
      },
      default: 'part',
    }),
  ),
  blanks: entry(
    'both',
    'study',
    oneOf({
      label: 'Blanks in an exercise',
      description:
        'What the pages of an exercise have where settings and changes belong: a box for each, or nothing, so that the pupil finds the places too.',
      values: { boxes: 'a box for each', none: 'nothing' },
      default: 'boxes',
    }),
  ),
  language: entry(
    'both',
    'study',
    oneOf({
      label: 'Language of the sheets',
      description:
        'The language of the sheets of a study edition, of an exercise, of a class set, of the summary card and of wall charts; note names follow it. In languages other than English findings are told in a sentence each, with their fixes. So are the words before a tempo that was decided on. The other markings on the pages of music and remarks stay in English.',
      values: labelLanguages(),
      default: 'english',
    }),
  ),
  paper: entry(
    'both',
    'page',
    namedOrOwn({
      label: 'Paper',
      description: 'A paper by name, or its size in millimetres.',
      values: PAPER_WORDS,
      default: USUAL_PAPER,
      own: 'custom size',
      members: {
        widthMm: paperSide('Width in mm', 'Width of the paper.', PAPERS[USUAL_PAPER].widthMm),
        heightMm: paperSide('Height in mm', 'Height of the paper.', PAPERS[USUAL_PAPER].heightMm),
      },
    }),
  ),
  staffMm: entry(
    'both',
    'page',
    amount({
      label: 'Staff height',
      description: 'Height of one staff, from its lowest to its highest line.',
      unit: 'millimetres',
      // Usual in parts (common practice, no source).
      default: 7,
      ...STAFF_MM_LIMITS,
      step: null,
      offered: { values: [5, 6, 7, 8, 9, 10, 12, 14], words: '{}' },
    }),
  ),
  pageTurns: entry(
    'both',
    'page',
    oneOf({
      label: 'Page turns',
      description:
        'Which pages should end where the player has time to turn: every one (sheets, screens), right-hand pages only (a bound part), or none.',
      values: {
        'right-hand-pages': 'after right-hand pages',
        'every-page': 'after every page',
        anywhere: 'anywhere',
      },
      default: 'right-hand-pages',
    }),
  ),
  turnWords: entry(
    'both',
    'page',
    yesOrNo({
      label: 'Say at the foot of a page how it is turned',
      // Common practice, no source.
      description:
        'At the foot of each page that must be turned while playing: “V.S.” (turn quickly) where there is little or no time, “time” where there is enough.',
      default: false,
    }),
  ),
  keepBreaks: entry(
    'both',
    'page',
    yesOrNo({
      label: 'Keep the line and page breaks of the file',
      description: 'Keep the line and page breaks of the file.',
      default: false,
    }),
  ),
  multiBarRests: entry(
    'both',
    'page',
    yesOrNo({
      label: 'Print long rests as multi-bar rests',
      description: 'Print long rests as multi-bar rests.',
      default: true,
    }),
  ),
  restRanges: entry(
    'both',
    'page',
    yesOrNo({
      label: 'Print under multi-bar rests which bars they are',
      // Common practice, no source.
      description: 'Print the numbers of the first and the last bar of each multi-bar rest under it: 12–22.',
      default: false,
    }),
  ),
  barNumbers: entry(
    'both',
    'page',
    amountOrNever({
      label: 'Bar numbers',
      description:
        'Bar numbers stand at the start of each line and at every so many bars; null for the start of each line alone.',
      unit: 'bars',
      default: null,
      least: 1,
      most: 1000,
      step: 1,
      offered: { values: [1, 2, 4, 5, 8, 10], words: 'also every {}' },
      never: 'at the start of each line',
    }),
  ),
  withPart: entry(
    'both',
    'page',
    text({
      label: 'Parts over the harp',
      description:
        'Other parts of the score that stand small over the harp, with their words, by name or id and separated by semicolons: `Voice; Flute`. They take no part in the plan.',
      default: '',
      longest: 1000,
      read: (names) => ok(readPartNames(names)),
      expected: 'names or ids of parts, separated by semicolons',
      examples: ['Voice'],
    }),
  ),
  cues: entry(
    'both',
    'page',
    amountOrNever({
      label: 'Cues after a rest',
      description:
        'After a rest of at least this many whole bars the last bars before the harp comes in show, small, what another instrument of the score plays; null for never.',
      unit: 'bars',
      default: null,
      least: 1,
      most: 1000,
      step: 1,
      offered: { values: [4, 8, 12, 16, 24], words: 'of {} or more' },
      never: 'never',
    }),
  ),
  cueSeconds: entry(
    'both',
    'page',
    amountOrNever({
      label: 'Cues after a rest by the clock',
      description: 'The same after a rest of at least so long; null for never.',
      unit: 'seconds',
      default: null,
      least: 1,
      most: 3600,
      step: null,
      offered: { values: [10, 15, 20, 30, 60], words: 'of {} or more' },
      never: 'never',
    }),
  ),
  cueBars: entry(
    'both',
    'page',
    amount({
      label: 'Length of a cue',
      description: 'How many bars before the harp comes in a cue shows.',
      unit: 'bars',
      default: 2,
      least: 1,
      most: 8,
      step: 1,
      offered: { values: [1, 2, 3, 4], words: '{}' },
    }),
  ),
  beatCounts: entry(
    'both',
    'notes',
    oneOf({
      label: 'Counts',
      description:
        'Number the beats over the music: in every bar in which the harp plays, in those in which something changes, or nowhere. A compound metre is counted in its main beats unless its metronome mark counts the short ones.',
      values: {
        none: 'none',
        'bars-with-changes': 'in bars with changes',
        'every-bar': 'in every bar',
      },
      default: 'none',
    }),
  ),
  stringColours: entry(
    'both',
    'notes',
    oneOf({
      label: 'Noteheads',
      // Common practice, no source.
      description: 'Colour the noteheads of C and F like their strings on the instrument.',
      values: { none: 'black', 'c-red-f-black': 'C red, F black', 'c-red-f-blue': 'C red, F blue' },
      default: 'none',
    }),
  ),
  crossStaves: entry(
    'both',
    'notes',
    yesOrNo({
      label: 'Write notes with many ledger lines on the other staff',
      // Common practice, no source.
      description:
        'Write notes with five ledger lines or more towards the other staff of the harp on that staff, where it has room for them. Otherwise a remark names their bars.',
      default: false,
    }),
  ),
  fifthFinger: entry(
    'both',
    'notes',
    yesOrNo({
      label: 'Print fingerings with a fifth finger',
      // Common practice, no source.
      description:
        'Print fingerings with a fifth finger, which come from a keyboard: harpists play with four fingers.',
      default: false,
    }),
  ),
  respelledLook: entry(
    'both',
    'notes',
    oneOf({
      label: 'Notes on other strings',
      description:
        'How to show notes that are played on a string of another name. plain: as written; bracketed: with the notehead in brackets; named: with the name of the string beside it.',
      values: { plain: 'as written', bracketed: 'in brackets', named: 'with the string’s name' },
      default: 'plain',
      // There the tuning decides the strings, not the player: a string of another name is told beside the note.
      leverDefault: 'named',
    }),
  ),
} as const satisfies Catalogue;
