import type { Words } from '../worded.ts';

export const READING_WORDS: Words['reading'] = {
  title: 'Wie die Zeichen gelesen werden',
  titleOf: { pedal: 'Wie Pedalangaben gelesen werden', lever: 'Wie Klappenangaben gelesen werden' },
  onThePages: 'Auf den Notenseiten',
  setting: 'Ein Diagramm zeigt, wie alle Pedale von dort an stehen.',
  change: {
    foot: 'Ein Tonname ist ein Wechsel: Dort bewegt der Fuß dieses Pedal, noch vor der Note, die es braucht.',
    note: 'Ein Tonname ist ein Wechsel: Bei dieser Note muss das Pedal so stehen.',
  },
  feet: 'Wo beide Füße wechseln, steht der rechte oben, der linke unten.',
  ring: 'Eingekreist ist ein Pedal, das anders steht als im letzten Diagramm oder hier wechselt.',
  wedge: 'Ein Keil vor dem Wechsel heißt: genau mit der Note.',
  strings: 'Hinter „=“ steht die Saite, auf der ein anders geschriebener Ton gespielt wird.',
  counts: 'Die grauen Ziffern über den Noten sind die Zählzeiten; Taktzahlen sind schwarz und kursiv.',
  movements: 'Eine römische Zahl vor einer Taktzahl nennt den Satz: II 12 ist Takt 12 des zweiten.',
  numbers:
    'Eine weiße Zahl auf Schwarz steht bei einer Stelle, die wie notiert nicht spielbar ist; nach den Noten sagt dieselbe Zahl, warum.',
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
  leverHands: 'Unter dem Namen steht die Hand, die es tut: l.H. ist die linke, r.H. die rechte.',
};
