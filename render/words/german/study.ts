import { withComma } from '../decimal-comma.ts';
import type { Words } from '../worded.ts';
import { list } from './phrases.ts';

export const STUDY_WORDS: Words['study'] = {
  edition: 'Studienausgabe',
  contents: 'Inhalt',
  opening: 'Pedalstellung am Anfang',
  movement: (numeral) => `Satz ${numeral}`,
  tune: 'Vorher zu stimmen',
  difficulty: (grade) => `Schwierigkeit: ${grade}`,
  ownScale: 'Eine veröffentlichte Skala gibt es nicht: Die Grade sind unsere eigenen.',
  moves: 'Pedalwechsel',
  noMoves: 'In dieser Stimme wechselt kein Pedal: Es gibt keine Wechsel zu üben.',
  moveCount: (moves, perMinute) =>
    `${moves} Pedalwechsel, ${withComma(perMinute, 1)} in der Minute, solange die Harfe spielt.`,
  chordSymbols:
    'Akkordsymbole sind gedruckt, aber nicht berücksichtigt: Alles, was hier gestellt wird, dient den geschriebenen Noten. Wer nach den Symbolen Akkorde spielt, stellt auch deren Töne.',
  busiest: 'Takte mit den meisten Wechseln',
  asBusy: (bars) => `Ebenso viele in ${bars.length === 1 ? 'Takt' : 'den Takten'} ${list(bars)}.`,
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
    'Der Vorlauf ist die Zeit vom Wechsel bis zur ersten Note, die ihn braucht, im vollen Tempo und ohne Sprünge gelesen.',
  octaves: (middleC) => `${middleC} ist das eingestrichene C.`,
  fullTempo: (note) => `${note}. Das ist das volle Tempo dieser Blätter.`,
  footwork: 'Die Füße allein',
  pauseLegend: 'Was vor der ersten Zählzeit eines Satzes steht, wird zwischen den beiden Sätzen eingestellt.',
  footworkLegend:
    'Die Füße allein, ohne Saiten: laut zählen und jedes Pedal auf seine Zählzeit bewegen. Ein Bruch ist der Teil der Zählzeit, der vergangen ist (wo keiner steht, zwischen den Zählzeiten), eine Zahl über einem dicken Strich so viele Takte, in denen die Füße ruhen. Vor jeder Wiederholung die Füße ausruhen.',
  counting: (metres) => `Gemeint sind die laut gezählten Zählzeiten (im Takt von ${metres}).`,
  countingUpbeat: 'Ein Auftakt hat die letzten Zählzeiten seines Taktes.',
  countingDivided: 'Ein Takt, der in zwei Teilen gedruckt ist, wird im zweiten weitergezählt.',
  spots: 'Schwere Stellen',
  spotsLegend:
    'Die Abschnitte, die nicht leicht sind, zuerst die nicht spielbaren, dann die schwersten: nach dem Grad, dann nach den meisten Wechseln in zehn Sekunden. Geübt wird von der letzten zur ersten; zwischen zwei Übungen ruhen Hände und Füße. Blasse Takte gehören nicht dazu.',
  noSpots: 'Alle Abschnitte sind leicht.',
  spot: (rank, where, grade) => `${rank}. ${where}: ${grade}`,
  exercises: 'Übungen',
  noExercises:
    'Keine: Wie er gedruckt ist, lässt sich dieser Abschnitt nicht spielen. Zuerst unter den Hinweisen eine Abhilfe wählen.',
  exceptBars: (names, count) =>
    count === 1
      ? `Takt ${names} lässt sich so nicht spielen: zuerst unter den Hinweisen eine Abhilfe wählen oder ohne ihn üben.`
      : `Die Takte ${names} lassen sich so nicht spielen: zuerst unter den Hinweisen eine Abhilfe wählen oder ohne sie üben.`,
  feetAlone: 'Die Füße allein, wie oben notiert: laut zählen, ohne Saiten.',
  eachHand: 'Jede Hand für sich, so langsam wie nötig, bis sie jeden Ton hat.',
  handsAlone:
    'Die Hände allein, die Pedale bleiben, wie sie am Anfang des Abschnitts stehen: Manche Töne klingen dann anders.',
  slowly: (beat, tempo) =>
    `Hände und Füße zusammen, langsam: Bei ${beat} = ${tempo} hat jeder Fuß mindestens eine Sekunde zwischen seinen Wechseln.`,
  inTempo: (beat, tempo) =>
    `Hände und Füße zusammen: Selbst im vollen Tempo, ${beat} = ${tempo}, hat jeder Fuß eine Sekunde zwischen seinen Wechseln.`,
  restBetween: 'Zwischen zwei Übungen Hände und Füße ausruhen; sofort aufhören, wenn etwas schmerzt.',
  ladder: (beat, tempi) =>
    tempi.length === 1
      ? `Dreimal ohne Fehler bei ${beat} = ${tempi[0]}.`
      : `Stufe für Stufe schneller, auf jeder dreimal ohne Fehler: ${beat} = ${tempi.join(', ')}.`,
  findings: 'Hinweise',
  notes: 'Notizen',
  seconds: (seconds) => `${withComma(seconds, 1)} s`,
  withNote: 'mit der Note',
  partOfBeat: (beat, part, parts) => `${beat}, ${part}. von ${parts}`,
  hardlyAny: 'unter 0,1 s',
  rate: (perMinute) => withComma(perMinute, 1),
  whyAfter: (note, bar) => `nach ${note} in Takt ${bar}`,
  whyAfterChange: (bar) => `nach dem Wechsel in Takt ${bar}`,
  whyAsRepeatLeaves: 'am Anfang gilt die Stellung, die die Wiederholung hinterlässt',
  whyFromStart: 'jederzeit vom Anfang an',
  whyBefore: (note, bar, beat) => `vor ${note} in Takt ${bar}, Zählzeit ${beat}`,
  whyAfterJump: 'die nächste Note, die ihn braucht, kommt nach einem Sprung',
  whyRestores: 'für die Wiederholung wieder zurückgesetzt',
  whyForRepeated: 'damit das Wiederholte jedes Mal gleich beginnt',
  whyInPause: 'zwischen zwei Sätzen',
  whyBeforeGrace: 'vor der Vorschlagsnote',
  whyAgainst: (drawbacks) => `Dagegen spricht: ${drawbacks.join('; ')}`,
};
