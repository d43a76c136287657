import { FINDINGS, type FindingCode } from '../../engine/findings/catalogue.ts';
import { SEVERITY_WORDS, type Severity } from '../../engine/findings/model.ts';
import type { Foot, Position } from '../../engine/harp/setting.ts';
import { nameOfPosition } from '../../engine/harp/setting.ts';
import { tellBeatText } from '../../engine/music/tell-beat.ts';
import { tellAmount, type Unit } from '../../engine/options/units.ts';
import { PRICES } from '../../engine/pedals/weights.ts';

const FOOT: Readonly<Record<Foot, string>> = { left: 'left foot', right: 'right foot' };

/** Every word that the page shows, in English, but for those of the options, which the catalogue of options holds. */
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
    redrawing: 'Laying out the pages anew …',
    drawn: (pages: number) => (pages === 1 ? 'One page is laid out.' : `${pages} pages are laid out.`),
  },
  parts: {
    heading: 'Which part is the harp?',
    intro: 'It is not clear from the score. Choose a part:',
    option: (name: string, staves: number, notes: number) =>
      `${name} (${staves === 1 ? '1 staff' : `${staves} staves`}, ${notes === 1 ? '1 note' : `${notes} notes`})`,
    unnamed: 'Part without a name',
    label: 'Part',
    /** One of several that have the same name. */
    numbered: (name: string, nth: number) => `${name}, no. ${nth}`,
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
    offline: 'The server did not answer. Try again when it runs.',
    planStands: 'The plan below is complete all the same.',
    notDrawable: 'This page cannot be shown.',
    settingLabel: (bar: string, names: string) => `Full setting, bar ${bar}: ${names}`,
    leverLabel: (bar: string, names: string) => `Bar ${bar}: ${names}`,
    changeLabel: (bar: string, names: string) => `Pedal change, bar ${bar}: ${names}`,
    keys: 'Arrow keys go from marking to marking, Page Up and Page Down from page to page, plus and minus change the size.',
  },
  chart: {
    heading: 'Pedals',
    label: (bars: number, moves: number) => `Seven pedals over ${bars} bars, ${moves} moves`,
    pinned: 'fixed by you',
    strip: 'Drag over bar numbers to choose bars',
    lane: (letter: string) => `${letter} pedal`,
    keys: 'Arrow keys go from move to move. Shift and an arrow key moves the move, Delete lets a fixed one go.',
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
    heading: 'This marking',
    nothing: 'Point at a marking or a move, or go to it by key, to see what it asks of the feet and why.',
    move: (change: string, foot: Foot) => `${change}, ${FOOT[foot]}`,
    from: (from: Position, to: Position) => `From ${nameOfPosition(from)} to ${nameOfPosition(to)}`,
    at: (bar: string, beat: string) => `Bar ${bar}, beat ${tellBeatText(beat)}`,
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
    reason: (name: string) =>
      Object.hasOwn(PRICES, name) ? PRICES[name as keyof typeof PRICES].against : name,
    noMoves: 'It reminds the player of the setting; nothing moves here.',
    setting: 'Setting',
    suggestions: 'What would mend it',
  },
  findings: {
    heading: 'Findings',
    none: 'Nothing to report: the part can be played as printed.',
    severity: (severity: Severity) => SEVERITY_WORDS[severity].name,
    title: (code: FindingCode) => FINDINGS[code].title,
    at: (bar: string, beat: string) => `Bar ${bar}, beat ${tellBeatText(beat)}`,
    remarks: 'How the file was read',
    remark: (bar: string, message: string) => (bar === '' ? message : `Bar ${bar}: ${message}`),
  },
  summary: {
    moves: (moves: number, least: number) =>
      `${moves === 1 ? '1 move' : `${moves} moves`}${moves > least ? `, ${least} if the feet needed no time` : ''}`,
    unproved: 'the best plan found, but there were too many to try them all',
    playable: 'playable as printed',
    unplayable: (bar: string) => `cannot be played as printed from bar ${bar}`,
    start: (setting: string) => `Starts with ${setting}`,
  },
  key: {
    heading: 'The service asks for a key',
    why: 'Whoever runs it has given out keys. Pages are laid out with one; the plan needs none.',
    wrong: 'That key was not accepted. Look whether it is complete.',
    label: 'Key',
    send: 'Go on with this key',
    without: 'Go on without pages',
  },
  choices: {
    heading: 'Look and planning',
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
      redo: (name: string) => `Done again: ${name}.`,
    },
    refused: (sentence: string) => `Not possible: ${sentence}`,
    notKept: 'This browser keeps nothing: save your file with markings to keep your decisions.',
    restored: {
      own: (count: number) =>
        count === 1
          ? 'Your decision of last time, kept in this browser, is back.'
          : `Your ${count} decisions of last time, kept in this browser, are back.`,
      saved: (count: number) =>
        `The file holds ${count === 1 ? 'a decision' : `${count} decisions`} of yours, taken up again.`,
    },
    afresh: 'Start afresh',
    allDropped: 'All decisions taken back',
    understood: 'Good',
    heading: 'Your decisions',
    none: 'None yet. Drag a move in the chart, or open a marking, a finding or the forms below.',
    goTo: (what: string) => `Go to: ${what}`,
    takeBack: 'Take back',
    takeBackWhat: (what: string) => `Take back: ${what}`,
    takenBack: (what: string) => `Taken back: ${what}`,
    place: (bar: string, beat: string) =>
      beat === '1' ? `bar ${bar}` : `bar ${bar}, beat ${tellBeatText(beat)}`,
    end: 'the end',
    move: (change: string, place: string) => `${change} moves in ${place}`,
    position: (pedal: string, position: string, from: string, until: string) =>
      `${pedal} stays ${position} from ${from} until ${until}`,
    forbid: (from: string, until: string) => `No moves from ${from} until ${until}`,
    respell: (pitch: string, place: string, to: string) => `${pitch} in ${place} is played as ${to}`,
    leaveOut: (pitch: string, place: string) => `${pitch} in ${place} is left out`,
    print: (place: string) => `A full setting is printed at ${place}`,
    doNotPrint: (place: string) => `No full setting is printed at ${place}`,
    pinned: 'You fixed this move here.',
    keepHere: 'Keep it here',
    unpin: 'Let it go where it likes',
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
        places > 0 ? `mends ${places === 1 ? 'a place' : `${places} places`}` : '',
      ]
        .filter((each) => each !== '')
        .join(', '),
    forms: {
      heading: 'Decide more',
      forbid: 'No moves',
      setting: 'Full setting',
      position: 'Keep a pedal',
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
      add: 'Decide',
      print: 'Print one',
      drop: 'Print none',
      wrongOrder: 'The end lies before the start.',
    },
    bars: (from: string, to: string) => (from === to ? `Bar ${from}` : `Bars ${from} to ${to}`),
    forbidBars: 'No moves here',
    printAtBar: (bar: string) => `Full setting at bar ${bar}`,
    close: 'Leave',
  },
  listen: {
    heading: 'Hear and watch',
    open: 'Play the part and watch the pedals',
    failed: 'The player could not be loaded. Try again.',
    play: 'Play',
    pause: 'Pause',
    stop: 'To the start',
    barBack: 'A bar back',
    barOn: 'A bar on',
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
    noMoveSoon: 'No move in the next beats',
    tooClose: (feet: readonly Foot[]) =>
      `Too close for the ${feet.map((foot) => FOOT[foot]).join(' and the ')}`,
    say: 'Say the setting',
    standsAt: (place: string, setting: string) => `${place}. The pedals: ${setting}.`,
    stoppedAt: (place: string, setting: string) => `Stopped. ${place}. The pedals: ${setting}.`,
    close: 'Close the player',
    keys: 'The space bar plays and pauses while no control has the focus. On the position, arrow keys go from beat to beat. A click on a note, a bar or the chart goes there.',
  },
  printed: {
    title: (piece: string) => `Pedal moves: ${piece}`,
    start: (setting: string) => `Before the first note: ${setting}`,
    none: 'The pedals stay as they are set at the start.',
    columns: ['Bar', 'Beat', 'Foot', 'Pedal', 'From', 'To', 'Remarks'],
    neededBy: (note: string, bar: string) => `needed by ${note} in bar ${bar}`,
    neededLater: 'needed after a jump',
    beforeGrace: 'before the grace note',
    restores: 'where the music jumps here',
    findings: 'To be looked at',
    failed: 'The list could not be loaded. Try again.',
    finding: (severity: string, bar: string, beat: string, sentence: string) =>
      `${severity}. Bar ${bar}, beat ${beat}: ${sentence}`,
    source: (moves: number) => `${moves === 1 ? '1 move' : `${moves} moves`}. Made with tringle.`,
  },
  take: {
    heading: 'Take away',
    pdf: 'PDF',
    svg: 'Pages as SVG',
    csv: 'Moves as table (CSV)',
    print: 'Moves as a list to print',
    source: 'Your file with markings',
    preparing: (what: string) => `Preparing: ${what} …`,
    done: (what: string) => `${what} was saved to your downloads.`,
    failed: (what: string, why: string) => `${what}: ${why}`,
    columns: ['Bar', 'Beat', 'Foot', 'Pedal', 'From', 'To', 'Printed', 'Possible after', 'Possible before'],
    svgName: (page: number) => `page ${page}.svg`,
  },
  foot: FOOT,
  beat: tellBeatText,
  position: nameOfPosition,
  spoken: (names: string) =>
    names.replaceAll('♭', ' flat').replaceAll('♮', ' natural').replaceAll('♯', ' sharp'),
} as const;
