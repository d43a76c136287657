import type { Words } from '../worded.ts';

export const HANDOUTS_WORDS: Words['handouts'] = {
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
    `Die Saiten sind in ${tuning} gestimmt, alle Klappen unten. „Auf“ heißt: Klappe stellen. Auf einen fett gedruckten Ton sind die Saiten seiner Spalte vor dem Stück in allen Oktaven umzustimmen.`,
  leverTables: {
    major: 'Dur und natürliches Moll',
    'harmonic minor': 'Harmonisches Moll',
    'melodic minor': 'Melodisches Moll, aufsteigend',
  },
  key: 'Tonart',
  up: 'auf',
  glissandi: 'Akkorde und Tonleitern für Glissandi',
  glissandiPlayedAs: 'Hinter = steht der Ton, als den die Stellung den Grundton gibt.',
  glissandiLegend:
    'Mit diesen Stellungen gibt jede Saite einen Ton des Akkords oder der Tonleiter und keine einen anderen. Von mehreren Stellungen ist die mit den wenigsten doppelten Saiten gezeigt. Obere Zeile der Namen: rechter Fuß; untere: linker Fuß.',
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
  setFor: { key: (key) => `für ${key}`, opening: 'wie am Anfang dieses Stücks' },
  twoFeetLegend: (how) =>
    `Vom Platz der Spielenden gesehen, hier ${how} gestellt. Ein Fuß bewegt ein Pedal auf einmal, am besten, solange die Saiten dieses Namens schweigen: Eine klingende schnarrt oder zieht.`,
  diagram: 'Wie ein Pedalbild gelesen wird',
  diagramLegend: (setting) =>
    `Dieselbe Stellung, wie sie gedruckt wird: ein Strich für jedes Pedal in ihrer Reihenfolge, linker und rechter Fuß durch die senkrechte Linie getrennt. Über der Linie ist Be, auf ihr Auflöser, unter ihr Kreuz: ${setting}.`,
  fixed: 'Saiten ohne Stimmscheiben',
  fixedHeads: { strings: 'Saiten', range: 'Umfang', fixed: 'Ohne Scheiben', harp: 'Harfe' },
  fixedLegend:
    'Diese Saiten bewegt kein Pedal. Sie werden vor dem Stück von Hand auf das gestimmt, was es braucht, und behalten diesen Ton. Keine Saite über ihre übliche Tonhöhe stimmen, ohne dass eine Harfentechnikerin oder ein Harfentechniker zustimmt.',
  noFixed: 'keine',
  pedalHarp: (strings) => `Pedalharfe mit ${strings} Saiten`,
};
