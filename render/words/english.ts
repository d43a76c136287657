import {
  capitalize,
  describeEasy,
  describeShare,
  describeStringRetuning,
  describeUnplayable,
  describeVerdict,
  type FailingBars,
  FINDINGS,
  formatBeatText,
  GRADE_WORDS,
  type Grade,
  type HarpKind,
  listNames,
  type Measures,
  nameBars,
  nameCount,
  nameExtent,
  OWN_SCALE,
  openWithCount,
  PRICES,
  REASONS,
  SEVERITY_WORDS,
  type Side,
  type Verdict,
} from '../../engine/index.ts';
import { HANDOUTS } from '../handouts/handout-words.ts';

const mapValues = <Key extends string, Value, Made>(
  record: Readonly<Record<Key, Value>>,
  make: (value: Value) => Made,
): Readonly<Record<Key, Made>> =>
  Object.fromEntries(
    Object.entries<Value>(record).map(([key, value]) => [key, make(value)]),
  ) as unknown as Readonly<Record<Key, Made>>;

/** The words of the sheets in English: what the engine says, and what the sheets say beside it. */
export const ENGLISH = {
  notes: {
    positions: { flat: 'flat', natural: 'natural', sharp: 'sharp' },
    list: (names: readonly string[]) => listNames(names),
    /** @param tonic its name */
    major: (tonic: string) => `${tonic} major`,
    minor: (tonic: string) => `${tonic} minor`,
    /** The tonic of a minor key where it stands alone. */
    minorTonic: (tonic: string) => tonic,
  },

  feet: { left: 'left', right: 'right' },
  footHeads: { left: 'Left foot', right: 'Right foot' },

  places: {
    /** Printed numbers of the first and the last bar. */
    bars: (from: string, until: string) => capitalize(nameBars(from, until)),
    extent: (where: {
      readonly from: string;
      readonly until: string;
      readonly beat: string;
      readonly places: number;
      readonly notes: number;
    }) => nameExtent(where),
    beatInBar: (bar: string, beat: string) => `Bar ${bar}, beat ${formatBeatText(beat)}`,
  },

  study: {
    edition: 'study edition',
    contents: 'Contents',
    opening: 'Opening setting',
    tune: 'To tune beforehand',
    difficulty: (grade: string) => `Difficulty: ${grade}`,
    ownScale: OWN_SCALE as string,
    moves: 'Moves',
    noMoves: 'No pedal moves in this part.',
    moveCount: (moves: number, perMinute: number) =>
      `${openWithCount(moves, 'move')}, ${perMinute.toFixed(1)} a minute while the harp plays.`,
    busiest: 'Busiest bars',
    noBusyBars: 'No bar has more than one move.',
    busyBar: (bar: string, count: number, changes: string) => `Bar ${bar}: ${count} moves (${changes})`,
    passages: 'Difficulty by passage',
    passageHeads: { bars: 'Bars', grade: 'Difficulty', moves: 'Moves', perMinute: 'A minute', why: 'Why' },
    part: 'The part',
    chart: 'Pedal chart',
    chartLegend:
      'One lane for each pedal: the left foot’s three above, the right foot’s four below. A line at the top of its lane is a flat, in the middle a natural, at the bottom a sharp, as the pedals stand. Each move bears the name that the pedal then gives; each line begins with the setting in force. Several bars without a move are told as one: a thick line is a rest, dots are music.',
    table: 'Table of moves',
    tableHeads: {
      bar: 'Bar',
      beat: 'Beat',
      foot: 'Foot',
      pedal: 'Pedal',
      from: 'From',
      to: 'To',
      lead: 'Lead',
      why: 'Why there',
    },
    tableLegend:
      'Lead is the time from the move to the first note that needs it, at the written tempo, if the part is read straight on.',
    /** @param middleC its name with the number of its octave */
    octaves: (middleC: string) => `${middleC} is the middle C.`,
    footwork: 'Footwork line',
    footworkLegend:
      'The feet alone, away from the strings: count aloud and move each pedal on its count. A fraction is the part of the beat that has passed, and a number over a thick line a rest of so many bars. Give your feet a rest before you begin again.',
    spots: 'Hard spots',
    spotsLegend:
      'The passages that are not easy, the hardest first. Practise them from the last to the first, and rest hands and feet between two exercises.',
    noSpots: 'Every passage is easy.',
    spot: (rank: number, bars: string, grade: string) => `${rank}. ${bars}: ${grade}`,
    exercises: 'Exercises',
    noExercises: 'None: as printed this passage cannot be played. Choose a remedy from the findings first.',
    feetAlone: 'The feet alone: the footwork above, counting aloud, without the strings.',
    handsAlone: 'The hands alone, the pedals left where the passage begins: some notes sound otherwise.',
    slowly: (tempo: number) =>
      `Hands and feet together, slowly: at ♩ = ${tempo} each foot has a second between its moves.`,
    inTempo: (tempo: number) =>
      `Hands and feet together at the written tempo, ♩ = ${tempo}: each foot has a second between its moves.`,
    ladder: (tempi: readonly number[]) =>
      tempi.length === 1
        ? `Three times without a fault at ♩ = ${tempi[0]}.`
        : `Up the ladder, three times without a fault at each step: ♩ = ${tempi.join(', ')}.`,
    findings: 'Findings',
    noFindings: 'No problems found: the part is playable as printed.',
    notes: 'Notes',
    seconds: (seconds: number) => `${seconds.toFixed(1)} s`,
    rate: (perMinute: number) => perMinute.toFixed(1),
    whyAfter: (note: string, bar: string) => `after ${note} in bar ${bar}`,
    whyFromStart: 'any time from the start',
    whyBefore: (note: string, bar: string, beat: string) => `before ${note} in bar ${bar}, beat ${beat}`,
    whyAfterJump: 'the next note that needs it comes after a jump',
    whyRestores: 'it brings the pedal back for the repeat',
    whyBeforeGrace: 'before the grace note',
    whyAgainst: (drawbacks: readonly string[]) => `Against it: ${drawbacks.join('; ')}`,
  },

  /** What stands under a change on the pages of music. */
  inWords: {
    /** @param pedal its letter */
    pedal: (pedal: string, position: string) => `${pedal} to ${position}`,
    feet: { left: 'left foot', right: 'right foot' },
    levers: { up: 'lever up', down: 'lever down' },
    hands: { left: 'left hand', right: 'right hand' },
  },

  reading: {
    title: 'How the markings are read',
    onThePages: 'On the pages of music',
    setting: 'A diagram shows how all pedals stand from there on.',
    change: {
      foot: 'A letter with its sign is a change: there the foot moves this pedal, ahead of the note that needs it.',
      note: 'A letter with its sign is a change: the pedal has to stand so when this note comes.',
    },
    feet: 'Where both feet move, the right foot is above, the left foot below.',
    ring: 'A ring is round a pedal that has moved since the last diagram.',
    wedge: 'A wedge after a change means: exactly with the note.',
    counts: 'The figures over the music are the counts.',
    colours: {
      'c-red-f-black': 'Notes on C strings are red, as the strings are.',
      'c-red-f-blue':
        'Notes on C strings are red and those on F strings blue, so that the strings are found at once.',
    },
    leverTable:
      'The table of the levers has a column for each letter and a row for each octave. A triangle is a lever that is up, a dash one that is down.',
    leverChange: {
      names:
        'A name with a number is a change: there a hand sets the lever of this string, which then gives this note.',
      notes:
        'A small note is a change: there a hand sets the lever of this string, which then gives this note.',
    },
    leverHands: 'Before the name stands the hand that does it.',
  },

  exercise: {
    title: 'Exercise',
    solution: 'Solution',
    task: {
      pedal: {
        boxes:
          'Write into each box what stands there: into a wide one how all pedals stand, into a small one the change. The solution is on the last pages.',
        none: 'Write in how the pedals stand before the first note, and every change where the foot moves. The solution is on the last pages.',
      },
      lever: {
        boxes:
          'Write into each box what stands there: before the first note which levers are up, later each change. The solution is on the last pages.',
        none: 'Write in which levers are up before the first note, and every change where a hand is free. The solution is on the last pages.',
      },
    },
  },

  /** A pupil’s attempt, marked. */
  marked: {
    title: 'Marked',
    points: (given: number, most: number) => `${given} of ${most} points`,
    counts: (counts: Readonly<Record<Verdict, number>>) =>
      [
        `${counts.right} right`,
        `${counts['better-place']} with a better place`,
        `${counts.wrong} wrong`,
        `${counts.missing} missing`,
        `${counts.needless} not needed`,
      ].join(', '),
    verdicts: {
      right: 'Right',
      'better-place': 'Right, but there is a better place',
      wrong: 'Wrong',
      missing: 'Missing',
      needless: 'Not needed',
    },
    opening: 'opening setting',
    /** @param place such as “Bar 7, beat 3”, what such as “F♯” */
    comment: (place: string, what: string, verdict: string) => `${place}, ${what}: ${verdict}.`,
    sounds: (place: string, note: string, instead: string) => `${place}: ${note} sounds as ${instead}.`,
    unstated: (place: string, note: string) => `${place}: nothing says how the pedal of ${note} stands.`,
    write: (names: string) => `Write ${names}.`,
    move: (place: string) => `It belongs here: ${place}.`,
    strike: 'Strike it out.',
    tooQuick: 'The foot has no time there.',
    better: (place: string, why: string) => `Better here: ${place}. ${why}`,
    why: {
      bends: 'A string of this pedal is still ringing where it stands.',
      late: 'It comes hard upon its note, though the foot is free before.',
      early: 'It comes so long before its note that it must be kept in mind.',
    },
    needless: {
      stands: 'The pedal stands so already.',
      unasked: 'No note asks for it.',
      twice: 'It is written here already.',
    },
    allRight: 'Every note finds its pedal, and every change stands well.',
  },

  card: {
    moves: 'Pedal moves',
    changes: 'Lever changes',
    none: 'none',
    perMinute: (count: number, perMinute: number) =>
      `${count}, ${perMinute.toFixed(1)} a minute while the harp plays`,
    /** @param length as a clock tells it */
    lasts: (length: string, bars: number, assumed: boolean) =>
      `${length}, ${nameCount(bars, 'bar')}${assumed ? ' (no tempo is given: at a walking pace)' : ''}`,
    tune: 'To tune',
    tuning: 'Tuning',
  },

  tuning: {
    withoutDisc: (from: string, to: string) => `${from} to ${to}: this string has no disc.`,
    retunedLetter: (from: string, to: string) => `All ${from} strings to ${to}.`,
    retunedStrings: (from: string, octaves: readonly string[], to: string) =>
      octaves.length === 1
        ? `The ${from} string of octave ${octaves[0]} to ${to}.`
        : `The ${from} strings of octaves ${listNames(octaves)} to ${to}.`,
    /** A string that the user tunes otherwise. */
    byCents: (string: string, cents: number) => `${describeStringRetuning(string, cents)}.`,
    nothing: 'Nothing beyond the usual tuning.',
    // Common practice, no source.
    caution: 'Do not raise a string above its usual pitch unless a harp technician agrees.',
  },

  levers: {
    harp: (strings: number) => `Lever harp, ${strings} strings`,
    start: {
      tuning: (key: string) => `Tuning ${key}.`,
      allDown: 'All levers down.',
      up: (names: readonly string[]) => `Levers up: ${names.join(', ')}.`,
      allOf: (name: string) => `all ${name}`,
    },
    strings: 'Levers before the start',
    stringsLegend:
      'The strings from the lowest. A black lever across a string is up, a grey one beside it down. Over a raised string stands what it gives, under each what it is tuned to.',
    tuningSheet: 'Tuning sheet',
    tuningHeads: {
      string: 'String',
      custom: 'By custom',
      tuneTo: 'Tune to',
      change: 'Change',
      up: 'Levers up',
      gives: 'With the lever',
      fixed: 'Without a lever',
    },
    tuningLegend: (tuning: string, harp: string) =>
      `${harp}. Tune all strings with the levers down: ${tuning}. Then set the levers.`,
    retuned: (semitones: number) =>
      `${nameCount(Math.abs(semitones), 'semitone')} ${semitones > 0 ? 'up' : 'down'}`,
    all: 'all',
    octaves: (octaves: readonly number[]) =>
      `${octaves.length === 1 ? 'octave' : 'octaves'} ${octaves.join(', ')}`,
    changes: 'Lever changes',
    noChanges: 'No lever changes in this part.',
    changeCount: (changes: number, perMinute: number) =>
      `${openWithCount(changes, 'change')}, ${perMinute.toFixed(1)} a minute while the harp plays.`,
    noBusyBars: 'No bar has more than one change.',
    busyBar: (bar: string, count: number, changes: string) => `Bar ${bar}: ${count} changes (${changes})`,
    passageChanges: 'Changes',
    line: 'Levers alone',
    lineLegend:
      'The levers without the strings: count aloud, and let the hand that is named set the lever on its count and go back. The name is what the string then gives. A fraction is the part of the beat that has passed, and a number over a thick line a rest of so many bars. Rest your hands before you begin again.',
    table: 'Table of changes',
    tableHeads: {
      bar: 'Bar',
      beat: 'Beat',
      hand: 'Hand',
      lever: 'Lever',
      to: 'To',
      gives: 'Gives',
      lead: 'Lead',
      why: 'Why there',
    },
    tableLegend:
      'Lead is the time from the change to the first note that needs it, at the written tempo, if the part is read straight on.',
    positions: { up: 'up', down: 'down' },
    hands: { left: 'left', right: 'right' },
    /** Short, as hands are named in the music. */
    handLabels: { left: 'l.h.', right: 'r.h.' },
    handFree: (hand: Side, leaves: string | null, returns: string | null) =>
      leaves === null && returns === null
        ? `the ${hand} hand is free throughout`
        : `the ${hand} hand is free ${[
            ...(leaves === null ? [] : [`after ${leaves}`]),
            ...(returns === null ? [] : [`until ${returns}`]),
          ].join(' ')}`,
    noteAt: (note: string, bar: string) => `${note} in bar ${bar}`,
    spotsLegend:
      'The passages that are not easy, the hardest first. Practise them from the last to the first, and rest your hands between two exercises.',
    leversAlone:
      'The levers alone: the line above, counting aloud, without the strings; each hand comes back to its place over the strings.',
    aroundEach:
      'Only what stands round each change, as slowly as you like: the last note of that hand before it, the lever, and its first note after it, until the hand finds all three without a look.',
    handsAlone: 'The notes alone, the levers left where the passage begins: some notes sound otherwise.',
    slowly: (tempo: number) =>
      `Notes and levers together, slowly: at ♩ = ${tempo} each hand has a second between its levers.`,
    inTempo: (tempo: number) =>
      `Notes and levers together at the written tempo, ♩ = ${tempo}: each hand has a second between its levers.`,
  },

  drawbacks: mapValues(PRICES, ({ against }) => against),

  difficulty: {
    grades: GRADE_WORDS,
    reasons: REASONS,
    easy: (measures: Measures, harp: HarpKind) => describeEasy(measures, harp),
    unplayable: (failing: FailingBars) => describeUnplayable(failing),
    share: (passages: number, of: number, grade: Grade) => describeShare(passages, of, grade),
    verdict: (failing: FailingBars, measures: Measures, harp: HarpKind) =>
      describeVerdict(failing, measures, harp),
  },

  findings: {
    severities: mapValues(SEVERITY_WORDS, ({ name }) => name),
    /** In English the engine tells more. */
    sentences: mapValues(FINDINGS, ({ title }) => `${title}.`),
    respell: (from: string, to: string) => `Play ${from} as ${to}.`,
    omit: (note: string) => `Leave out ${note}.`,
  },

  handouts: {
    titles: mapValues(HANDOUTS, ({ title }) => title as string),
    pedalKeys: 'Keys on the pedal harp',
    pedalKeysLegend:
      'A major key and its relative minor have one setting. For the harmonic minor and the rising melodic minor move these pedals too. A double sharp, in brackets here, no pedal gives: it is played on the string above, whose pedal moves for it.',
    pedalKeyHeads: {
      major: 'Major',
      minor: 'Minor',
      setting: 'Setting',
      names: '',
      harmonic: 'Harmonic',
      melodic: 'Melodic, rising',
    },
    leverKeys: 'Keys on the lever harp',
    /** @param tuning the key that the open strings are tuned to */
    leverKeysLegend: (tuning: string) =>
      `The strings are tuned to ${tuning} with all levers down. “Up” is a lever to set; in the last column stand the strings of a letter to be retuned before the piece, in every octave. Do not raise a string above its usual pitch unless a harp technician agrees.`,
    leverTables: {
      major: 'Major and natural minor',
      'harmonic minor': 'Harmonic minor',
      'melodic minor': 'Melodic minor, rising',
    },
    key: 'Key',
    toRetune: 'To retune',
    up: 'up',
    retune: (letter: string, to: string) => `${letter} strings to ${to}`,
    glissandi: 'Chords and scales for glissandi',
    glissandiLegend:
      'With these settings every string gives a note of the chord or scale, and no other. Of several settings the one with the fewest doubled strings is shown.',
    sounds: {
      'diminished seventh': 'Diminished seventh',
      'dominant ninth': 'Dominant ninth',
      'dominant seventh': 'Dominant seventh',
      'minor seventh': 'Minor seventh',
      'half-diminished seventh': 'Half-diminished seventh',
      'major sixth': 'Major sixth',
      'whole tone': 'Whole tone',
      'major pentatonic': 'Major pentatonic',
      'minor pentatonic': 'Minor pentatonic',
      major: 'Major',
      'harmonic minor': 'Harmonic minor',
    },
    noSetting: (roots: readonly string[]) => `No setting gives just these notes on ${roots.join(', ')}.`,
    doubled: 'Doubled strings',
    doubledLegend:
      'Two neighbouring strings can give one pitch: for repeated notes without damping, for a tremolo on one pitch, and for a fuller sound. Three pitches stand alone: the strings beside them would need a double sharp or a double flat.',
    doubledHeads: { pitch: 'Pitch', strings: 'Strings', pedals: 'Pedals' },
    oneString: 'one only',
    twoStrings: 'two',
    oneEachFoot: (pedals: string) => `${pedals}, one with each foot`,
    bothOneFoot: (pedals: string, foot: Side) => `${pedals}, both with the ${foot} foot`,
    fullest: 'Three doubled pitches at once',
    fullestLegend: (settings: number, strings: number) =>
      `The ${settings} settings in which three pitches are doubled, so that the ${strings} strings of an octave give only four notes.`,
    mechanism: 'How pedals and discs work',
    // Common practice, no source, where the engine does not know it.
    mechanismLegend:
      'Seven pedals, one for each letter. A pedal governs all strings of its letter at once, in every octave, over rods in the column and two discs at each string.',
    positions: 'Three positions',
    positionsLegend:
      'Each disc that holds the string makes it sound a semitone higher: the thick part of the string is what sounds. All other pedals work alike. No pedal gives a double sharp or a double flat: such a note is played on a neighbouring string.',
    gives: (name: string) => `gives ${name}`,
    notches: {
      flat: 'top notch, no disc holds',
      natural: 'middle notch, the upper disc holds',
      sharp: 'bottom notch, both discs hold',
    },
    twoFeet: 'Two feet',
    pedalsOfFoot: {
      left: (letters: string) => `The left foot has the pedals ${letters}, from the outside inwards.`,
      right: (letters: string) => `The right foot has the pedals ${letters}, from the inside outwards.`,
    },
    /** @param key that the picture is set for */
    twoFeetLegend: (key: string) =>
      `Seen from the player’s seat, here set for ${key}. A foot moves one pedal at a time, best while the strings of that letter are silent: one that sounds buzzes or bends.`,
    diagram: 'How a diagram is read',
    diagramLegend: (setting: string) =>
      `The same setting as it is printed: one stroke for each pedal in their order, left foot and right foot parted by the upright line. Above the line is flat, across it natural, below it sharp: ${setting}.`,
    fixed: 'Strings without discs',
    fixedHeads: { strings: 'Strings', range: 'Range', fixed: 'Without discs', harp: 'Harp' },
    fixedLegend:
      'No pedal moves these strings. They are tuned by hand before the piece to what it needs, and keep that pitch throughout. Do not raise a string above its usual pitch unless a harp technician agrees.',
    noFixed: 'none',
    /** @param name as the harp is called in English */
    pedalHarp: (_strings: number, name: string) => name,
  },

  set: {
    title: 'Class set',
    contents: 'Contents',
    difficulty: 'Difficulty',
    difficultyLegend: (ownScale: string) =>
      `The easiest first. A minute counts only while the harp plays. ${ownScale}`,
    heads: {
      page: 'Page',
      grade: 'Difficulty',
      changes: 'Changes',
      perMinute: 'A minute',
      length: 'Length',
      piece: 'Piece',
    },
    refused: 'Not in this set',
  },
} as const;
