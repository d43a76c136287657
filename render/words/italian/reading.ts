import type { Words } from '../worded.ts';

export const READING_WORDS: Words['reading'] = {
  title: 'Come si leggono i segni',
  titleOf: {
    pedal: 'Come si leggono le indicazioni dei pedali',
    lever: 'Come si leggono le indicazioni delle levette',
  },
  onThePages: 'Sulle pagine di musica',
  setting: 'Un diagramma mostra come stanno tutti i pedali da quel punto in poi.',
  change: {
    foot: 'Un nome di nota con il suo segno è un cambio: lì il piede sposta questo pedale, prima della nota che lo richiede.',
    note: 'Un nome di nota con il suo segno è un cambio: il pedale deve stare così quando viene questa nota.',
  },
  feet: 'Dove cambiano tutti e due i piedi, il destro sta sopra, il sinistro sotto.',
  ring: 'Un pedale cerchiato sta altrove che nell’ultimo diagramma, o cambia qui.',
  wedge: 'Un cuneo prima del cambio vuol dire: esattamente con la nota.',
  strings: 'Dopo «=» sta la corda su cui si suona una nota scritta altrimenti.',
  counts:
    'Le cifre grigie sopra la musica sono i tempi da contare; i numeri di battuta sono neri e in corsivo.',
  movements:
    'Un numero romano davanti al numero di battuta indica il movimento: II 12 è la battuta 12 del secondo.',
  numbers:
    'Un numero bianco su fondo nero segna un punto che non si può suonare come è scritto; dopo la musica lo stesso numero dice perché.',
  colours: {
    'c-red-f-black': 'Le note delle corde di do sono rosse come le corde.',
    'c-red-f-blue':
      'Le note delle corde di do sono rosse e quelle delle corde di fa blu, per trovare subito le corde.',
  },
  leverTable:
    'La tabella delle levette ha una colonna per ogni nota e una riga per ogni ottava. Un triangolo è una levetta su, un trattino una levetta giù.',
  leverChange: {
    names:
      'Un nome con un numero è un cambio: lì una mano sposta la levetta di questa corda, che poi dà questa nota.',
    notes:
      'Una piccola nota è un cambio: lì una mano sposta la levetta di questa corda, che poi dà questa nota.',
  },
  leverHands: 'Sotto il nome sta la mano che lo fa: m.s. è la sinistra, m.d. la destra.',
};
