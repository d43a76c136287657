import type { Words } from '../worded.ts';

export const HANDOUTS_WORDS: Words['handouts'] = {
  titles: {
    keys: 'Tonalità',
    glissandi: 'Glissandi',
    'doubled-strings': 'Corde doppie',
    pedals: 'Pedali e dischi',
  },
  pedalKeys: 'Tonalità sull’arpa a pedali',
  pedalKeysLegend:
    'Una tonalità maggiore e la sua relativa minore hanno la stessa posizione. Per il minore armonico e il minore melodico ascendente muovere anche questi pedali. Nessun pedale dà un doppio diesis, qui tra parentesi: si suona sulla corda superiore, il cui pedale cambia per esso.',
  pedalKeyHeads: {
    major: 'Maggiore',
    minor: 'Minore',
    setting: 'Pedali',
    names: '',
    harmonic: 'Armonico',
    melodic: 'Melodico asc.',
  },
  leverKeys: 'Tonalità sull’arpa a levette',
  leverKeysLegend: (tuning) =>
    `Le corde sono accordate in ${tuning}, tutte le levette giù. «Su» è una levetta da alzare; una nota in grassetto è quella a cui si riaccordano le corde della sua colonna prima del brano, in tutte le ottave.`,
  leverTables: {
    major: 'Maggiore e minore naturale',
    'harmonic minor': 'Minore armonico',
    'melodic minor': 'Minore melodico ascendente',
  },
  key: 'Tonalità',
  up: 'su',
  glissandi: 'Accordi e scale per i glissandi',
  glissandiPlayedAs: 'Dopo = sta la nota con cui la posizione dà la fondamentale.',
  glissandiLegend:
    'Con queste posizioni ogni corda dà una nota dell’accordo o della scala, e nessun’altra. Tra più posizioni è mostrata quella con meno corde doppie. Riga superiore dei nomi: piede destro; riga inferiore: piede sinistro.',
  sounds: {
    'diminished seventh': 'Settima diminuita',
    'dominant ninth': 'Nona di dominante',
    'dominant seventh': 'Settima di dominante',
    'minor seventh': 'Settima minore',
    'half-diminished seventh': 'Settima semidiminuita',
    'major sixth': 'Maggiore con sesta',
    'whole tone': 'Scala esatonale',
    'major pentatonic': 'Pentatonica maggiore',
    'minor pentatonic': 'Pentatonica minore',
    major: 'Maggiore',
    'harmonic minor': 'Minore armonico',
  },
  noSetting: (roots) => `Nessuna posizione dà proprio queste note su ${roots.join(', ')}.`,
  doubled: 'Corde doppie',
  doubledLegend:
    'Due corde vicine possono dare la stessa nota: per note ribattute senza smorzare, per un tremolo su una nota e per un suono più pieno. Tre note restano sole: alle corde vicine servirebbe un doppio diesis o un doppio bemolle.',
  doubledHeads: { pitch: 'Nota', strings: 'Corde', pedals: 'Pedali' },
  oneString: 'una sola',
  twoStrings: 'due',
  oneEachFoot: (pedals) => `${pedals}, uno per piede`,
  bothOneFoot: (pedals, foot) =>
    `${pedals}, entrambi con il piede ${foot === 'left' ? 'sinistro' : 'destro'}`,
  fullest: 'Tre note doppie insieme',
  fullestLegend: (settings, strings) =>
    `Le ${settings} posizioni in cui tre note sono doppie, così che le ${strings} corde di un’ottava danno solo quattro note.`,
  mechanism: 'Come agiscono pedali e dischi',
  mechanismLegend:
    'Sette pedali, uno per ogni nome di nota. Un pedale comanda insieme tutte le corde del suo nome, in tutte le ottave, con aste nella colonna e due dischi per ogni corda.',
  positions: 'Tre posizioni',
  positionsLegend:
    'Ogni disco che stringe la corda la alza di un semitono: suona la parte spessa della corda. Tutti gli altri pedali agiscono allo stesso modo. Nessun pedale dà un doppio diesis o un doppio bemolle: una nota simile si suona su una corda vicina.',
  gives: (name) => `dà ${name}`,
  notches: {
    flat: 'tacca alta, nessun disco',
    natural: 'tacca media, disco superiore',
    sharp: 'tacca bassa, entrambi i dischi',
  },
  twoFeet: 'Due piedi',
  pedalsOfFoot: {
    left: (letters) => `Il piede sinistro ha i pedali ${letters}, da fuori verso dentro.`,
    right: (letters) => `Il piede destro ha i pedali ${letters}, da dentro verso fuori.`,
  },
  setFor: { key: (key) => `in ${key}`, opening: 'come all’inizio di questo brano' },
  twoFeetLegend: (how) =>
    `Visto dal posto di chi suona, qui ${how}. Un piede muove un pedale alla volta, meglio mentre le corde di quel nome tacciono: una che suona frigge o scivola.`,
  diagram: 'Come si legge uno schema',
  diagramLegend: (setting) =>
    `La stessa posizione come viene stampata: un tratto per ogni pedale nel loro ordine, la linea verticale divide il piede sinistro dal destro. Sopra la linea è bemolle, a cavallo bequadro, sotto diesis: ${setting}.`,
  fixed: 'Corde senza dischi',
  fixedHeads: { strings: 'Corde', range: 'Estensione', fixed: 'Senza dischi', harp: 'Arpa' },
  fixedLegend:
    'Nessun pedale muove queste corde. Si accordano a mano prima del brano secondo il bisogno, e tengono quella nota. Non accordare nessuna corda sopra la sua altezza abituale senza il parere di un tecnico dell’arpa.',
  noFixed: 'nessuna',
  pedalHarp: (strings) => `Arpa a pedali, ${strings} corde`,
};
