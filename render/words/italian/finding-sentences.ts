import type { PassageSentences } from '../../../engine/index.ts';
import {
  afterSentence,
  FINGERS,
  isNoTime,
  type NoteNames,
  nameHeardString,
  type OrnamentNote,
  type RingingFacts,
  tellBySides,
} from '../../../engine/index.ts';
import { withComma } from '../decimal-comma.ts';
import type { FindingSentences } from '../finding-words.ts';
import { count, inBar, list } from './phrases.ts';

const HANDS = { left: 'La mano sinistra', right: 'La mano destra' } as const;
const FEET = { left: 'Il piede sinistro', right: 'Il piede destro' } as const;
const LEVERS = { up: 'su', down: 'giù' } as const;
const OTHER_WAY = { up: 'giù', down: 'su' } as const;

/** What the foot moved last. */
const LAST_MOVED = {
  'the same': 'ha appena mosso lo stesso pedale',
  another: 'ha appena mosso un altro pedale',
  together: 'muove insieme un altro pedale',
} as const;

const stretch = (seconds: number): string =>
  isNoTime(seconds, 1) ? 'insieme' : `in ${withComma(seconds, 1)} s`;

const byStaff = (guessed: boolean): string => (guessed ? ' La mano è dedotta dal rigo.' : '');

const byStaves = (guessed: boolean): string => (guessed ? ' Le mani sono dedotte dai righi.' : '');

const inRun = ({ from, until }: { readonly from: string; readonly until: string }): string =>
  from === until || from === '' || until === '' ? inBar(from) : `alle battute ${from}–${until}`;

const nameSounding = (
  { change, sounding }: RingingFacts & { readonly harp: 'pedal' },
  names: NoteNames,
): string =>
  sounding.length === 0
    ? `un ${names.letter(change.letter)} precedente suona ancora`
    : `${list(sounding.map((each) => nameHeardString(each, names)))} ${sounding.length === 1 ? 'suona ancora' : 'suonano ancora'}`;

/** Names of ornaments from memory. */
const OF_ORNAMENT = { trill: 'al trillo', ornament: 'all’abbellimento' } as const;

const belonging = (notes: readonly OrnamentNote[], names: NoteNames): string =>
  afterSentence(
    notes,
    (note) =>
      `Il ${names.pitch(note.pitch)} appartiene ${OF_ORNAMENT[note.what]} su ${names.pitch(note.on)}.`,
  );

