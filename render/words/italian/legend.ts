import type { Words } from '../worded.ts';

export const LEGEND_WORDS: Words['legend'] = {
  pedalTitle: 'Come si leggono i segni dei pedali',
  leverTitle: 'Come si leggono i segni delle levette',
  setting: {
    diagram: (left, right) =>
      `Tutti i pedali nel loro ordine, piede sinistro ${left}, piede destro ${right}: sopra la linea bemolle, sulla linea bequadro, sotto diesis.`,
    letters: (left, right) => `Tutti i pedali: piede sinistro ${left}, piede destro ${right}.`,
  },
  moved: 'Cerchiato: cambia qui.',
  changed: 'Cerchiato: sta altrove che nell’ultima posizione completa, o cambia qui.',
  change: {
    foot: 'Un cambio finisce prima della nota che lo richiede, dove il piede si muove.',
    note: 'Un cambio sta alla nota che lo richiede: il piede si muove prima di questa nota.',
  },
  rows: 'Di due righe, quella superiore è per il piede destro.',
  cannotWait: 'Con «piede qui» il piede cambia in quel punto e non aspetta la nota: lì non avrebbe tempo.',
  withNote:
    'Con il cuneo: cambiare esattamente con la nota, perché fino ad allora suona una corda di questo pedale.',
  firstTime: 'la posizione vale solo la prima volta; quando la musica torna qui, altri pedali sono cambiati.',
  onReturn: 'cambiare solo quando la musica torna qui; prima il pedale è già in posizione.',
  leverFirstTime:
    'la tabella vale solo la prima volta; quando la musica torna qui, altre levette sono cambiate.',
  leverOnReturn: 'cambiare solo quando la musica torna qui; prima la levetta è già in posizione.',
  leverAtOneTime: 'cambiare solo quella volta; le altre volte lasciare la levetta com’è.',
  unplayable: 'Un punto che non si può suonare come è scritto; l’elenco dice perché.',
  footnotes: 'Note del testo',
  timeToTurn: 'c’è tempo',
};
