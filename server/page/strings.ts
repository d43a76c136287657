import { FINDINGS, type FindingCode } from '../../engine/findings/catalogue.ts';
import { SEVERITY_WORDS, type Severity } from '../../engine/findings/model.ts';
import type { Foot, Position } from '../../engine/harp/setting.ts';
import { nameOfPosition } from '../../engine/harp/setting.ts';
import { formatBeatText } from '../../engine/music/format-beat.ts';
import { tellAmount, type Unit } from '../../engine/options/units.ts';
import { PRICES } from '../../engine/pedals/weights.ts';

const FOOT: Readonly<Record<Foot, string>> = { left: 'left foot', right: 'right foot' };

/** Every word that the page shows, in English, but for those of the options, which the catalogue of options holds. */
export const STRINGS = {
  title: 'tringle',
  subtitle: 'Pedal and lever changes for the harp',
  open: {
    heading: 'Open a harp part',
    intro:
      'MusicXML, compressed MusicXML or MEI. Your browser works out the changes; this server only draws the pages, and keeps nothing.',
    choose: 'Choose a file',
    another: 'Open another file',
    demo: 'Show the demo piece',
    drop: 'or drop a file anywhere on this page',
    demoTitle: 'Lanterns at the Lock',
  },
  progress: {
    reading: (name: string) => `Reading ${name} …`,
    planning: (name: string) => `Planning the pedals of ${name} …`,
    drawing: 'Laying out the pages …',
    redrawing: 'Redrawing the pages …',
    drawn: (pages: number) => (pages === 1 ? 'The page is ready.' : `All ${pages} pages are ready.`),
  },
  parts: {
    heading: 'Which part is the harp?',
    intro: 'The score does not say. Choose a part:',
    silentHarp: (name: string) => `The part ${name} has no notes in this file. Choose another part:`,
    option: (name: string, staves: number, notes: number) =>
      `${name} (${staves === 1 ? '1 staff' : `${staves} staves`}, ${notes === 1 ? '1 note' : `${notes} notes`})`,
    unnamed: 'Unnamed part',
    label: 'Part',
    /** One of several that have the same name. */
    numbered: (name: string, nth: number) => `${name}, no. ${nth}`,
  },
  refused: {
    heading: (name: string) => `${name} cannot be used`,
    crashed:
      'Something went wrong while planning this part. Reload the page; if it happens again, please send us the file.',
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
    offline: 'The server did not answer. Try again once it is running.',
    planStands: 'The plan below is still complete.',
    notDrawable: 'This page cannot be shown.',
    settingLabel: (bar: string, names: string) => `Full setting, bar ${bar}: ${names}`,
    leverLabel: (bar: string, names: string) => `Bar ${bar}: ${names}`,
    changeLabel: (bar: string, names: string) => `Pedal change, bar ${bar}: ${names}`,
    keys: 'Use the arrow keys to go from marking to marking, Page Up and Page Down to turn pages, and plus and minus to change the size.',
  },
  chart: {
    heading: 'Pedals',
    label: (bars: number, moves: number) => `Seven pedals over ${bars} bars, ${moves} moves`,
    pinned: 'pinned by you',
    strip: 'Drag across bar numbers to select bars',
    lane: (letter: string) => `${letter} pedal`,
    keys: 'Use the arrow keys to go from move to move. Shift and an arrow key makes the move earlier or later; Delete unpins it.',
    wider: 'Wider',
    narrower: 'Narrower',
    save: 'Save as picture',
    impossible: (sentence: string) => `${SEVERITY_WORDS.stop.name}: ${sentence}`,
    legend: {
      left: 'left foot',
      right: 'right foot',
      need: 'a note asks',
      stop: 'not playable',
      pinned: 'fixed by you',
      levels: 'upper step flat, middle natural, lower sharp',
    },
  },
  detail: {
    heading: 'Selected',
    nothing:
      'Click a marking or a move, or go to it with the arrow keys, to see which foot moves, when and why.',
    move: (change: string, foot: Foot) => `${change}, ${FOOT[foot]}`,
    from: (from: Position, to: Position) => `From ${nameOfPosition(from)} to ${nameOfPosition(to)}`,
    at: (bar: string, beat: string) => `Bar ${bar}, beat ${formatBeatText(beat)}`,
    beforeGrace: 'before the grace note',
    restores: 'It is needed only when the music returns here: the pedal then stands elsewhere.',
    after: (note: string, bar: string) =>
      `after ${note} in bar ${bar}, the last note that needs the old position`,
    before: (note: string, bar: string) =>
      `before ${note} in bar ${bar}, the first note that needs the new one`,
    anyTimeBefore: 'from the start',
    afterJump: 'the next note that needs it comes after a jump',
    window: 'It can be made',
    asks: 'Needed by',
    askedBy: (note: string, bar: string, more: number) =>
      more === 0 ? `${note}, bar ${bar}` : `${note}, bar ${bar}, and ${more} more until the next move`,
    against: 'Drawbacks of this moment',
    nothingAgainst: 'none',
    reason: (name: string) =>
      Object.hasOwn(PRICES, name) ? PRICES[name as keyof typeof PRICES].against : name,
    noMoves: 'It only reminds the player of the setting: no pedal moves here.',
    setting: 'Setting',
    suggestions: 'How to fix it',
  },
  findings: {
    heading: 'Findings',
    none: 'No problems found: the part is playable as printed.',
    severity: (severity: Severity) => SEVERITY_WORDS[severity].name,
    title: (code: FindingCode) => FINDINGS[code].title,
    at: (bar: string, beat: string) => `Bar ${bar}, beat ${formatBeatText(beat)}`,
    remarks: 'How the file was read',
    remark: (bar: string, message: string) => (bar === '' ? message : `Bar ${bar}: ${message}`),
  },
  summary: {
    moves: (moves: number, least: number) =>
      `${moves === 1 ? '1 move' : `${moves} moves`}${moves > least ? ` (${least} would do if the feet had more time)` : ''}`,
    unproved: 'the best plan found; there were too many possible plans to try them all',
    playable: 'playable as printed',
    unplayable: (bar: string) => `not playable as printed: the first problem is in bar ${bar}`,
    start: (setting: string) => `Start with ${setting}`,
  },
  key: {
    heading: 'This server needs a key',
    why: 'It draws the pages only for people who have a key; ask whoever runs it for one. The plan needs no key.',
    wrong: 'That key was not accepted. Check that it is complete.',
    label: 'Key',
    send: 'Continue with this key',
    without: 'Continue without pages',
  },
  choices: {
    heading: 'Options',
    inFile: {
      label: 'Markings in the file',
      values: { replaced: 'replaced by ours', beside: 'left beside ours', pins: 'taken as decisions' },
    },
    textWrong: (expected: string) => `Not understood. Write ${expected}.`,
    amountWrong: (least: number, most: number, unit: Unit) =>
      `Write a number from ${least} to ${tellAmount(most, unit)}.`,
    reset: 'As at first',
    preview: 'A line in this look',
    previewFailed: 'The line could not be drawn.',
  },
  work: {
    undo: 'Undo',
    redo: 'Redo',
    told: {
      do: (name: string) => `${name}.`,
      undo: (name: string) => `Undone: ${name}.`,
      redo: (name: string) => `Redone: ${name}.`,
    },
    refused: (sentence: string) => `Not possible: ${sentence}`,
    notKept: 'This browser cannot store your decisions. To keep them, download your file with markings.',
    restored: {
      own: (count: number) =>
        count === 1
          ? 'This browser has restored your decision from last time.'
          : `This browser has restored your ${count} decisions from last time.`,
      saved: (count: number) =>
        `The plan again follows ${count === 1 ? 'the decision' : `the ${count} decisions`} saved in your file.`,
    },
    afresh: 'Start over',
    allDropped: 'All decisions removed',
    understood: 'OK',
    heading: 'Your decisions',
    none: 'None yet. Drag a move in the chart, select a marking or a finding, or add a decision below.',
    goTo: (what: string) => `Go to: ${what}`,
    takeBack: 'Remove',
    takeBackWhat: (what: string) => `Remove: ${what}`,
    takenBack: (what: string) => `Removed: ${what}`,
    place: (bar: string, beat: string) =>
      beat === '1' ? `bar ${bar}` : `bar ${bar}, beat ${formatBeatText(beat)}`,
    end: 'the end',
    move: (change: string, place: string) => `${change} is set in ${place}`,
    position: (pedal: string, position: string, from: string, until: string) =>
      `${pedal} stays ${position} from ${from} until ${until}`,
    forbid: (from: string, until: string) => `No moves from ${from} until ${until}`,
    respell: (pitch: string, place: string, to: string) => `${pitch} in ${place} is played as ${to}`,
    leaveOut: (pitch: string, place: string) => `${pitch} in ${place} is left out`,
    print: (place: string) => `A full setting is printed at ${place}`,
    doNotPrint: (place: string) => `No full setting is printed at ${place}`,
    pinned: 'You pinned this move here.',
    keepHere: 'Pin it here',
    unpin: 'Unpin',
    earlier: 'Earlier',
    later: 'Later',
    keepPosition: (change: string) => `Keep ${change} from here`,
    untilNext: 'to its next move',
    untilEnd: 'to the end',
    playAs: (pitch: string, to: string) => `Play ${pitch} as ${to}`,
    printHere: 'Print a full setting here',
    doNotPrintHere: 'Do not print this setting',
    apply: 'Apply',
    applyWhat: (what: string) => `Apply: ${what}`,
    mended: (sentence: string) => sentence.replace(/\.$/, ''),
    suggested: 'Spellings that would help',
    suggestion: (from: string, to: string, notes: number, bar: string) =>
      `Play ${from} as ${to}${notes === 1 ? `, bar ${bar}` : `: ${notes} notes, from bar ${bar}`}`,
    saves: (moves: number, places: number) =>
      [
        moves > 0 ? `saves ${moves === 1 ? 'a move' : `${moves} moves`}` : '',
        places > 0 ? `makes ${places === 1 ? 'a place' : `${places} places`} playable` : '',
      ]
        .filter((each) => each !== '')
        .join(', '),
    forms: {
      heading: 'Add a decision',
      forbid: 'No moves',
      setting: 'Full setting',
      position: 'Hold a pedal in place',
      bar: 'bar',
      beat: 'beat',
      from: 'From',
      until: 'Until',
      at: 'At',
      toTheEnd: 'to the end',
      pedal: 'Pedal',
      stays: 'stays',
      barOf: (end: string) => `${end} bar`,
      beatOf: (end: string) => `${end} beat`,
      add: 'Add',
      print: 'Print',
      drop: 'Do not print',
      wrongOrder: 'The end must come after the start.',
    },
    bars: (from: string, to: string) => (from === to ? `Bar ${from}` : `Bars ${from} to ${to}`),
    forbidBars: 'No moves here',
    printAtBar: (bar: string) => `Full setting at bar ${bar}`,
    close: 'Close',
  },
  listen: {
    heading: 'Playback',
    open: 'Listen to the part and watch the pedals',
    failed: 'The player could not be loaded. Try again.',
    play: 'Play',
    pause: 'Pause',
    stop: 'Back to the start',
    barBack: 'Back one bar',
    barOn: 'Forward one bar',
    fromSelection: 'From the selected bar',
    position: 'Position',
    tempo: 'Tempo',
    volume: 'Volume',
    percent: (percent: number) => `${percent} %`,
    place: (bar: string, beat: number, pass: number) =>
      `Bar ${bar}, beat ${beat}${pass === 1 ? '' : `, time ${pass}`}`,
    boxLabel: (setting: string) => `The pedals from above: ${setting}`,
    nextMove: (changes: string, foot: Foot | null, beats: number) =>
      `Next: ${changes}, ${foot === null ? 'both feet' : FOOT[foot]}, in ${beats === 1 ? '1 beat' : `${beats} beats`}`,
    noMoveSoon: 'No moves coming up',
    tooClose: (feet: readonly Foot[]) =>
      `Moves too close together for the ${feet.map((foot) => FOOT[foot]).join(' and the ')}`,
    say: 'Read out the setting',
    standsAt: (place: string, setting: string) => `${place}. The pedals: ${setting}.`,
    stoppedAt: (place: string, setting: string) => `Stopped. ${place}. The pedals: ${setting}.`,
    close: 'Close the player',
    keys: 'The space bar plays and pauses unless a button or slider has the focus. On the position slider, the arrow keys move by one beat. Click a note, a bar or the chart to go there.',
  },
  printed: {
    title: (piece: string) => `Pedal moves: ${piece}`,
    start: (setting: string) => `Before the first note: ${setting}`,
    none: 'The pedals stay as they are set at the start.',
    columns: ['Bar', 'Beat', 'Foot', 'Pedal', 'From', 'To', 'Remarks'],
    neededBy: (note: string, bar: string) => `needed by ${note} in bar ${bar}`,
    neededLater: 'needed after a jump',
    beforeGrace: 'before the grace note',
    restores: 'for when the music returns here',
    findings: 'Please check',
    failed: 'The list could not be loaded. Try again.',
    finding: (severity: string, bar: string, beat: string, sentence: string) =>
      `${severity}. Bar ${bar}, beat ${beat}: ${sentence}`,
    source: (moves: number) => `${moves === 1 ? '1 move' : `${moves} moves`}. Made with tringle.`,
  },
  take: {
    heading: 'Download',
    pdf: 'PDF',
    svg: 'Pages as SVG',
    csv: 'Table of moves (CSV)',
    print: 'List of moves to print',
    source: 'Your file with markings',
    preparing: (what: string) => `Preparing: ${what} …`,
    done: (what: string) => `${what} was saved to your downloads.`,
    failed: (what: string, why: string) => `${what}: ${why}`,
    columns: ['Bar', 'Beat', 'Foot', 'Pedal', 'From', 'To', 'Printed', 'Possible after', 'Possible before'],
    svgName: (page: number) => `page ${page}.svg`,
  },
  foot: FOOT,
  beat: formatBeatText,
  position: nameOfPosition,
  spoken: (names: string) =>
    names.replaceAll('♭', ' flat').replaceAll('♮', ' natural').replaceAll('♯', ' sharp'),
} as const;