export const FINDING_SENTENCES: FindingSentences = {
  'string-for-both-hands': ({ string, guessed }, names) =>
    `Le due mani devono pizzicare insieme la stessa corda: ${names.pitch(string)}.${byStaves(guessed)}`,
  'too-many-notes-in-hand': ({ hand, notes, guessed }) =>
    `${HANDS[hand]} ha ${notes} note da suonare insieme, ma suona solo con ${FINGERS} dita.${byStaff(guessed)}`,
  'stretch-too-wide': ({ lowest, highest, guessed }, names) =>
    `L’estensione da ${names.pitch(lowest)} a ${names.pitch(highest)} è troppo ampia per una mano: supera la decima.${byStaff(guessed)}`,
  'string-restruck-fast': ({ string, seconds, again }, names) => {
    const gap = `${withComma(seconds, 2)} s`;
    const name = `La corda ${names.pitch(string)} viene pizzicata di nuovo`;
    if (again === 'tremolo') return `${name} ogni ${gap}, prima di poter risuonare.`;
    if (again === 'same') return `${name} dopo soli ${gap}, prima di poter risuonare.`;
    return `${name} dopo soli ${gap} come ${names.pitch(again)}: c’è appena il tempo di cambiarne l’altezza.`;
  },
  'harmonic-out-of-range': ({ string, range }, names) =>
    `L’armonico sulla corda ${names.pitch(string)} non suonerà bene: le corde adatte vanno da ${names.string(range.lowest)} a ${names.string(range.highest)}.`,
  'too-many-harmonics': ({ hand, harmonics, most, guessed }) =>
    `${HANDS[hand]} ha ${harmonics} armonici da suonare insieme, ma ne può suonare solo ${most}.${byStaff(guessed)}`,
  'strings-to-retune': ({ tuning, usual, changes }, names) =>
    `Prima del brano riaccordare le corde a vuoto da ${names.tuning(usual)} a ${names.tuning(tuning)}: ${list(changes.map(names.change))}.`,
  'no-string-in-tuning': ({ note, tuning, notes }, names) =>
    `Nell’accordatura di ${names.tuning(tuning)} nessuna corda dà ${names.note(note)}, con la levetta su o giù${notes > 1 ? ` (${notes} note)` : ''}.`,
  'no-free-hand': ({ pitch, why }, names) =>
    why === 'hands-play'
      ? `Nessuna mano è libera per mettere la levetta di ${names.pitch(pitch)}.`
      : `Non c’è tempo di mettere la levetta di ${names.pitch(pitch)} prima che la sua corda venga pizzicata.`,
  'hand-too-busy': ({ pitch }, names) =>
    `Non c’è tempo di mettere la levetta di ${names.pitch(pitch)}: un’altra è stata messa appena prima.`,
  'other-hand-taken': ({ pitch, hand }, names) =>
    `${HANDS[hand]} deve mettere la levetta di ${names.pitch(pitch)}, perché l’altra non ha tempo.`,
  'lever-short-lead': ({ pitch, hand, seconds }, names) =>
    `${HANDS[hand]} mette la levetta di ${names.pitch(pitch)} solo ${withComma(seconds, 2)} s prima che la sua corda venga pizzicata: una levetta non del tutto girata ronza.`,
  'lever-far-ahead': ({ pitch, hand, seconds }, names) =>
    `${HANDS[hand]} mette la levetta di ${names.pitch(pitch)} ${Math.round(seconds)} s prima che la nota venga suonata.`,
  'hands-hurried-passage': ({ moves, seconds, left, right }) =>
    `Le mani devono affrettarsi: ${moves} cambi di levetta ${stretch(seconds)}, ${tellBySides({ left, right }, { both: `di cui ${left} della mano sinistra e ${right} della destra`, allOf: (side) => `tutti della mano ${side === 'left' ? 'sinistra' : 'destra'}` })}.`,
  'lever-restored': ({ pitch, elsewhere }, names) =>
    `${names.pitch(pitch)} è per la ripetizione: la levetta sta allora su ${names.pitch(elsewhere)}.`,
  'lever-pin-not-honoured': (facts, names) => {
    const lever = `Levetta di ${names.string(facts.string)} ${LEVERS[facts.to]}`;
    switch (facts.why) {
      case 'no-changes-here':
        return `${lever}: va messa qui, dove non sono ammessi cambi.`;
      case 'note':
        return `${lever}: non si può fissare qui, perché una nota ${inBar(facts.bar)} la vuole ${OTHER_WAY[facts.to]}.`;
      case 'pin':
        return `${lever}: non si può fissare qui, perché è già fissata ${OTHER_WAY[facts.to]}.`;
      case 'no-moment':
        return `${lever}: non si può fissare qui, perché in questo punto non c’è né nota né tempo.`;
      case 'no-lever':
        return `${lever}: non si può fissare, perché quest’arpa non ha questa levetta.`;
    }
  },
  'foot-too-busy': ({ foot, change, last }, names) =>
    `${FEET[foot]} non ha tempo per ${names.change(change)}: ${LAST_MOVED[last]}.`,
  'pedal-in-two-positions': ({ change, rival, ofOrnaments }, names) => {
    const letter = names.letter(change.letter);
    const clash =
      rival === null
        ? `Il pedale del ${letter} non può stare qui su ${names.change(change)}.`
        : `Il pedale del ${letter} dovrebbe stare insieme su ${names.change(change)} e ${names.change(rival)}: muove tutte le corde del ${letter}.`;
    return `${clash}${belonging(ofOrnaments, names)}`;
  },
  'pedals-together': ({ foot, change }, names) =>
    `${FEET[foot]} deve muovere insieme ${names.change(change)} e il pedale accanto.`,
  'foot-crossed': ({ foot, change }, names) =>
    `${FEET[foot]} deve passare dall’altra parte per ${names.change(change)}, perché l’altro non ha tempo.`,
  'feet-hurried-passage': ({ moves, seconds, left, right }) =>
    `I piedi devono affrettarsi: ${moves} movimenti ${stretch(seconds)}, ${tellBySides({ left, right }, { both: `di cui ${left} del piede sinistro e ${right} del destro`, allOf: (side) => `tutti del piede ${side === 'left' ? 'sinistro' : 'destro'}` })}.`,
  'repeat-restored': ({ change, elsewhere }, names) =>
    `${names.change(change)} è per la ripetizione: il pedale sta allora su ${names.change(elsewhere)}.`,
  'pin-not-honoured': (facts, names) => {
    const change = names.change(facts.change);
    switch (facts.why) {
      case 'no-moves-here':
        return `${change} va messo qui, dove non sono ammessi movimenti.`;
      case 'needed-earlier':
        return `${change} va messo qui, prima di dove è fissato: una nota lo richiede prima.`;
      case 'foot-busy':
        return `${change} va messo qui, prima di dove è fissato: là ${FEET[facts.foot].toLowerCase()} è occupato con un altro pedale.`;
      case 'note':
        return `${change} non si può fissare qui: una nota ${inBar(facts.bar)} richiede ${names.change(facts.needed)}.`;
      case 'fixed-already':
        return `${change} non si può fissare qui: vi è già fissato ${names.change(facts.fixed)}.`;
      case 'no-moment':
        return `${change} non si può fissare qui: in questo punto non c’è né nota né tempo.`;
    }
  },
  'marking-contradicts-notes': ({ marked, needed, bar }, names) =>
    `Secondo l’indicazione stampata ${names.change(marked)}, il prossimo ${names.letter(needed.letter)} suonerebbe sbagliato: ${inBar(bar)} è ${names.change(needed)}. Questo piano segue la nota.`,
  'out-of-range': ({ pitch, range, ofOrnaments }, names) =>
    `L’arpa non ha una corda per ${names.pitch(pitch)}: le sue corde vanno da ${names.string(range.lowest)} a ${names.string(range.highest)}.${belonging(ofOrnaments, names)}`,
  'string-in-two-pitches': ({ string, rivals, ofOrnaments }, names) => {
    const named = rivals.map((each) => ('position' in each ? names.change(each) : names.pitch(each)));
    const clash =
      named.length < 2
        ? `La corda ${names.string(string)} non può dare qui ${named.join('')}.`
        : `La corda ${names.string(string)} dovrebbe dare insieme ${list(named)}.`;
    return `${clash}${belonging(ofOrnaments, names)}`;
  },
  'quarter-tone': ({ pitch, harp }, names) =>
    `${names.pitch(pitch)} non si può suonare: sta tra due semitoni, e ${harp === 'pedal' ? 'nessun pedale' : 'nessuna levetta'} lo dà.`,
  'double-accidental': ({ from, to }, names) =>
    `Nessuna corda dà ${names.pitch(from)} con questo nome: si suona come ${names.pitch(to)}.`,
  'played-on-other-string': ({ from, to, isOfOrnament, times, fromBar }, names) => {
    const subject = isOfOrnament ? `Il ${names.pitch(from)} dell’abbellimento` : names.pitch(from);
    const first = fromBar === '' ? '' : `, da battuta ${fromBar}`;
    const often = times > 1 ? ` (in ${times} punti${first})` : '';
    return `${subject} si suona sulla corda ${names.string(to)}, come ${names.pitch(to)}${often}.`;
  },
  'fixed-string-tuning': ({ string, change }, names) =>
    `Nessun pedale agisce sulla corda ${names.string(string)}: accordarla in ${names.tunedTo(change)} prima del brano.`,
  'fixed-string-in-two-pitches': ({ pitch }, names) =>
    `${names.pitch(pitch)} non si può suonare: nessun pedale agisce sulla sua corda, e il brano le chiede un’altra altezza.`,
  'string-retuned': (facts, names) => tellRetuned(facts, names),
  'string-tuned-higher': (facts, names) => tellRetuned(facts, names),
  'pitch-lost-by-retuning': ({ pitch }, names) =>
    `${names.pitch(pitch)} non si può suonare: la sua corda è riaccordata, e nessun’altra lo dà.`,
  'octaves-differ': ({ pitches: [one, other] }, names) =>
    `${names.pitch(one)} e ${names.pitch(other)} si suonano insieme come scritti solo sull’arpa a levette: sull’arpa a pedali un pedale muove le due corde.`,
  'ringing-string-moved': (facts, names) =>
    facts.harp === 'pedal'
      ? `${names.change(facts.change)} va messo mentre ${nameSounding(facts, names)}: il cambio si sentirà.`
      : `La levetta di ${names.pitch(facts.pitch)} va messa mentre la sua corda suona ancora: il cambio si sentirà.`,
  'glissando-setting-guessed': ({ letters, setting, glissandi, untilBar }, names) => {
    const until = untilBar === null ? '' : ` da qui a battuta ${untilBar}`;
    const whose = glissandi === 1 ? 'questo glissando' : `${glissandi} glissandi${until}`;
    const taken = letters.map((letter) => names.change({ letter, position: setting[letter] }));
    return `${list(letters.map(names.letter))}: alterazione non indicata per ${whose}; secondo l’armatura ${list(taken)}.`;
  },
  'flat-key-rings-fuller': ({ sharps, twin }, names) =>
    `Da qui l’arpa risuona meno: i ${sharps} diesis in armatura accorciano le corde. ${names.majorKey(twin)} ha la stessa altezza e risuona più piena.`,
  'shared-notes-kept': ({ player, bars }) =>
    `Niente dice quali note ${list(bars.map(inRun))} siano per l’esecutore ${player}: sono pianificate tutte.`,
  'written-for-several': ({ players, dividedFrom }) =>
    `La parte è scritta per ${players} esecutori, ma pianificata come se uno solo suonasse tutte le note${
      dividedFrom.length === 0
        ? ''
        : `; gli esecutori si dividono ${list([...new Set(dividedFrom)].map(inBar))}`
    }.`,
};

