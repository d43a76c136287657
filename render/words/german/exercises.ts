import type { Words } from '../worded.ts';

export const EXERCISES_WORDS: Pick<Words, 'exercise' | 'marked'> = {
  exercise: {
    title: 'Übungsblatt',
    solution: 'Lösung',
    task: {
      pedal: {
        boxes:
          'Trage die Angaben in die Kästchen ein: in ein breites, wie dort alle Pedale stehen, in ein kleines, welches Pedal dort wechselt. Die Lösung steht auf den letzten Seiten.',
        none: 'Trage ein, wie die Pedale vor der ersten Note stehen, und jeden Wechsel dort, wo der Fuß ihn macht. Die Lösung steht auf den letzten Seiten.',
      },
      lever: {
        boxes:
          'Trage die Angaben in die Kästchen ein: in ein großes, welche Klappen an dieser Stelle oben sind, in ein kleines, welche Klappe dort wechselt. Die Lösung steht auf den letzten Seiten.',
        none: 'Trage ein, welche Klappen vor der ersten Note oben sind, und jeden Wechsel dort, wo eine Hand frei ist. Die Lösung steht auf den letzten Seiten.',
      },
    },
    taskAtStart: {
      pedal:
        'Trage in jedes Kästchen ein, wie alle Pedale stehen: Nach der ersten Note wechselt keines. Die Lösung steht auf den letzten Seiten.',
      lever:
        'Trage in jedes Kästchen ein, welche Klappen oben sind: Nach der ersten Note wechselt keine. Die Lösung steht auf den letzten Seiten.',
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
    meanings: {
      right: 'Richtig: Die Töne klingen, wie sie geschrieben sind.',
      'better-place': 'Richtig, aber es gibt eine bessere Stelle: unten unter der Nummer.',
      wrong: 'Falsch: Ein Ton klingt anders, oder die Zeit fehlt; was dorthin gehört, ist blau.',
      missing: 'Fehlt: Was dorthin gehört, ist blau.',
      needless:
        'Unnötig: Auch ohne diesen Wechsel klingt alles so; der Grund steht unten unter der Nummer. Das kostet keine Punkte.',
    },
    faults: 'Takt für Takt',
    opening: 'Stellung am Anfang',
    comment: (place, what, verdict) => `${place}, ${what}: ${verdict}.`,
    sounds: (place, note, instead) => `${place}: Statt ${note} klingt ${instead}.`,
    more: (notes, until) =>
      `Ebenso ${notes === 1 ? 'ein weiterer Ton' : `${notes} weitere Töne`} ${until === null ? 'in diesem Takt' : `bis Takt ${until}`}.`,
    unstated: (place, note) => `${place}: Nirgends steht, wie das Pedal von ${note} steht.`,
    write: (names) => `Hierher gehört ${names}.`,
    sameSound: (written, letter, note) => `${written} gilt für die ${letter}-Saiten, die Note heißt ${note}.`,
    move: (place) => `Der Wechsel gehört hierher: ${place}.`,
    contradicts: (names) => `Eine andere Angabe sagt hier ${names}.`,
    strike: 'Streichen.',
    tooQuick: 'Der Fuß hat dort keine Zeit.',
    better: (place, why) => `Besser hier: ${place}. ${why}`,
    why: {
      bends: 'Wo der Wechsel steht, klingt noch eine Saite dieses Pedals.',
      late: 'Er kommt unmittelbar vor seiner Note, obwohl der Fuß vorher frei ist.',
      early: 'Er kommt so lange vor seiner Note, dass man ihn sich merken muss.',
    },
    needless: {
      stands: (since) => `Das Pedal steht ${since === null ? 'schon' : `seit ${since}`} so.`,
      unasked: (before) =>
        `Keine Note braucht ihn${before === null ? '' : ` vor dem nächsten Wechsel in ${before}`}.`,
      twice: 'Er steht hier schon.',
      undoes: 'Er nimmt nur einen anderen Wechsel zurück, der dort nicht hingehört.',
    },
    allRight: 'Jede Note findet ihr Pedal, und jeder Wechsel steht gut.',
    unread: (place, text) => `${place}: „${text}“ war nicht als Eintrag zu lesen.`,
    lever: {
      opening: 'Klappen am Anfang',
      tooQuick: 'Dort ist keine Hand frei.',
      why: {
        bends: 'Wo der Wechsel steht, klingt die Saite noch.',
        late: 'Er kommt unmittelbar vor seiner Note, obwohl vorher eine Hand frei ist.',
        busy: 'Wo der Wechsel steht, spielen beide Hände.',
      },
      stands: (since) => `Die Klappe steht ${since === null ? 'schon' : `seit ${since}`} so.`,
      allRight: 'Jede Note findet ihre Klappe, und jeder Wechsel steht gut.',
    },
  },
};
