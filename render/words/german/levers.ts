import { withComma } from '../decimal-comma.ts';
import type { Words } from '../worded.ts';
import { count } from './phrases.ts';

export const LEVERS_WORDS: Words['levers'] = {
  harp: (strings) => `Klappenharfe mit ${strings} Saiten`,
  start: {
    tuning: (key) => `Stimmung ${key}.`,
    allDown: 'Alle Klappen unten.',
    up: (names) => `Klappen oben: ${names.join(', ')}.`,
    down: (names) => `Klappen unten: ${names.join(', ')}.`,
    allOf: (name) => `alle ${name}`,
  },
  onMusic: { tuning: 'Stimmung', up: 'Klappen oben', allDown: 'Alle Klappen unten', all: 'alle' },
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
  upForRepeat: (string) =>
    `Die Klappe von ${string} ist vor dem Anfang wegen der Wiederholung oben, die sie so hinterlässt: Keine Note braucht sie, bevor sie nach unten kommt.`,
  retuned: (semitones) =>
    `${count(Math.abs(semitones), 'Halbton', 'Halbtöne')} ${semitones > 0 ? 'höher' : 'tiefer'}`,
  all: 'alle',
  octaves: (octaves) => `${octaves.length === 1 ? 'Oktave' : 'Oktaven'} ${octaves.join(', ')}`,
  changes: 'Klappenwechsel',
  noChanges: 'In dieser Stimme wechselt keine Klappe: Es gibt keine Wechsel zu üben.',
  changeCount: (changes, perMinute) =>
    `${changes} Klappenwechsel, ${withComma(perMinute, 1)} in der Minute, solange die Harfe spielt.`,
  noBusyBars: 'Kein Takt hat mehr als einen Klappenwechsel.',
  busyBar: (bar, changes, names) => `Takt ${bar}: ${changes} Wechsel (${names})`,
  passageChanges: 'Wechsel',
  line: 'Die Klappen allein',
  lineLegend:
    'Die Klappen ohne die Saiten: laut zählen; die genannte Hand stellt die Klappe auf ihrer Zählzeit und geht zurück. Der Name ist der Ton, den die Saite dann gibt. Ein Bruch ist der Teil der Zählzeit, der vergangen ist (wo keiner steht, zwischen den Zählzeiten), eine Zahl über einem dicken Strich so viele Takte ohne Klappe. Vor jeder Wiederholung die Hände ausruhen.',
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
    'Der Vorlauf ist die Zeit vom Klappenwechsel bis zur ersten Note, die ihn braucht, im vollen Tempo und ohne Sprünge gelesen.',
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
  atSpot: (levers) => `Zu ihrem Beginn: ${levers}`,
  spotsLegend:
    'Die Abschnitte, die nicht leicht sind, zuerst die nicht spielbaren, dann die schwersten: nach dem Grad, dann nach den meisten Wechseln in zehn Sekunden. Geübt wird von der letzten zur ersten; zwischen zwei Übungen ruhen die Hände. Blasse Takte gehören nicht dazu.',
  restBetween: 'Zwischen zwei Übungen die Hände ausruhen; sofort aufhören, wenn etwas schmerzt.',
  leversAlone:
    'Die Klappen allein, wie oben notiert: laut zählen, ohne Saiten; jede Hand kehrt an ihren Platz über den Saiten zurück.',
  aroundEach:
    'Nur was um jeden Wechsel steht, beliebig langsam: die letzte Note davor, der Wechsel und die erste Note danach, bis die Hände alle drei ohne Hinsehen finden.',
  handsAlone:
    'Die Noten allein, die Klappen bleiben, wie sie am Anfang des Abschnitts stehen: Manche Töne klingen dann anders.',
  slowly: (beat, tempo) =>
    `Noten und Klappen zusammen, langsam: Bei ${beat} = ${tempo} hat jede Hand mindestens eine Sekunde zwischen ihren Klappen.`,
  inTempo: (beat, tempo) =>
    `Noten und Klappen zusammen: Selbst im vollen Tempo, ${beat} = ${tempo}, hat jede Hand eine Sekunde zwischen ihren Klappen.`,
};
