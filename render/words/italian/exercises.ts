import { uncapitalize } from '../../../engine/index.ts';
import type { Words } from '../worded.ts';

export const EXERCISES_WORDS: Pick<Words, 'exercise' | 'marked'> = {
  exercise: {
    title: 'Esercizio',
    solution: 'Soluzione',
    task: {
      pedal: {
        boxes:
          'Scrivi le indicazioni nei riquadri: in uno largo come stanno lì tutti i pedali, in uno piccolo il pedale che lì cambia. La soluzione è nelle ultime pagine.',
        none: 'Scrivi come stanno i pedali prima della prima nota, e ogni cambio dove il piede si muove. La soluzione è nelle ultime pagine.',
      },
      lever: {
        boxes:
          'Scrivi le indicazioni nei riquadri: in uno grande quali levette sono su in quel punto, in uno piccolo la levetta che lì cambia. La soluzione è nelle ultime pagine.',
        none: 'Scrivi quali levette sono su prima della prima nota, e ogni cambio dove una mano è libera. La soluzione è nelle ultime pagine.',
      },
    },
    taskAtStart: {
      pedal:
        'Scrivi in ogni riquadro come stanno tutti i pedali: dopo la prima nota non ne cambia nessuno. La soluzione è nelle ultime pagine.',
      lever:
        'Scrivi in ogni riquadro quali levette sono su: dopo la prima nota non ne cambia nessuna. La soluzione è nelle ultime pagine.',
    },
  },
  marked: {
    title: 'Correzione',
    points: (given, most) => `${given} punti su ${most}`,
    counts: (counts) =>
      [
        `giusti: ${counts.right}`,
        `da spostare: ${counts['better-place']}`,
        `sbagliati: ${counts.wrong}`,
        `mancanti: ${counts.missing}`,
        `superflui: ${counts.needless}`,
      ].join(', '),
    verdicts: {
      right: 'Giusto',
      'better-place': 'Giusto, ma c’è un posto migliore',
      wrong: 'Sbagliato',
      missing: 'Manca',
      needless: 'Superfluo',
    },
    meanings: {
      right: 'Giusto: le note suonano come sono scritte.',
      'better-place': 'Giusto, ma c’è un posto migliore, indicato sotto al suo numero.',
      wrong: 'Sbagliato: una nota suona diversa, o manca il tempo; in blu è ciò che va scritto.',
      missing: 'Manca: in blu è ciò che va scritto.',
      needless:
        'Superfluo: tutto suona uguale anche senza, per il motivo indicato sotto al suo numero; non toglie punti.',
    },
    faults: 'Battuta per battuta',
    opening: 'posizione iniziale',
    comment: (place, what, verdict) => `${place}, ${what}: ${verdict}.`,
    sounds: (place, note, instead) => `${place}: invece di ${note} suona ${instead}.`,
    more: (notes, until) =>
      `Lo stesso vale per ${notes === 1 ? 'un’altra nota' : `altre ${notes} note`} ${until === null ? 'in questa battuta' : `fino a battuta ${until}`}.`,
    unstated: (place, note) => `${place}: non è scritto come sta il pedale di ${note}.`,
    write: (names) => `Scrivere ${names}.`,
    sameSound: (written, letter, note) => `${written} è per le corde di ${letter}; la nota è ${note}.`,
    move: (place) => `Il suo posto è qui: ${place}.`,
    contradicts: (names) => `Un’altra indicazione dice qui ${names}.`,
    strike: 'Da togliere.',
    tooQuick: 'Lì il piede non ha tempo.',
    better: (place, why) => `Meglio qui: ${place}. ${why}`,
    why: {
      bends: 'Dove sta il cambio, una corda di questo pedale suona ancora.',
      late: 'Viene subito prima della sua nota, benché il piede sia libero prima.',
      early: 'Viene tanto prima della sua nota che bisogna tenerlo a mente.',
    },
    needless: {
      stands: (since) =>
        `Il pedale sta ${since === null ? 'già così' : `così dalla ${uncapitalize(since)}`}.`,
      unasked: (before) =>
        `Nessuna nota lo richiede${before === null ? '' : ` prima del prossimo cambio, ${uncapitalize(before)}`}.`,
      twice: 'È già scritto qui.',
      undoes: 'Annulla soltanto un altro cambio che lì non ci vuole.',
    },
    allRight: 'Ogni nota trova il suo pedale, e ogni cambio sta bene dov’è.',
    unread: (place, text) => `${place}: «${text}» non si è potuto leggere come indicazione.`,
    lever: {
      opening: 'levette all’inizio',
      tooQuick: 'Lì nessuna mano è libera.',
      why: {
        bends: 'Dove sta il cambio, la corda suona ancora.',
        late: 'Arriva proprio prima della sua nota, anche se una mano è libera prima.',
        busy: 'Dove sta il cambio, suonano tutte e due le mani.',
      },
      stands: (since) =>
        `La levetta sta ${since === null ? 'già così' : `così dalla ${uncapitalize(since)}`}.`,
      allRight: 'Ogni nota trova la sua levetta, e ogni cambio sta bene dov’è.',
    },
  },
};
