import { amountOrNever, type Catalogue, entry, group, oneOf, yesOrNo } from '../../engine/index.ts';
import { describeLooks, labelLooks } from '../looks/describe-looks.ts';
import { LEVER_LOOKS } from '../looks/lever-looks.ts';
import { SETTING_LOOKS } from '../looks/setting-looks.ts';

const occasion = (label: string, usual: boolean) =>
  yesOrNo({ label, description: `${label}.`, default: usual });

/** How the markings of the pedals and levers look, and what is printed of them. */
export const MARKING_OPTIONS = {
  level: entry(
    'both',
    'markings',
    oneOf({
      label: 'Level of the player',
      description:
        'How much the pages tell, for whom. beginner: a setting at every line, or a table of the levers where one has moved, every change in words the first time, strings in colours, beats counted in every bar, every bar numbered, a legend, and a staff of 8 mm; intermediate: the same at every page and, of pedals, after rests of two bars, strings in colours, beats counted where something changes, a legend; advanced: as for the stand. Options that are given win over what a level has.',
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
        'Where the table of the levers is printed: before the first note alone, or again, as the levers then stand, at each page or each line before which one has moved.',
      values: { start: 'before the first note', 'each-page': 'at each page', 'each-line': 'at each line' },
      default: 'start',
    }),
  ),
  leverHands: entry(
    'lever',
    'markings',
    yesOrNo({
      label: 'Name the hand that changes a lever',
      description: 'Print under the name of each lever change which hand makes it: l.h. or r.h.',
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
        'Where a change is printed: where the foot moves, or at the note that needs it. A change for which the foot has no time there stands where the foot moves, and a remark tells of it. The plan is the same.',
      values: { foot: 'where the foot moves', note: 'at the note that needs them' },
      // Common practice, no source; composers often write the other.
      default: 'foot',
    }),
  ),
  circleChanged: entry(
    'pedal',
    'markings',
    yesOrNo({
      label: 'Circle what has changed since the last full setting',
      description:
        'Circle in a full setting all pedals that have changed since the last one. Those that move at the setting itself are circled in any case.',
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
        offered: { values: [1, 2, 3, 4, 5], words: 'of {} or more' },
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
} as const satisfies Catalogue;
