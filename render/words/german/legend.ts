import type { Words } from '../worded.ts';

export const LEGEND_WORDS: Words['legend'] = {
  pedalTitle: 'Wie die Pedalzeichen gelesen werden',
  leverTitle: 'Wie die Klappenzeichen gelesen werden',
  setting: {
    diagram: (left, right) =>
      `Alle Pedale in ihrer Reihenfolge, linker Fuß ${left}, rechter Fuß ${right}: über der Linie Be, auf ihr Auflöser, unter ihr Kreuz.`,
    letters: (left, right) => `Alle Pedale: linker Fuß ${left}, rechter Fuß ${right}.`,
  },
  moved: 'Eingekreist: wechselt hier.',
  changed: 'Eingekreist: steht anders als in der letzten ganzen Pedalstellung oder wechselt hier.',
  change: {
    foot: 'Ein Wechsel endet vor der Note, die ihn braucht, dort, wo der Fuß sich bewegt.',
    note: 'Ein Wechsel steht bei der Note, die ihn braucht: Der Fuß bewegt sich vor dieser Note.',
  },
  rows: 'Von zwei Zeilen ist die obere für den rechten Fuß.',
  cannotWait:
    'Steht „Fuß hier“ darunter, wird an dieser Stelle gewechselt und nicht erst bei der Note: Dort fehlt dem Fuß die Zeit.',
  withNote: 'Mit dem Keil: genau mit der Note wechseln, denn bis dahin klingt eine Saite dieses Pedals.',
  firstTime:
    'Die Stellung gilt nur beim ersten Mal; kommt die Musik hierher zurück, stehen andere Pedale anders.',
  onReturn: 'nur wechseln, wenn die Musik hierher zurückkommt; vorher steht das Pedal schon so.',
  leverFirstTime:
    'Die Tabelle gilt nur beim ersten Mal; kommt die Musik hierher zurück, stehen andere Klappen anders.',
  leverOnReturn: 'nur umlegen, wenn die Musik hierher zurückkommt; vorher steht die Klappe schon so.',
  leverAtOneTime: 'nur dieses Mal umlegen; sonst bleibt die Klappe, wie sie ist.',
  unplayable: 'Eine Stelle, die wie notiert nicht spielbar ist; die Liste sagt, warum.',
  footnotes: 'Anmerkungen',
  timeToTurn: 'Zeit',
};
