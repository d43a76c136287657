import { withComma } from '../decimal-comma.ts';
import type { Words } from '../worded.ts';
import { list } from './phrases.ts';

export const PIECES_WORDS: Pick<Words, 'card' | 'tuning' | 'set'> = {
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
    onMusic: {
      withoutPedal: 'Vor dem Spielen stimmen, ohne Pedal:',
      byCents: 'Vor dem Spielen stimmen:',
      to: (string) => `${string} auf`,
    },
    withoutDisc: (from, to) => `${from} auf ${to}: Diese Saite hat keine Stimmscheibe.`,
    retunedLetter: (from, to) => `Alle ${from}-Saiten auf ${to}.`,
    retunedStrings: (from, octaves, to) =>
      `Die ${from}-${octaves.length === 1 ? 'Saite der Oktave' : 'Saiten der Oktaven'} ${list(octaves)} auf ${to}.`,
    retuned: (string, cents) => `${string} um ${Math.abs(cents)} Cent ${cents > 0 ? 'höher' : 'tiefer'}`,
    nothing: 'Nichts außer der üblichen Stimmung.',
    caution:
      'Keine Saite über ihre übliche Tonhöhe stimmen, ohne dass eine Harfentechnikerin oder ein Harfentechniker zustimmt.',
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
    unplayable: (title) => `${title} (so nicht spielbar)`,
    settings: 'Von Stück zu Stück',
    settingsLegend: 'Wie die Harfe vor jedem Stück steht und was nach dem vorigen umzustellen ist.',
    toSet: (names) => `Nach dem vorigen Stück umzustellen: ${names}.`,
    nothingToSet: 'Nach dem vorigen Stück ist nichts umzustellen.',
    retune: 'Nach dem vorigen Stück umstimmen.',
    otherHarp: 'Auf einer anderen Harfe als das vorige Stück.',
    refused: 'Nicht in diesem Satz',
  },
};
