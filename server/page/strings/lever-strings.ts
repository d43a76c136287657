import {
  capitalize,
  describePlayable,
  GRADE_WORDS,
  type Grade,
  harpLabel,
  type LeverPosition,
  MOST_TUNES_IN_SET,
  NO_BETTER_KEY,
  nameCount,
  nameKeyTried,
  nameLeversUp,
  namePlaceInBar,
  type Side,
  TUNINGS_UNTRIED,
  tabulateTunings,
} from '../../../engine/index.ts';

const HAND: Readonly<Record<Side, string>> = { left: 'left hand', right: 'right hand' };

/** The words of the lever harp's view, in English; beside `STRINGS`. */
export const LEVER_STRINGS = {
  harp: { label: 'Harp', name: harpLabel },
  summary: {
    tuning: (tuning: string) => `Tuned in ${tuning}`,
    levers: nameLeversUp,
    changes: (changes: number) => nameCount(changes, 'lever change'),
    tuningsUntried: TUNINGS_UNTRIED,
  },
  progress: 'Planning the levers and laying out the pages …',
  chart: {
    heading: 'Levers',
    label: (bars: number, changes: number) =>
      `The strings whose levers change, over ${nameCount(bars, 'bar')}, ${nameCount(changes, 'change')}`,
    none: 'No lever changes during the piece.',
    legend: { left: 'left hand', right: 'right hand', up: 'upper line: lever up' },
    keys: 'Drag a change to another moment, or press Shift and an arrow key; Delete unpins it',
    point: (change: string, hand: Side, bar: string, beat: string, pinned: boolean) =>
      `${change}, ${HAND[hand]}, ${namePlaceInBar(bar, beat)}${pinned ? ', pinned' : ''}`,
  },
  detail: {
    panel: 'Details',
    nothing:
      'Click a note, or a change in the score or in the chart, to see which hand sets its lever, when and why.',
    to: (string: string, to: LeverPosition) => `${string} lever ${to}`,
    made: (hand: Side) => `by the ${HAND[hand]}`,
    at: (bar: string, beat: string) => capitalize(namePlaceInBar(bar, beat)),
    restores: (to: LeverPosition) =>
      `It is for the repeat: the lever then stands ${to === 'up' ? 'down' : 'up'}.`,
    onlyAt: { first: 'Only the first time.', later: 'Not the first time.' },
    start: 'Before the first note',
    noTime: 'No hand has time for it (see the findings).',
    away: (hand: Side, after: string | null, before: string | null) =>
      after === null && before === null
        ? `The ${HAND[hand]} plays nothing.`
        : `The ${HAND[hand]} is away ${after === null ? 'from the start' : `after ${after}`} ${before === null ? 'to the end' : `until ${before}`}.`,
    note: (name: string, bar: string) => `${name} in bar ${bar}`,
  },
  note: {
    onString: (string: string, lever: LeverPosition | null) =>
      lever === null ? `the ${string} string, which has no lever` : `the ${string} string, lever ${lever}`,
    setBy: 'Its lever is set by',
    setAtStart: 'the levers before the piece',
    keep: (lever: string) => `Keep the ${lever} to the end of the bar`,
    noString: 'No string of this harp gives this note (see the findings).',
  },
  listen: {
    open: 'Listen to the part and watch the levers',
    say: 'Read out the levers',
    heard: 'Levers as they are set: left hand low, right hand high',
    board: (up: readonly string[]) =>
      up.length === 0 ? 'All levers are down.' : `Levers up: ${up.join(', ')}.`,
    next: (changes: readonly string[], hands: readonly Side[], beats: number) =>
      `Next: ${changes.join(', ')}, ${hands.map((hand) => HAND[hand]).join(' and ')}, in ${nameCount(beats, 'beat')}`,
    none: 'No changes soon',
    tooClose: (hands: readonly Side[]) =>
      `Changes too close together for the ${hands.map((hand) => HAND[hand]).join(' and the ')}`,
  },
  decisions: {
    none: 'None yet. Drag a change in the chart, select one, or add a decision below.',
    move: (change: string, place: string, hand: Side | null) =>
      `${change} in ${place}${hand === null ? '' : `, by the ${HAND[hand]}`}`,
    pinned: 'You pinned this change here.',
    giveTo: (hand: Side) => `Give it to the ${HAND[hand]}`,
    keepPosition: (change: string) => `Keep the ${change} from here`,
    untilNext: 'to its next change',
    leaveOut: (pitch: string) => `Leave ${pitch} out`,
    forbid: 'No changes',
    position: 'Hold a lever in place',
    lever: 'Lever',
    stays: 'stays',
    up: 'up',
    down: 'down',
  },
  findings: { heading: 'Findings', none: 'No problems found: the part is playable as printed.' },
  tunings: {
    heading: 'Tunings',
    intro:
      'What each tuning of the open strings would ask of you. The first leaves the least that is not playable, then the fewest changes and strings to retune.',
    own: 'What each tuning of the open strings would ask of you. The first is the one that you chose.',
    table: (tunings: Parameters<typeof tabulateTunings>[0]) => {
      const { heads, rows } = tabulateTunings(tunings);
      return { columns: [...heads.map(capitalize), ''], rows };
    },
    chosen: 'chosen',
    choose: (name: string) => `Tune in ${name}`,
    choosing: 'Tune',
    back: 'Back to the suggested tuning',
  },
  take: {
    csv: 'Table of changes (CSV)',
    columns: ['Bar', 'Beat', 'Side', 'String', 'Lever', 'Printed', 'Possible after', 'Possible before'],
  },
  hand: HAND,
  compare: {
    heading: 'On other harps and in other keys',
    ask: 'Compare the harps',
    asking: 'Comparing the harps …',
    columns: ['Key', 'Harp', 'Verdict', 'Difficulty', 'Changes', 'Tuning'],
    key: nameKeyTried,
    grade: (grade: Grade) => GRADE_WORDS[grade],
    playable: describePlayable,
    noKey: NO_BETTER_KEY,
  },
  book: {
    ask: 'Show what each tune asks of the levers',
    tableHarp: 'Lever harp',
    askAgain: 'Update the table',
    asking: 'Planning every tune of the book …',
    betterKeys: 'Look for keys that suit the harp better (takes longer)',
    list: 'Back to the plain list',
    csv: 'Table (CSV)',
    pdf: 'Table to print (PDF)',
    table: 'What each tune asks of the levers',
    sortBy: (column: string) => `Sort by ${column}`,
    filter: {
      playable: 'playable throughout',
      asTuned: 'no string to retune',
      mostChanges: 'no more changes than',
    },
    set: {
      column: 'Set',
      mark: (title: string) => `Take ${title} into the set`,
      heading: 'A set',
      intro: `Mark up to ${MOST_TUNES_IN_SET} tunes in the table: you are told the order with the fewest lever changes between them, and what to set before each.`,
      chosen: (count: number) => `${nameCount(count, 'tune')} marked, of at most ${MOST_TUNES_IN_SET}`,
      goTo: (count: number) => `${nameCount(count, 'tune')} marked: go to the set`,
      clear: 'Clear the marks',
      tuning: 'Strings tuned in',
      ownTuning: 'as the harp is',
      ask: 'Find the best order',
      asking: 'Trying the orders …',
      found: (tuning: string) => `The best order, tuned in ${tuning}`,
      trouble: (stops: number) => `${nameCount(stops, 'place')} not playable in this tuning`,
      during: (changes: number) => `${nameCount(changes, 'lever change')} during it`,
      music: 'Music of the tunes',
      musics: { none: 'none', 'first-bars': 'their first bars', pages: 'all their pages' },
      pdf: 'Set to print (PDF)',
      together: 'Tunes that fit together',
      togetherIntro:
        'The tunes of each group are played one after the other with nothing set and nothing retuned.',
      take: (count: number) =>
        count > MOST_TUNES_IN_SET ? `Take the first ${MOST_TUNES_IN_SET}` : 'Take these',
    },
  },
  demo: 'Show the lever harp demo',
  demoTitle: 'The Ribbon Stall',
} as const;
