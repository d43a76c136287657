import type { Foot, Position } from '../../engine/harp/setting.ts';
import type { Severity } from '../../engine/plan/model.ts';
import type { WeightName } from '../../engine/plan/weights.ts';

const POSITIONS: Readonly<Record<string, string>> = { '-1': 'flat', '0': 'natural', '1': 'sharp' };

const FOOT: Readonly<Record<Foot, string>> = { left: 'left foot', right: 'right foot' };

const SEVERITY: Readonly<Record<Severity, string>> = {
  stop: 'Cannot be played',
  warn: 'Risky',
  note: 'Good to know',
};

/** What speaks against a moment, by the name of its price. */
const REASONS: Readonly<Record<WeightName, string>> = {
  move: 'it is a move',
  respelling: 'a note is respelled for it',
  footTooBusy: 'the foot has no time for it',
  pedalsTogether: 'one foot takes two pedals together',
  forbidden: 'it falls where moves are forbidden',
  stringSounding: 'a string of this letter is still sounding',
  stringRinging: 'a string of this letter may still ring',
  noLead: 'it falls together with the note that needs it',
  shortLead: 'little time before the note that needs it',
  offBeat: 'it falls between the beats',
  betweenBeats: 'neither a beat nor a note marks the moment',
  handsBusy: 'the hands are playing',
  perNotePlucked: 'notes are plucked at this moment',
  perSecondAhead: 'it is some way ahead of its note',
  twoNotchesInHaste: 'two notches in little time',
  footRestSeconds: 'the foot moved shortly before',
  comfortableLeadSeconds: 'little time before its note',
  farthestAheadSeconds: 'its note is far away',
};

