import { withComma } from '../decimal-comma.ts';
import type { Words } from '../worded.ts';
import { list } from './phrases.ts';

const WAYS = { up: 'höher', down: 'tiefer' } as const;

export const PIECES_WORDS: Pick<Words, 'card' | 'tuning' | 'set'> = {
  card: {
    moves: 'Pedalwechsel',
    changes: 'Klappenwechsel',
    none: 'keine',
    perMinute: (count, perMinute) =>
      `${count} in den Noten; mit allen Wiederholungen im Mittel ${withComma(perMinute, 1)} in der Minute`,
    lasts: (length, bars) =>
      `${length} mit allen Wiederholungen und Pausen, ${bars} ${bars === 1 ? 'Takt' : 'Takte'}`,
    tempo: {
      assumed: (tempo) => `am Anfang steht keine Tempoangabe; ${tempo} ist angenommen`,
      sound: (tempo) => `am Anfang steht keine Metronomangabe; ${tempo} ist das Abspieltempo der Datei`,
    },
    tune: 'Zu stimmen',
    tuning: 'Stimmung',
  },
  tuning: {
    onMusic: {
      withoutPedal: 'Vor dem Spielen stimmen, ohne Pedal:',
      byCents: 'Vor dem Spielen stimmen:',
      to: (string) => `${string} auf`,
    },
    withoutDisc: (from, to) => `${from} auf ${to}: Diese Saite hat keine Stimmscheibe.`,
    retunedLetter: (from, to, way) => `Alle ${from}-Saiten ${WAYS[way]} auf ${to}.`,
    retunedStrings: (from, octaves, to, way) =>
      `Die ${from}-${octaves.length === 1 ? 'Saite der Oktave' : 'Saiten der Oktaven'} ${list(octaves)} ${WAYS[way]} auf ${to}.`,
    retuned: (string, cents) => `${string} um ${Math.abs(cents)} Cent ${cents > 0 ? 'höher' : 'tiefer'}`,
    nothing: 'Nichts außer der üblichen Stimmung.',
    caution:
      'Ob eine Saite eine höhere als ihre übliche Tonhöhe verträgt, sagt eine Harfentechnikerin oder ein Harfentechniker: vorher fragen.',
  },
  set: {
    title: 'Klassensatz',
    contents: 'Inhalt',
    difficulty: 'Schwierigkeit',
    difficultyLegend: (ownScale) =>
      `Das leichteste Stück zuerst. Wechsel und Minute zählen wie gedruckt, jeder Takt einmal, die Minute nur, solange die Harfe spielt; die Dauer hat alle Wiederholungen. ${ownScale}`,
    heads: {
      page: 'Seite',
      grade: 'Schwierigkeit',
      changes: 'Wechsel',
      perMinute: 'je Minute',
      length: 'Dauer',
      piece: 'Stück',
    },
    unplayable: (title) => `${title} (so nicht spielbar)`,
    settings: 'Von Stück zu Stück',
    settingsLegend:
      'Was jedes Stück vor seinem Anfang braucht und was davon nach dem vorigen umzustellen ist. Saiten, die ein Stück nicht spielt, bleiben, wie sie sind.',
    toSet: (names) => `Nach dem vorigen Stück umzustellen: ${names}.`,
    setAhead: (names) => `Für spätere Stücke gleich mit einzustellen: ${names}.`,
    nothingToSet: 'Nach dem vorigen Stück ist nichts umzustellen.',
    retune: 'Umzustimmen, die Klappen dieser Saiten unten',
    otherHarp: 'Auf einer anderen Harfe als das vorige Stück.',
    refused: 'Nicht in diesem Satz',
    refusals: {
      unreadable: 'Die Datei ist nicht als Notentext lesbar.',
      unsupported: 'Sie enthält etwas, das nicht unterstützt wird.',
      noHarp: 'Keine Stimme heißt nach der Harfe; bitte die Stimme wählen.',
      noMusic: 'Die Stimme hat keine Noten.',
      noSuchTune: 'Diese Melodie steht nicht im Buch.',
      tooLarge: 'Das Stück ist zu groß.',
      tooSlow: 'Es hat zu lange gedauert.',
      notDrawn: 'Es ließ sich nicht zeichnen.',
    },
  },
};
