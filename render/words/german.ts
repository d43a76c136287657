import { capitalize, type FailingBars, type Measures } from '../../engine/index.ts';
import { withComma } from './decimal-comma.ts';
import type { Words } from './worded.ts';

const count = (number: number, one: string, several: string): string =>
  `${number} ${number === 1 ? one : several}`;

const list = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} und ${names.at(-1)}`;

const bars = (from: string, until: string): string =>
  from === '' || until === ''
    ? 'Takt ohne Nummer'
    : from === until
      ? `Takt ${from}`
      : `Takte ${from}–${until}`;

const inBars = (number: number): string => `in ${count(number, 'Takt', 'Takten')}`;

const failingWords = ({ feet, hands, strings }: FailingBars): string =>
  [
    ...(feet > 0 ? [`die Füße haben ${inBars(feet)} keine Zeit`] : []),
    ...(hands > 0 ? [`${inBars(hands)} ist keine Hand für eine Klappe frei`] : []),
    ...(strings > 0 ? [`die Saiten können ${inBars(strings)} die Töne nicht geben`] : []),
  ].join(', ');

const handsWords = ({ barsOverloaded: { left, right } }: Measures): string =>
  [
    ...(left > 0 ? [`die linke Hand hat ${inBars(left)} zu viel`] : []),
    ...(right > 0 ? [`die rechte Hand hat ${inBars(right)} zu viel`] : []),
  ].join(', ');

/** German writes minor tonics small: `a-Moll`. */
const minorTonic = (tonic: string): string => `${tonic.charAt(0).toLowerCase()}${tonic.slice(1)}`;

const GRADES = {
  easy: 'leicht',
  moderate: 'mittel',
  hard: 'schwer',
  'very-hard': 'sehr schwer',
  'not-playable': 'nicht spielbar',
} as const;

/**
 * The words of the sheets in German. From memory: Pedalstellung, Pedalwechsel, Klappe (the lever), Stimmscheibe
 * (the disc), “Be”, “Auflöser” and “Kreuz” for the notches; no method was at hand.
 */
export const GERMAN: Words = {
  notes: {
    positions: { flat: 'Be', natural: 'Auflöser', sharp: 'Kreuz' },
    list,
    major: (tonic) => `${tonic}-Dur`,
    minor: (tonic) => `${minorTonic(tonic)}-Moll`,
    minorTonic,
  },
  feet: { left: 'links', right: 'rechts' },
  footHeads: { left: 'Linker Fuß', right: 'Rechter Fuß' },
  places: {
    bars,
    extent: ({ from, until, beat, places, notes }) =>
      places === 1
        ? `${bars(from, from)}, Zählzeit ${beat}`
        : `${bars(from, until)}, ${notes > 0 ? count(notes, 'Note', 'Noten') : count(places, 'Stelle', 'Stellen')}`,
    beatInBar: (bar, beat) => `Takt ${bar}, Zählzeit ${beat}`,
  },
  study: {
    edition: 'Studienausgabe',
    contents: 'Inhalt',
    opening: 'Pedalstellung am Anfang',
    tune: 'Vorher zu stimmen',
    difficulty: (grade) => `Schwierigkeit: ${grade}`,
    ownScale: 'Eine veröffentlichte Skala gibt es nicht: Die Grade sind unsere eigenen.',
    moves: 'Pedalwechsel',
    noMoves: 'In dieser Stimme wechselt kein Pedal.',
    moveCount: (moves, perMinute) =>
      `${moves} Pedalwechsel, ${withComma(perMinute, 1)} in der Minute, solange die Harfe spielt.`,
    busiest: 'Takte mit den meisten Wechseln',
    noBusyBars: 'Kein Takt hat mehr als einen Wechsel.',
    busyBar: (bar, moves, changes) => `Takt ${bar}: ${moves} Wechsel (${changes})`,
    passages: 'Schwierigkeit nach Abschnitten',
    passageHeads: {
      bars: 'Takte',
      grade: 'Schwierigkeit',
      moves: 'Wechsel',
      perMinute: 'je Minute',
      why: 'Warum',
    },
    part: 'Die Stimme',
    chart: 'Pedalplan',
    chartLegend:
      'Eine Bahn für jedes Pedal: oben die drei des linken Fußes, unten die vier des rechten. Oben in der Bahn steht das Pedal auf Be, in der Mitte auf Auflöser, unten auf Kreuz, wie an der Harfe. Jeder Wechsel trägt den Namen des Tons, den das Pedal dann gibt; jede Zeile beginnt mit der Stellung, die gerade gilt. Mehrere Takte ohne Wechsel stehen als einer: Ein dicker Strich ist eine Pause, Punkte sind Musik.',
    table: 'Tabelle der Pedalwechsel',
    tableHeads: {
      bar: 'Takt',
      beat: 'Zählzeit',
      foot: 'Fuß',
      pedal: 'Pedal',
      from: 'von',
      to: 'auf',
      lead: 'Vorlauf',
      why: 'Warum dort',
    },
    tableLegend:
      'Der Vorlauf ist die Zeit vom Wechsel bis zur ersten Note, die ihn braucht, im notierten Tempo und ohne Sprünge gelesen.',
    octaves: (middleC) => `${middleC} ist das eingestrichene C.`,
    footwork: 'Die Füße allein',
    footworkLegend:
      'Die Füße allein, ohne Saiten: laut zählen und jedes Pedal auf seine Zählzeit bewegen. Ein Bruch ist der Teil der Zählzeit, der vergangen ist, eine Zahl über einem dicken Strich eine Pause von so vielen Takten. Vor jeder Wiederholung die Füße ausruhen.',
    spots: 'Schwere Stellen',
    spotsLegend:
      'Die Abschnitte, die nicht leicht sind, die schwersten zuerst. Geübt wird von der letzten zur ersten; zwischen zwei Übungen ruhen Hände und Füße.',
    noSpots: 'Alle Abschnitte sind leicht.',
    spot: (rank, where, grade) => `${rank}. ${where}: ${grade}`,
    exercises: 'Übungen',
    noExercises:
      'Keine: Wie er gedruckt ist, lässt sich dieser Abschnitt nicht spielen. Zuerst unter den Hinweisen eine Abhilfe wählen.',
    feetAlone: 'Die Füße allein, wie oben notiert: laut zählen, ohne Saiten.',
    handsAlone:
      'Die Hände allein, die Pedale bleiben, wie sie am Anfang des Abschnitts stehen: Manche Töne klingen dann anders.',
    slowly: (tempo) =>
      `Hände und Füße zusammen, langsam: Bei ♩ = ${tempo} hat jeder Fuß eine Sekunde zwischen seinen Wechseln.`,
    inTempo: (tempo) =>
      `Hände und Füße zusammen im notierten Tempo, ♩ = ${tempo}: Jeder Fuß hat eine Sekunde zwischen seinen Wechseln.`,
    ladder: (tempi) =>
      tempi.length === 1
        ? `Dreimal ohne Fehler bei ♩ = ${tempi[0]}.`
        : `Stufe für Stufe schneller, auf jeder dreimal ohne Fehler: ♩ = ${tempi.join(', ')}.`,
    findings: 'Hinweise',
    noFindings: 'Keine Schwierigkeiten gefunden: Die Stimme ist spielbar, wie sie gedruckt ist.',
    notes: 'Notizen',
    seconds: (seconds) => `${withComma(seconds, 1)} s`,
    rate: (perMinute) => withComma(perMinute, 1),
    whyAfter: (note, bar) => `nach ${note} in Takt ${bar}`,
    whyFromStart: 'jederzeit vom Anfang an',
    whyBefore: (note, bar, beat) => `vor ${note} in Takt ${bar}, Zählzeit ${beat}`,
    whyAfterJump: 'die nächste Note, die ihn braucht, kommt nach einem Sprung',
    whyRestores: 'er stellt das Pedal für die Wiederholung zurück',
    whyBeforeGrace: 'vor der Vorschlagsnote',
    whyAgainst: (drawbacks) => `Dagegen spricht: ${drawbacks.join('; ')}`,
  },

  inWords: {
    pedal: (pedal, position) => `${pedal} auf ${position}`,
    feet: { left: 'linker Fuß', right: 'rechter Fuß' },
    levers: { up: 'Klappe nach oben', down: 'Klappe nach unten' },
    hands: { left: 'linke Hand', right: 'rechte Hand' },
  },
  reading: {
    title: 'Wie die Zeichen gelesen werden',
    onThePages: 'Auf den Notenseiten',
    setting: 'Ein Diagramm zeigt, wie alle Pedale von dort an stehen.',
    change: {
      foot: 'Ein Tonname ist ein Wechsel: Dort bewegt der Fuß dieses Pedal, noch vor der Note, die es braucht.',
      note: 'Ein Tonname ist ein Wechsel: Bei dieser Note muss das Pedal so stehen.',
    },
    feet: 'Wo beide Füße wechseln, steht der rechte oben, der linke unten.',
    ring: 'Eingekreist ist ein Pedal, das seit dem letzten Diagramm gewechselt hat.',
    wedge: 'Ein Keil hinter dem Wechsel heißt: genau mit der Note.',
    counts: 'Die Ziffern über den Noten sind die Zählzeiten.',
    colours: {
      'c-red-f-black': 'Noten auf C-Saiten sind rot wie die Saiten.',
      'c-red-f-blue':
        'Noten auf C-Saiten sind rot und die auf F-Saiten blau, damit die Saiten sofort zu finden sind.',
    },
    leverTable:
      'Die Tabelle der Klappen hat eine Spalte für jeden Tonnamen und eine Zeile für jede Oktave. Ein Dreieck ist eine Klappe oben, ein Strich eine unten.',
    leverChange: {
      names:
        'Ein Name mit Zahl ist ein Wechsel: Dort stellt eine Hand die Klappe dieser Saite, die dann diesen Ton gibt.',
      notes:
        'Eine kleine Note ist ein Wechsel: Dort stellt eine Hand die Klappe dieser Saite, die dann diesen Ton gibt.',
    },
    leverHands: 'Vor dem Namen steht die Hand, die es tut.',
  },
  exercise: {
    title: 'Übungsblatt',
    solution: 'Lösung',
    task: {
      pedal: {
        boxes:
          'In jedes Kästchen gehört, was dort steht: in ein breites, wie alle Pedale stehen, in ein kleines der Wechsel. Die Lösung steht auf den letzten Seiten.',
        none: 'Trage ein, wie die Pedale vor der ersten Note stehen, und jeden Wechsel dort, wo der Fuß ihn macht. Die Lösung steht auf den letzten Seiten.',
      },
      lever: {
        boxes:
          'In jedes Kästchen gehört, was dort steht: vor der ersten Note, welche Klappen oben sind, später jeder Wechsel. Die Lösung steht auf den letzten Seiten.',
        none: 'Trage ein, welche Klappen vor der ersten Note oben sind, und jeden Wechsel dort, wo eine Hand frei ist. Die Lösung steht auf den letzten Seiten.',
      },
    },
  },

  marked: {
    title: 'Korrektur',
    points: (given, most) => `${given} von ${most} Punkten`,
    counts: (counts) =>
      [
        `${counts.right} richtig`,
        `${counts['better-place']} mit besserer Stelle`,
        `${counts.wrong} falsch`,
        `${counts.missing} ${counts.missing === 1 ? 'fehlt' : 'fehlen'}`,
        `${counts.needless} unnötig`,
      ].join(', '),
    verdicts: {
      right: 'Richtig',
      'better-place': 'Richtig, aber es gibt eine bessere Stelle',
      wrong: 'Falsch',
      missing: 'Fehlt',
      needless: 'Unnötig',
    },
    opening: 'Stellung am Anfang',
    comment: (place, what, verdict) => `${place}, ${what}: ${verdict}.`,
    sounds: (place, note, instead) => `${place}: Statt ${note} klingt ${instead}.`,
    unstated: (place, note) => `${place}: Nirgends steht, wie das Pedal von ${note} steht.`,
    write: (names) => `Hierher gehört ${names}.`,
    move: (place) => `Der Wechsel gehört hierher: ${place}.`,
    strike: 'Streichen.',
    tooQuick: 'Der Fuß hat dort keine Zeit.',
    better: (place, why) => `Besser hier: ${place}. ${why}`,
    why: {
      bends: 'Wo der Wechsel steht, klingt noch eine Saite dieses Pedals.',
      late: 'Er kommt unmittelbar vor seiner Note, obwohl der Fuß vorher frei ist.',
      early: 'Er kommt so lange vor seiner Note, dass man ihn sich merken muss.',
    },
    needless: {
      stands: 'Das Pedal steht schon so.',
      unasked: 'Keine Note braucht ihn.',
      twice: 'Er steht hier schon.',
    },
    allRight: 'Jede Note findet ihr Pedal, und jeder Wechsel steht gut.',
  },

  card: {
    moves: 'Pedalwechsel',
    changes: 'Klappenwechsel',
    none: 'keine',
    perMinute: (count, perMinute) =>
      `${count}, ${withComma(perMinute, 1)} in der Minute, solange die Harfe spielt`,

    lasts: (length, bars, assumed) =>
      `${length}, ${bars} ${bars === 1 ? 'Takt' : 'Takte'}${assumed ? ' (ohne Tempoangabe: im Schritttempo)' : ''}`,
    tune: 'Zu stimmen',
    tuning: 'Stimmung',
  },

  tuning: {
    withoutDisc: (from, to) => `${from} auf ${to}: Diese Saite hat keine Stimmscheibe.`,
    retunedLetter: (from, to) => `Alle ${from}-Saiten auf ${to}.`,
    retunedStrings: (from, octaves, to) =>
      `Die ${from}-${octaves.length === 1 ? 'Saite der Oktave' : 'Saiten der Oktaven'} ${list(octaves)} auf ${to}.`,
    byCents: (string, cents) => `${string} um ${Math.abs(cents)} Cent ${cents > 0 ? 'höher' : 'tiefer'}.`,
    nothing: 'Nichts außer der üblichen Stimmung.',
    caution:
      'Keine Saite über ihre übliche Tonhöhe stimmen, ohne dass eine Harfentechnikerin oder ein Harfentechniker zustimmt.',
  },

  levers: {
    harp: (strings) => `Klappenharfe mit ${strings} Saiten`,
    start: {
      tuning: (key) => `Stimmung ${key}.`,
      allDown: 'Alle Klappen unten.',
      up: (names) => `Klappen oben: ${names.join(', ')}.`,
      allOf: (name) => `alle ${name}`,
    },
    strings: 'Klappen vor dem Anfang',
    stringsLegend:
      'Die Saiten von der tiefsten an. Eine schwarze Klappe quer über der Saite ist oben, eine graue daneben unten. Über einer erhöhten Saite steht, was sie gibt, unter jeder, worauf sie gestimmt ist.',
    tuningSheet: 'Stimmblatt',
    tuningHeads: {
      string: 'Saite',
      custom: 'Üblich',
      tuneTo: 'Stimmen auf',
      change: 'Änderung',
      up: 'Klappen oben',
      gives: 'Mit Klappe',
      fixed: 'Ohne Klappe',
    },
    tuningLegend: (tuning, harp) =>
      `${harp}. Alle Saiten mit den Klappen unten stimmen: ${tuning}. Dann die Klappen stellen.`,
    retuned: (semitones) =>
      `${count(Math.abs(semitones), 'Halbton', 'Halbtöne')} ${semitones > 0 ? 'höher' : 'tiefer'}`,
    all: 'alle',
    octaves: (octaves) => `${octaves.length === 1 ? 'Oktave' : 'Oktaven'} ${octaves.join(', ')}`,
    changes: 'Klappenwechsel',
    noChanges: 'In dieser Stimme wechselt keine Klappe.',
    changeCount: (changes, perMinute) =>
      `${changes} Klappenwechsel, ${withComma(perMinute, 1)} in der Minute, solange die Harfe spielt.`,
    noBusyBars: 'Kein Takt hat mehr als einen Klappenwechsel.',
    busyBar: (bar, changes, names) => `Takt ${bar}: ${changes} Wechsel (${names})`,
    passageChanges: 'Wechsel',
    line: 'Die Klappen allein',
    lineLegend:
      'Die Klappen ohne die Saiten: laut zählen; die genannte Hand stellt die Klappe auf ihrer Zählzeit und geht zurück. Der Name ist der Ton, den die Saite dann gibt. Ein Bruch ist der Teil der Zählzeit, der vergangen ist, eine Zahl über einem dicken Strich eine Pause von so vielen Takten. Vor jeder Wiederholung die Hände ausruhen.',
    table: 'Tabelle der Klappenwechsel',
    tableHeads: {
      bar: 'Takt',
      beat: 'Zählzeit',
      hand: 'Hand',
      lever: 'Klappe',
      to: 'Nach',
      gives: 'Gibt',
      lead: 'Vorlauf',
      why: 'Warum dort',
    },
    tableLegend:
      'Der Vorlauf ist die Zeit vom Klappenwechsel bis zur ersten Note, die ihn braucht, im notierten Tempo und ohne Sprünge gelesen.',
    positions: { up: 'oben', down: 'unten' },
    hands: { left: 'links', right: 'rechts' },
    handLabels: { left: 'l.H.', right: 'r.H.' },
    handFree: (hand, leaves, returns) =>
      `die ${hand === 'left' ? 'linke' : 'rechte'} Hand ist ${[
        ...(leaves === null ? [] : [`nach ${leaves}`]),
        ...(returns === null ? [] : [`bis ${returns}`]),
        ...(leaves === null && returns === null ? ['durchweg'] : []),
      ].join(' ')} frei`,
    noteAt: (note, bar) => `${note} in Takt ${bar}`,
    spotsLegend:
      'Die Abschnitte, die nicht leicht sind, die schwersten zuerst. Geübt wird von der letzten zur ersten; zwischen zwei Übungen ruhen die Hände.',
    leversAlone:
      'Die Klappen allein, wie oben notiert: laut zählen, ohne Saiten; jede Hand kehrt an ihren Platz über den Saiten zurück.',
    aroundEach:
      'Nur was um jeden Wechsel steht, beliebig langsam: die letzte Note dieser Hand davor, die Klappe und ihre erste Note danach, bis die Hand alle drei ohne Hinsehen findet.',
    handsAlone:
      'Die Noten allein, die Klappen bleiben, wie sie am Anfang des Abschnitts stehen: Manche Töne klingen dann anders.',
    slowly: (tempo) =>
      `Noten und Klappen zusammen, langsam: Bei ♩ = ${tempo} hat jede Hand eine Sekunde zwischen ihren Klappen.`,
    inTempo: (tempo) =>
      `Noten und Klappen zusammen im notierten Tempo, ♩ = ${tempo}: Jede Hand hat eine Sekunde zwischen ihren Klappen.`,
  },

  drawbacks: {
    move: 'jeder Wechsel zählt ein wenig',
    respelling: 'eine Note wird dafür umgedeutet',
    footTooBusy: 'der Fuß hat keine Zeit dafür',
    pedalsTogether: 'ein Fuß bewegt zwei Pedale zugleich',
    forbidden: 'hier sind keine Wechsel erlaubt',
    stringSounding: 'eine Saite dieses Pedals klingt noch',
    stringRinging: 'eine Saite dieses Pedals klingt vielleicht nach',
    noLead: 'er fällt mit der Note zusammen, die ihn braucht',
    shortLead: 'wenig Zeit vor der Note, die ihn braucht',
    offBeat: 'er liegt zwischen den Zählzeiten',
    betweenBeats: 'hier ist weder Zählzeit noch Note noch Pause',
    betweenBeatsOfRest: 'in der Pause liegt er zwischen den Zählzeiten',
    handsBusy: 'die Hände spielen',
    handsHolding: 'Töne werden gehalten',
    perNotePlucked: 'in diesem Augenblick werden Töne gezupft',
    insideRun: 'er liegt mitten in einem Lauf',
    closeMoves: 'derselbe Fuß hat kurz vorher gewechselt',
    perSecondAhead: 'er kommt lange vor seiner Note',
    perSecondForgotten: 'bis zur Note kann das Zeichen vergessen sein',
    missedRest: 'die Pause vorher wäre der Ort dafür gewesen',
    startsElsewhere: 'am Anfang steht das Pedal anders',
    restoring: 'er wird nur gebraucht, wenn die Musik hierher zurückkehrt',
    twoNotchesInHaste: 'zwei Stufen in wenig Zeit',
  },
  difficulty: {
    grades: GRADES,
    reasons: {
      mostInTenSeconds: ({ mostInTenSeconds: most }, harp) =>
        `Bis zu ${most} ${harp === 'pedal' ? 'Pedalwechsel' : 'Klappenwechsel'} in zehn Sekunden.`,
      shortestSpacing: ({ shortestSpacing: { left, right } }, harp) => {
        const isLeft = right === null || (left !== null && left <= right);
        const seconds = withComma(isLeft ? left! : right, 2);
        const who =
          harp === 'pedal'
            ? `Der ${isLeft ? 'linke' : 'rechte'} Fuß`
            : `Die ${isLeft ? 'linke' : 'rechte'} Hand`;
        return `${who} hat nur ${seconds} s zwischen zwei ${harp === 'pedal' ? 'Pedalwechseln' : 'Klappen'}.`;
      },
      atThePluck: ({ atThePluck }) =>
        `${Math.round(atThePluck * 100)} % der Wechsel fallen mit der Note zusammen, die sie braucht.`,
      stringsBent: ({ stringsBent }) =>
        stringsBent === 1
          ? 'Ein Wechsel verbiegt einen Ton, der noch klingt.'
          : `${stringsBent} Wechsel verbiegen einen Ton, der noch klingt.`,
      barsOverloaded: (measures) => `${capitalize(handsWords(measures))}.`,
      feetTogether: ({ feetTogether }) => `${feetTogether}-mal bewegen sich zwei Pedale zugleich.`,
      notesPerSecond: ({ notesPerSecond }) =>
        `Die Hände spielen ${notesPerSecond.toFixed(0)} Töne in der Sekunde.`,
    },
    easy: ({ changes }, harp) => {
      const [none, seldom] =
        harp === 'pedal'
          ? ['Kein Pedal wechselt', 'Die Pedale wechseln selten']
          : ['Keine Klappe wechselt', 'Die Klappen wechseln selten'];
      return `${changes === 0 ? none : seldom}, und die Hände haben Zeit.`;
    },
    unplayable: (failing) => `Nicht spielbar, wie es gedruckt ist: ${failingWords(failing)}.`,
    share: (passages, of, grade) =>
      of === 1
        ? `Die Stimme ist ${GRADES[grade]}.`
        : `${passages} von ${of} Abschnitten ${passages === 1 ? 'ist' : 'sind'} ${GRADES[grade]}.`,
    verdict: (failing, measures, harp) => {
      const hands = handsWords(measures);
      if (failing.first !== null) {
        const where = failing.first === '' ? '' : `: das erste Hindernis steht in Takt ${failing.first}`;
        return [`nicht spielbar, wie es gedruckt ist${where}`, failingWords(failing), hands]
          .filter((each) => each !== '')
          .join('; ');
      }
      const whole = harp === 'pedal' ? 'spielbar für Hände und Füße' : 'spielbar, wie es gedruckt ist';
      const part = harp === 'pedal' ? 'spielbar für die Füße' : 'die Klappen sind spielbar';
      return hands === '' ? whole : `${part}; ${hands}`;
    },
  },
  findings: {
    severities: { stop: 'Nicht spielbar', warn: 'Warnung', note: 'Hinweis' },
    sentences: {
      'string-for-both-hands': 'Beide Hände sollen hier dieselbe Saite zupfen.',
      'too-many-notes-in-hand': 'Eine Hand hat hier mehr Töne, als sie greifen kann.',
      'stretch-too-wide': 'Der Griff ist für eine Hand zu weit.',
      'string-restruck-fast': 'Eine Saite wird wieder gezupft, bevor sie ausschwingen kann.',
      'harmonic-out-of-range': 'Das Flageolett liegt außerhalb der brauchbaren Lage.',
      'too-many-harmonics': 'Eine Hand kann nicht so viele Flageoletts zugleich spielen.',
      'strings-to-retune': 'Vor dem Stück müssen Saiten umgestimmt werden.',
      'no-string-in-tuning': 'In dieser Stimmung gibt keine Saite diesen Ton.',
      'no-free-hand': 'Hier ist keine Hand für die Klappe frei.',
      'hand-too-busy': 'Die Hand hat für die Klappe keine Zeit.',
      'other-hand-taken': 'Die Klappe muss die andere Hand stellen.',
      'lever-short-lead': 'Die Klappe wird erst knapp vor ihrer Note gestellt.',
      'lever-far-ahead': 'Die Klappe wird lange vor ihrer Note gestellt.',
      'hands-hurried-passage': 'Die Hände haben es an den Klappen in diesen Takten eilig.',
      'lever-restored': 'Die Klappe wird für die Wiederholung zurückgestellt.',
      'lever-pin-not-honoured': 'Die festgelegte Klappe ließ sich hier nicht einhalten.',
      'no-markings': 'Keine Pedalangaben.',
      'words-not-understood': 'Wörter nicht verstanden.',
      'notes-before-marking': 'Pedalstellung unbekannt.',
      'note-not-served': 'Falsches Pedal für eine Note.',
      'repeat-lands-wrong': 'Falsches Pedal nach einer Wiederholung.',
      'change-too-quick': 'Angaben zu dicht beieinander.',
      'markings-contradict': 'Angaben widersprechen sich.',
      'marking-needless': 'Angabe nicht nötig.',
      'marking-bends-string': 'Wechsel, während die Saite klingt.',
      'marking-late': 'Spät für den Fuß.',
      'marking-early': 'Früh für den Fuß.',
      'glissando-unlike-key': 'Glissando weicht von der Tonart ab.',
      'foot-too-busy': 'Der Fuß hat für seine Wechsel keine Zeit.',
      'pedal-in-two-positions': 'Ein Pedal müsste zugleich in zwei Stellungen stehen.',
      'pedals-together': 'Ein Fuß bewegt hier zwei Nachbarpedale zugleich.',
      'foot-crossed': 'Ein Fuß bewegt hier ein Pedal der anderen Seite.',
      'feet-hurried-passage': 'Die Füße haben es in diesen Takten eilig.',
      'repeat-restored': 'Das Pedal wird für die Wiederholung zurückgestellt.',
      'pin-not-honoured': 'Die Festlegung ließ sich hier nicht einhalten.',
      'marking-contradicts-notes': 'Die gedruckte Pedalangabe passt nicht zu den Noten.',
      'out-of-range': 'Die Note liegt außerhalb des Umfangs der Harfe.',
      'string-in-two-pitches': 'Eine Saite müsste zugleich zwei Tonhöhen geben.',
      'quarter-tone': 'Einen Viertelton gibt kein Pedal.',
      'double-accidental':
        'Eine Doppelversetzung gibt keine Saite unter ihrem Namen: Sie wird auf einer Nachbarsaite gespielt.',
      'played-on-other-string': 'Die Note wird auf der Nachbarsaite gespielt.',
      'fixed-string-tuning': 'Eine Saite ohne Stimmscheibe muss vor dem Stück gestimmt werden.',
      'fixed-string-in-two-pitches': 'Eine Saite ohne Stimmscheibe müsste zwei Tonhöhen geben.',
      'string-retuned': 'Saiten sind für dieses Stück tiefer gestimmt.',
      'string-tuned-higher': 'Saiten sind für dieses Stück höher gestimmt.',
      'pitch-lost-by-retuning': 'Durch das Umstimmen gibt keine Saite mehr diesen Ton.',
      'octaves-differ': 'Derselbe Ton ist in den Oktaven verschieden notiert, und ein Pedal gilt für alle.',
      'ringing-string-moved': 'Ein Pedal bewegt sich, während eine seiner Saiten noch klingt.',
      'glissando-setting-guessed':
        'Die Stellung für das Glissando ist nicht ganz angegeben und wurde ergänzt.',
      'flat-key-rings-fuller': 'In einer Be-Tonart klingt die Harfe voller.',
      'shared-notes-kept': 'Die Noten mehrerer Spieler lassen sich nicht trennen und sind alle geplant.',
      'written-for-several': 'Die Stimme ist für mehrere Spieler geschrieben.',
    },
    respell: (from, to) => `${from} als ${to} spielen.`,
    omit: (note) => `${note} weglassen.`,
  },
  handouts: {
    titles: {
      keys: 'Tonarten',
      glissandi: 'Glissandi',
      'doubled-strings': 'Doppelte Saiten',
      pedals: 'Pedale und Stimmscheiben',
    },
    pedalKeys: 'Tonarten auf der Pedalharfe',
    pedalKeysLegend:
      'Eine Durtonart und ihre parallele Molltonart haben dieselbe Stellung. Für harmonisches Moll und aufsteigendes melodisches Moll wechseln dazu diese Pedale. Ein Doppelkreuz, hier in Klammern, gibt kein Pedal: Es wird auf der Saite darüber gespielt, deren Pedal dafür wechselt.',
    pedalKeyHeads: {
      major: 'Dur',
      minor: 'Moll',
      setting: 'Stellung',
      names: '',
      harmonic: 'Harmonisch',
      melodic: 'Melodisch auf',
    },
    leverKeys: 'Tonarten auf der Klappenharfe',
    leverKeysLegend: (tuning) =>
      `Die Saiten sind in ${tuning} gestimmt, alle Klappen unten. „Auf“ heißt: Klappe stellen. In der letzten Spalte stehen die Saiten eines Tonnamens, die vor dem Stück in allen Oktaven umzustimmen sind. Keine Saite über ihre übliche Tonhöhe stimmen, ohne dass eine Harfentechnikerin oder ein Harfentechniker zustimmt.`,
    leverTables: {
      major: 'Dur und natürliches Moll',
      'harmonic minor': 'Harmonisches Moll',
      'melodic minor': 'Melodisches Moll, aufsteigend',
    },
    key: 'Tonart',
    toRetune: 'Umzustimmen',
    up: 'auf',
    retune: (letter, to) => `${letter}-Saiten auf ${to}`,
    glissandi: 'Akkorde und Tonleitern für Glissandi',
    glissandiLegend:
      'Mit diesen Stellungen gibt jede Saite einen Ton des Akkords oder der Tonleiter und keine einen anderen. Von mehreren Stellungen ist die mit den wenigsten doppelten Saiten gezeigt.',
    sounds: {
      'diminished seventh': 'Verminderter Septakkord',
      'dominant ninth': 'Dominantseptnonakkord',
      'dominant seventh': 'Dominantseptakkord',
      'minor seventh': 'Mollseptakkord',
      'half-diminished seventh': 'Halbverminderter Septakkord',
      'major sixth': 'Durakkord mit Sexte',
      'whole tone': 'Ganztonleiter',
      'major pentatonic': 'Durpentatonik',
      'minor pentatonic': 'Mollpentatonik',
      major: 'Dur',
      'harmonic minor': 'Harmonisches Moll',
    },
    noSetting: (roots) => `Keine Stellung gibt genau diese Töne auf ${roots.join(', ')}.`,
    doubled: 'Doppelte Saiten',
    doubledLegend:
      'Zwei benachbarte Saiten können denselben Ton geben: für Tonwiederholungen ohne Dämpfen, für ein Tremolo auf einem Ton und für vollen Klang. Drei Töne stehen allein: Die Saiten daneben brauchten ein Doppelkreuz oder ein Doppel-Be.',
    doubledHeads: { pitch: 'Ton', strings: 'Saiten', pedals: 'Pedale' },
    oneString: 'nur eine',
    twoStrings: 'zwei',
    oneEachFoot: (pedals) => `${pedals}, eines mit jedem Fuß`,
    bothOneFoot: (pedals, foot) => `${pedals}, beide mit dem ${foot === 'left' ? 'linken' : 'rechten'} Fuß`,
    fullest: 'Drei verdoppelte Töne zugleich',
    fullestLegend: (settings, strings) =>
      `Die ${settings} Stellungen, in denen drei Töne verdoppelt sind, so dass die ${strings} Saiten einer Oktave nur vier Töne geben.`,
    mechanism: 'Wie Pedale und Stimmscheiben wirken',
    mechanismLegend:
      'Sieben Pedale, eines für jeden Tonnamen. Ein Pedal verstellt alle Saiten seines Namens zugleich, in allen Oktaven, über Stangen in der Säule und zwei Stimmscheiben an jeder Saite.',
    positions: 'Drei Stellungen',
    positionsLegend:
      'Jede Scheibe, die die Saite fasst, lässt sie einen Halbton höher klingen: Der dicke Teil der Saite klingt. Alle anderen Pedale wirken ebenso. Kein Pedal gibt ein Doppelkreuz oder ein Doppel-Be: Eine solche Note wird auf der Nachbarsaite gespielt.',
    gives: (name) => `gibt ${name}`,
    notches: {
      flat: 'obere Raste, keine Scheibe fasst',
      natural: 'mittlere Raste, die obere fasst',
      sharp: 'untere Raste, beide fassen',
    },
    twoFeet: 'Zwei Füße',
    pedalsOfFoot: {
      left: (letters) => `Der linke Fuß hat die Pedale ${letters}, von außen nach innen.`,
      right: (letters) => `Der rechte Fuß hat die Pedale ${letters}, von innen nach außen.`,
    },
    twoFeetLegend: (key) =>
      `Vom Platz der Spielenden gesehen, hier für ${key} gestellt. Ein Fuß bewegt ein Pedal auf einmal, am besten, solange die Saiten dieses Namens schweigen: Eine klingende schnarrt oder zieht.`,
    diagram: 'Wie ein Pedalbild gelesen wird',
    diagramLegend: (setting) =>
      `Dieselbe Stellung, wie sie gedruckt wird: ein Strich für jedes Pedal in ihrer Reihenfolge, linker und rechter Fuß durch die senkrechte Linie getrennt. Über der Linie ist Be, auf ihr Auflöser, unter ihr Kreuz: ${setting}.`,
    fixed: 'Saiten ohne Stimmscheiben',
    fixedHeads: { strings: 'Saiten', range: 'Umfang', fixed: 'Ohne Scheiben', harp: 'Harfe' },
    fixedLegend:
      'Diese Saiten bewegt kein Pedal. Sie werden vor dem Stück von Hand auf das gestimmt, was es braucht, und behalten diesen Ton. Keine Saite über ihre übliche Tonhöhe stimmen, ohne dass eine Harfentechnikerin oder ein Harfentechniker zustimmt.',
    noFixed: 'keine',
    pedalHarp: (strings) => `Pedalharfe mit ${strings} Saiten`,
  },

  set: {
    title: 'Klassensatz',
    contents: 'Inhalt',
    difficulty: 'Schwierigkeit',
    difficultyLegend: (ownScale) =>
      `Das leichteste Stück zuerst. Eine Minute zählt nur, solange die Harfe spielt. ${ownScale}`,
    heads: {
      page: 'Seite',
      grade: 'Schwierigkeit',
      changes: 'Wechsel',
      perMinute: 'je Minute',
      length: 'Dauer',
      piece: 'Stück',
    },
    refused: 'Nicht in diesem Satz',
  },
};