const tellRetuned: FindingSentences['string-retuned'] = ({ tuned }, names) => {
  const each = tuned.map(
    ({ string, cents }) =>
      `${names.string(string)} di ${Math.abs(cents)} cent più ${cents > 0 ? 'alto' : 'basso'}`,
  );
  return `Da accordare prima del brano: ${list(each)}.`;
};

const inPlaces = (places: number): string => `in ${count(places, 'punto', 'punti')}`;

export const PASSAGE_SENTENCES: PassageSentences = {
  'string-for-both-hands': (places, guessed) =>
    `Le due mani devono pizzicare insieme la stessa corda, ${inPlaces(places)}.${byStaves(guessed)}`,
  'too-many-notes-in-hand': (places, guessed) =>
    `Una mano ha più note insieme di quante ne suonino le sue ${FINGERS} dita, in ${count(places, 'accordo', 'accordi')}.${byStaves(guessed)}`,
  'stretch-too-wide': (places, guessed) =>
    `${count(places, 'accordo è troppo ampio', 'accordi sono troppo ampi')} per una mano: più di una decima.${byStaves(guessed)}`,
  'string-restruck-fast': (places) =>
    `Delle corde vengono pizzicate di nuovo troppo presto, ${inPlaces(places)}, prima di poter risuonare o cambiare altezza.`,
  'harmonic-out-of-range': (places) =>
    `${count(places, 'armonico è', 'armonici sono')} fuori dal registro in cui gli armonici suonano bene.`,
  'too-many-harmonics': (places, guessed) =>
    `Una mano ha più armonici insieme di quanti ne possa suonare, ${inPlaces(places)}.${byStaves(guessed)}`,
  'no-free-hand': (places) => `Nessuna mano è libera per ${count(places, 'cambio', 'cambi')} di levetta.`,
  'hand-too-busy': (places) =>
    `Non c’è tempo per ${count(places, 'cambio', 'cambi')} di levetta: ognuno viene troppo presto dopo un altro.`,
  'other-hand-taken': (places) =>
    `Una mano che suona deve mettere ${count(places, 'levetta', 'levette')}, perché l’altra non ha tempo.`,
  'lever-short-lead': (places) =>
    `${count(places, 'levetta viene messa', 'levette vengono messe')} appena prima che la corda venga pizzicata.`,
  'lever-far-ahead': (places) =>
    `${count(places, 'levetta viene messa', 'levette vengono messe')} molto prima della nota.`,
  'foot-too-busy': (places) =>
    `I piedi non hanno tempo per ${count(places, 'cambio', 'cambi')}: ognuno viene insieme a un altro movimento del suo piede, o troppo presto dopo di esso.`,
  'pedal-in-two-positions': (places) =>
    `Un pedale dovrebbe stare in due posizioni insieme, ${inPlaces(places)}.`,
  'pedals-together': (places) =>
    `Un piede deve prendere due pedali vicini in un solo movimento, ${count(places, 'volta', 'volte')}.`,
  'foot-crossed': (places) =>
    `Un piede deve passare dall’altra parte per ${count(places, 'cambio', 'cambi')}, perché l’altro non ha tempo.`,
  'out-of-range': (places) => `L’arpa non ha corde per note ${inPlaces(places)}.`,
  'string-in-two-pitches': (places) => `Una corda dovrebbe dare due altezze insieme, ${inPlaces(places)}.`,
  'quarter-tone': (places) =>
    `${count(places, 'nota sta', 'note stanno')} tra due semitoni, dove nessuna corda è accordata.`,
  'double-accidental': (places) =>
    `${count(places, 'nota', 'note')} con doppia alterazione si suonano su corde vicine.`,
  'fixed-string-in-two-pitches': (places) =>
    `${count(places, 'nota manca', 'note mancano')}: nessun pedale agisce sulle loro corde, accordate diversamente per questo brano.`,
  'pitch-lost-by-retuning': (places) =>
    `Nessuna corda dà ${places} delle note, perché delle corde sono accordate diversamente per questo brano.`,
  'octaves-differ': (places) =>
    `Le ottave della stessa nota sono diverse ${inPlaces(places)}: qui ogni corda ha la sua levetta, ma sull’arpa a pedali un pedale muove entrambe.`,
  'ringing-string-moved': (places) =>
    `${count(places, 'cambio va fatto', 'cambi vanno fatti')} mentre le loro corde suonano ancora.`,
};