/** Every word that the page shows, in English; another language is another file of this shape. */
export const STRINGS = {
  title: 'tringle',
  subtitle: 'The pedals of a harp part',
  open: {
    heading: 'Open a harp part',
    intro:
      'MusicXML, compressed MusicXML or MEI. The pedals are worked out here in your browser; this server draws the pages and keeps nothing.',
    choose: 'Choose a file',
    another: 'Open another',
    demo: 'Show the demo piece',
    drop: 'or drop a file anywhere on this page',
    demoTitle: 'Lanterns at the Lock',
  },
  progress: {
    reading: (name: string) => `Reading ${name} …`,
    planning: (name: string) => `Planning the pedals of ${name} …`,
    drawing: 'Laying out the pages …',
    drawn: (pages: number) => (pages === 1 ? 'One page is laid out.' : `${pages} pages are laid out.`),
  },
  parts: {
    heading: 'Which part is the harp?',
    intro: 'The score does not say. Choose a part:',
    option: (name: string, staves: number, notes: number) =>
      `${name} (${staves === 1 ? '1 staff' : `${staves} staves`}, ${notes === 1 ? '1 note' : `${notes} notes`})`,
    unnamed: 'Part without a name',
  },
  refused: {
    heading: (name: string) => `${name} cannot be used`,
    crashed:
      'The planner stopped unexpectedly. Load the page again; if it happens again, please report the file.',
    unreadable: 'The browser could not read the file. Choose it again.',
  },
  score: {
    heading: 'Score',
    page: (n: number, of: number) => `Page ${n} of ${of}`,
    goToPage: 'Page',
    previous: 'Previous page',
    next: 'Next page',
    zoomIn: 'Larger',
    zoomOut: 'Smaller',
    zoom: (percent: number) => `${percent} %`,
    again: 'Try again',
    failed: 'The pages could not be drawn.',
    offline: 'The server did not answer. The plan below is complete all the same.',
    notDrawable: 'This page cannot be shown.',
    settingLabel: (bar: string, names: string) => `Full setting, bar ${bar}: ${names}`,
    changeLabel: (bar: string, names: string) => `Pedal change, bar ${bar}: ${names}`,
    keys: 'Arrow keys go from marking to marking, Page Up and Page Down from page to page, plus and minus change the size.',
  },
  chart: {
    heading: 'Pedals',
    label: (bars: number, moves: number) => `Seven pedals over ${bars} bars, ${moves} moves`,
    lane: (letter: string) => `${letter} pedal`,
    keys: 'Arrow keys go from move to move.',
    wider: 'Wider',
    narrower: 'Narrower',
    save: 'Save as picture',
    impossible: (sentence: string) => `Cannot be played: ${sentence}`,
    legend: {
      left: 'left foot',
      right: 'right foot',
      need: 'a note asks',
      stop: 'cannot be played',
      levels: 'upper step flat, middle natural, lower sharp',
    },
  },
  detail: {
    heading: 'This marking',
    nothing: 'Point at a marking or a move, or go to it by key, to see what it asks of the feet and why.',
    move: (change: string, foot: Foot) => `${change}, ${FOOT[foot]}`,
    from: (from: Position, to: Position) => `From ${POSITIONS[`${from}`]} to ${POSITIONS[`${to}`]}`,
    at: (bar: string, beat: string) => `Bar ${bar}, beat ${beat}`,
    beforeGrace: 'before the grace note',
    restores: 'It brings the pedal back where the music jumps here.',
    after: (note: string, bar: string) =>
      `after ${note} in bar ${bar}, the last note that needs the old position`,
    before: (note: string, bar: string) =>
      `before ${note} in bar ${bar}, the first note that needs the new one`,
    anyTimeBefore: 'from the start',
    afterJump: 'the next note that needs it comes after a jump',
    window: 'Possible',
    asks: 'Asked for by',
    askedBy: (note: string, bar: string, more: number) =>
      more === 0 ? `${note}, bar ${bar}` : `${note}, bar ${bar}, and ${more} more until the next move`,
    against: 'Against this moment',
    nothingAgainst: 'nothing speaks against it',
    reason: (name: string) => (Object.hasOwn(REASONS, name) ? REASONS[name as WeightName] : name),
    noMoves: 'It reminds the player of the setting; nothing moves here.',
    setting: 'Setting',
    suggestions: 'What would mend it',
  },
  findings: {
    heading: 'Findings',
    none: 'Nothing to report: the part can be played as printed.',
    severity: SEVERITY,
    at: (bar: string, beat: string) => `Bar ${bar}, beat ${beat}`,
    remarks: 'How the file was read',
    remark: (bar: string, message: string) => (bar === '' ? message : `Bar ${bar}: ${message}`),
  },
  summary: {
    moves: (moves: number, least: number) =>
      `${moves === 1 ? '1 move' : `${moves} moves`}${moves > least ? `, ${least} if the feet needed no time` : ''}`,
    playable: 'playable as printed',
    unplayable: (bar: string) => `cannot be played as printed from bar ${bar}`,
    start: (setting: string) => `Starts with ${setting}`,
  },
  choices: {
    heading: 'Look',
    names: {
      settingLook: 'Full settings',
      naming: 'Note names',
      placement: 'Markings stand',
      density: 'Printed are',
      paper: 'Paper',
      staffMm: 'Staff height',
      stringColours: 'Noteheads',
    },
    values: {
      settingLook: {
        diagram: 'as diagram',
        'letters-one-row': 'in letters, one row',
        'letters-two-rows': 'in letters, two rows',
      },
      naming: { english: 'English', german: 'German', 'fixed-do': 'fixed do' },
      placement: { below: 'below the staves', above: 'above the staves', between: 'between the staves' },
      density: { both: 'settings and changes', changes: 'changes alone', settings: 'settings alone' },
      paper: { a4: 'A4', letter: 'Letter', 'concert-part': '9 × 12 in', a3: 'A3' },
      staffMm: { '5': '5 mm', '6': '6 mm', '7': '7 mm', '8': '8 mm', '9': '9 mm' },
      stringColours: { none: 'black', 'c-red-f-black': 'C red, F black', 'c-red-f-blue': 'C red, F blue' },
    },
    reset: 'As at first',
  },
  take: {
    heading: 'Take away',
    pdf: 'PDF',
    svg: 'Pages as SVG',
    csv: 'Moves as table (CSV)',
    source: 'Your file with markings',
    preparing: (what: string) => `Preparing: ${what} …`,
    done: (what: string) => `${what} was saved to your downloads.`,
    failed: (what: string, why: string) => `${what}: ${why}`,
    columns: ['Bar', 'Beat', 'Foot', 'Pedal', 'From', 'To', 'Printed', 'Possible after', 'Possible before'],
    svgName: (page: number) => `page ${page}.svg`,
  },
  foot: FOOT,
  position: (position: Position) => POSITIONS[`${position}`]!,
  spoken: (names: string) =>
    names.replaceAll('♭', ' flat').replaceAll('♮', ' natural').replaceAll('♯', ' sharp'),
} as const;
