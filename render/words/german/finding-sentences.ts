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

const SIDES = { left: 'linke', right: 'rechte' } as const;
const OF_SIDES = { left: 'linken', right: 'rechten' } as const;
const LEVERS = { up: 'oben', down: 'unten' } as const;
const OTHER_WAY = { up: 'unten', down: 'oben' } as const;

/** What the foot moved last. */
const LAST_MOVED = {
  'the same': 'Er hat eben erst dasselbe Pedal bewegt',
  another: 'Er hat eben erst ein anderes Pedal bewegt',
  together: 'Er bewegt zugleich ein anderes Pedal',
} as const;

const stretch = (seconds: number): string =>
  isNoTime(seconds, 1) ? 'zugleich' : `in ${withComma(seconds, 1)} s`;

const byStaff = (guessed: boolean): string =>
  guessed ? ' Welche Hand spielt, ist aus dem Notensystem geschlossen.' : '';

const byStaves = (guessed: boolean): string =>
  guessed ? ' Welche Hand spielt, ist aus den Notensystemen geschlossen.' : '';

const inRun = ({ from, until }: { readonly from: string; readonly until: string }): string =>
  from === until || from === '' || until === '' ? inBar(from) : `in den Takten ${from}–${until}`;

const nameSounding = (
  { change, sounding }: RingingFacts & { readonly harp: 'pedal' },
  names: NoteNames,
): string =>
  sounding.length === 0
    ? `ein früheres ${names.letter(change.letter)} noch klingt`
    : `${list(sounding.map((each) => nameHeardString(each, names)))} ${sounding.length === 1 ? 'noch klingt' : 'noch klingen'}`;

/** Names of ornaments from memory. */
const OF_ORNAMENT = { trill: 'zum Triller', ornament: 'zur Verzierung' } as const;

const belonging = (notes: readonly OrnamentNote[], names: NoteNames): string =>
  afterSentence(
    notes,
    (note) => `Das ${names.pitch(note.pitch)} gehört ${OF_ORNAMENT[note.what]} auf ${names.pitch(note.on)}.`,
  );

export const FINDING_SENTENCES: FindingSentences = {
  'string-for-both-hands': ({ string, guessed }, names) =>
    `Beide Hände sollen zugleich dieselbe Saite zupfen: ${names.pitch(string)}.${byStaves(guessed)}`,
  'too-many-notes-in-hand': ({ hand, notes, guessed }) =>
    `Die ${SIDES[hand]} Hand hat ${notes} Töne zugleich zu spielen, spielt aber nur mit ${FINGERS} Fingern.${byStaff(guessed)}`,
  'stretch-too-wide': ({ lowest, highest, guessed }, names) =>
    `Der Griff von ${names.pitch(lowest)} bis ${names.pitch(highest)} ist für eine Hand zu weit: Er ist größer als eine Dezime.${byStaff(guessed)}`,
  'string-restruck-fast': ({ string, seconds, again }, names) => {
    const gap = `${withComma(seconds, 2)} s`;
    const name = `Die Saite ${names.pitch(string)} wird`;
    if (again === 'tremolo') return `${name} alle ${gap} wieder gezupft, bevor sie klingen kann.`;
    if (again === 'same') return `${name} schon nach ${gap} wieder gezupft, bevor sie klingen kann.`;
    return `${name} schon nach ${gap} als ${names.pitch(again)} wieder gezupft; zum Umstellen bleibt kaum Zeit.`;
  },
  'harmonic-out-of-range': ({ string, range }, names) =>
    `Das Flageolett auf der Saite ${names.pitch(string)} klingt nicht gut: Dafür taugen die Saiten ${names.string(range.lowest)} bis ${names.string(range.highest)}.`,
  'too-many-harmonics': ({ hand, harmonics, most, guessed }) =>
    `Die ${SIDES[hand]} Hand hat ${harmonics} Flageoletts zugleich zu spielen, kann aber höchstens ${most}.${byStaff(guessed)}`,
  'strings-to-retune': ({ tuning, usual, changes }, names) =>
    `Vor dem Stück die leeren Saiten von ${names.tuning(usual)} nach ${names.tuning(tuning)} umstimmen: ${list(changes.map(names.change))}.`,
  'no-string-in-tuning': ({ note, tuning, notes }, names) =>
    `In der Stimmung ${names.tuning(tuning)} gibt keine Saite ${names.note(note)}, ob die Klappe oben oder unten ist${notes > 1 ? ` (${notes} Noten)` : ''}.`,
  'no-free-hand': ({ pitch, why }, names) =>
    why === 'hands-play'
      ? `Keine Hand ist frei, um die Klappe für ${names.pitch(pitch)} zu stellen.`
      : `Für die Klappe zu ${names.pitch(pitch)} ist keine Zeit, bevor ihre Saite gezupft wird.`,
  'hand-too-busy': ({ pitch }, names) =>
    `Für die Klappe zu ${names.pitch(pitch)} ist keine Zeit: Eben erst wurde eine andere gestellt.`,
  'other-hand-taken': ({ pitch, hand }, names) =>
    `Die ${SIDES[hand]} Hand muss die Klappe für ${names.pitch(pitch)} stellen, weil die andere keine Zeit hat.`,
  'lever-short-lead': ({ pitch, hand, seconds }, names) =>
    `Die ${SIDES[hand]} Hand stellt die Klappe für ${names.pitch(pitch)} nur ${withComma(seconds, 2)} s, bevor ihre Saite gezupft wird: Eine Klappe, die nicht ganz steht, schnarrt.`,
  'lever-far-ahead': ({ pitch, hand, seconds }, names) =>
    `Die ${SIDES[hand]} Hand stellt die Klappe für ${names.pitch(pitch)} schon ${Math.round(seconds)} s, bevor der Ton gespielt wird.`,
  'hands-hurried-passage': ({ moves, seconds, left, right }) =>
    `Die Hände müssen sich beeilen: ${moves} Klappenwechsel ${stretch(seconds)}, ${tellBySides({ left, right }, { both: `davon ${left} mit der linken Hand und ${right} mit der rechten`, allOf: (side) => `alle mit der ${OF_SIDES[side]} Hand` })}.`,
  'lever-restored': ({ pitch, elsewhere }, names) =>
    `${names.pitch(pitch)} ist für die Wiederholung: Die Klappe steht dann auf ${names.pitch(elsewhere)}.`,
  'lever-pin-not-honoured': (facts, names) => {
    const lever = `Klappe ${names.string(facts.string)} nach ${LEVERS[facts.to]}`;
    switch (facts.why) {
      case 'no-changes-here':
        return `${lever}: muss hier gestellt werden, wo keine Wechsel erlaubt sind.`;
      case 'note':
        return `${lever}: lässt sich hier nicht festlegen, denn eine Note ${inBar(facts.bar)} braucht sie ${OTHER_WAY[facts.to]}.`;
      case 'pin':
        return `${lever}: lässt sich hier nicht festlegen, denn sie ist schon ${OTHER_WAY[facts.to]} festgelegt.`;
      case 'no-moment':
        return `${lever}: lässt sich hier nicht festlegen, denn hier ist weder Note noch Zählzeit.`;
      case 'no-lever':
        return `${lever}: lässt sich nicht festlegen, denn diese Harfe hat keine solche Klappe.`;
    }
  },
  'foot-too-busy': ({ foot, change, last }, names) =>
    `Der ${SIDES[foot]} Fuß hat keine Zeit für ${names.change(change)}: ${LAST_MOVED[last]}.`,
  'pedal-in-two-positions': ({ change, rival, ofOrnaments }, names) => {
    const letter = names.letter(change.letter);
    const clash =
      rival === null
        ? `Das ${letter}-Pedal kann hier nicht auf ${names.change(change)} stehen.`
        : `Das ${letter}-Pedal müsste zugleich auf ${names.change(change)} und ${names.change(rival)} stehen: Es bewegt alle ${letter}-Saiten.`;
    return `${clash}${belonging(ofOrnaments, names)}`;
  },
  'pedals-together': ({ foot, change }, names) =>
    `Der ${SIDES[foot]} Fuß muss ${names.change(change)} und das Pedal daneben zugleich bewegen.`,
  'foot-crossed': ({ foot, change }, names) =>
    `Der ${SIDES[foot]} Fuß muss für ${names.change(change)} auf die andere Seite, weil der andere keine Zeit hat.`,
  'feet-hurried-passage': ({ moves, seconds, left, right }) =>
    `Die Füße müssen sich beeilen: ${moves} Bewegungen ${stretch(seconds)}, ${tellBySides({ left, right }, { both: `davon ${left} mit dem ${OF_SIDES.left} Fuß und ${right} mit dem ${OF_SIDES.right}`, allOf: (side) => `alle mit dem ${OF_SIDES[side]} Fuß` })}.`,
  'repeat-restored': ({ change, elsewhere }, names) =>
    `${names.change(change)} ist für die Wiederholung: Das Pedal steht dann auf ${names.change(elsewhere)}.`,
  'pin-not-honoured': (facts, names) => {
    const change = names.change(facts.change);
    switch (facts.why) {
      case 'no-moves-here':
        return `${change} muss hier gestellt werden, wo keine Bewegungen erlaubt sind.`;
      case 'needed-earlier':
        return `${change} muss schon hier gestellt werden, früher als festgelegt: Eine Note braucht es eher.`;
      case 'foot-busy':
        return `${change} muss schon hier gestellt werden, früher als festgelegt: Dort hat der ${SIDES[facts.foot]} Fuß mit einem anderen Pedal zu tun.`;
      case 'note':
        return `${change} lässt sich hier nicht festlegen: Eine Note ${inBar(facts.bar)} braucht ${names.change(facts.needed)}.`;
      case 'fixed-already':
        return `${change} lässt sich hier nicht festlegen: ${names.change(facts.fixed)} ist dort schon festgelegt.`;
      case 'no-moment':
        return `${change} lässt sich hier nicht festlegen: Hier ist weder Note noch Zählzeit.`;
    }
  },
  'marking-contradicts-notes': ({ marked, needed, bar }, names) =>
    `Nach der gedruckten Angabe ${names.change(marked)} klänge das nächste ${names.letter(needed.letter)} falsch: ${inBar(bar)} ist es ${names.change(needed)}. Dieser Plan folgt der Note.`,
  'out-of-range': ({ pitch, range, ofOrnaments }, names) =>
    `Die Harfe hat keine Saite für ${names.pitch(pitch)}: Ihre Saiten gehen von ${names.string(range.lowest)} bis ${names.string(range.highest)}.${belonging(ofOrnaments, names)}`,
  'string-in-two-pitches': ({ string, rivals, ofOrnaments }, names) => {
    const named = rivals.map((each) => ('position' in each ? names.change(each) : names.pitch(each)));
    const clash =
      named.length < 2
        ? `Die Saite ${names.string(string)} kann hier nicht ${named.join('')} geben.`
        : `Die Saite ${names.string(string)} müsste zugleich ${list(named)} geben.`;
    return `${clash}${belonging(ofOrnaments, names)}`;
  },
  'quarter-tone': ({ pitch, harp }, names) =>
    `${names.pitch(pitch)} ist nicht spielbar: Der Ton liegt zwischen zwei Halbtönen, und ${harp === 'pedal' ? 'kein Pedal' : 'keine Klappe'} gibt ihn.`,
  'double-accidental': ({ from, to }, names) =>
    `Keine Saite gibt ${names.pitch(from)} unter diesem Namen: Der Ton wird als ${names.pitch(to)} gespielt.`,
  'played-on-other-string': ({ from, to, isOfOrnament, times, fromBar }, names) => {
    const subject = isOfOrnament ? `Das ${names.pitch(from)} der Verzierung` : names.pitch(from);
    const first = fromBar === '' ? '' : `, zuerst in Takt ${fromBar}`;
    const often = times > 1 ? ` (an ${times} Stellen${first})` : '';
    return `${subject} wird auf der Saite ${names.string(to)} gespielt, als ${names.pitch(to)}${often}.`;
  },
  'fixed-string-tuning': ({ string, change }, names) =>
    `Die Saite ${names.string(string)} ändert kein Pedal: Sie vor dem Stück auf ${names.tunedTo(change)} stimmen.`,
  'fixed-string-in-two-pitches': ({ pitch }, names) =>
    `${names.pitch(pitch)} ist nicht spielbar: Die Saite ändert kein Pedal, und das Stück braucht von ihr einen anderen Ton.`,
  'string-retuned': (facts, names) => tellRetuned(facts, names),
  'string-tuned-higher': (facts, names) => tellRetuned(facts, names),
  'pitch-lost-by-retuning': ({ pitch }, names) =>
    `${names.pitch(pitch)} ist nicht spielbar: Die Saite ist umgestimmt, und keine andere gibt den Ton.`,
  'octaves-differ': ({ pitches: [one, other] }, names) =>
    `${names.pitch(one)} und ${names.pitch(other)} lassen sich so nur auf der Klappenharfe zusammen spielen: Auf der Pedalharfe bewegt ein Pedal beide Saiten.`,
  'ringing-string-moved': (facts, names) =>
    facts.harp === 'pedal'
      ? `${names.change(facts.change)} muss gestellt werden, während ${nameSounding(facts, names)}; der Wechsel wird zu hören sein.`
      : `Die Klappe für ${names.pitch(facts.pitch)} muss gestellt werden, während ihre Saite noch klingt; der Wechsel wird zu hören sein.`,
  'glissando-setting-guessed': ({ letters, setting, glissandi, untilBar }, names) => {
    const until = untilBar === null ? '' : ` von hier bis Takt ${untilBar}`;
    const whose = glissandi === 1 ? 'dieses Glissando' : `${glissandi} Glissandi${until}`;
    const taken = letters.map((letter) => names.change({ letter, position: setting[letter] }));
    return `${list(letters.map(names.letter))} ${letters.length === 1 ? 'ist' : 'sind'} für ${whose} nicht angegeben; nach den Vorzeichen gilt ${list(taken)}.`;
  },
  'flat-key-rings-fuller': ({ sharps, twin }, names) =>
    `Von hier an klingt die Harfe schwächer: Die ${sharps} Kreuze der Tonart verkürzen die Saiten. ${names.majorKey(twin)} klingt gleich hoch und voller.`,
  'shared-notes-kept': ({ player, bars }) =>
    `Nichts sagt, welche Noten ${list(bars.map(inRun))} für Spieler ${player} sind: Alle sind geplant.`,
  'written-for-several': ({ players, dividedFrom }) =>
    `Die Stimme ist für ${players} Spieler geschrieben, aber geplant, als spielte einer alle Noten${
      dividedFrom.length === 0
        ? ''
        : `; die Spieler teilen sich ${list([...new Set(dividedFrom)].map(inBar))}`
    }.`,
};

const tellRetuned: FindingSentences['string-retuned'] = ({ tuned }, names) => {
  const each = tuned.map(
    ({ string, cents }) =>
      `${names.string(string)} um ${Math.abs(cents)} Cent ${cents > 0 ? 'höher' : 'tiefer'}`,
  );
  return `Vor dem Stück stimmen: ${list(each)}.`;
};

const atPlaces = (places: number): string => `an ${count(places, 'Stelle', 'Stellen')}`;

export const PASSAGE_SENTENCES: PassageSentences = {
  'string-for-both-hands': (places, guessed) =>
    `Beide Hände sollen ${atPlaces(places)} zugleich dieselbe Saite zupfen.${byStaves(guessed)}`,
  'too-many-notes-in-hand': (places, guessed) =>
    `Eine Hand hat in ${count(places, 'Akkord', 'Akkorden')} mehr Töne zugleich, als ihre ${FINGERS} Finger spielen können.${byStaves(guessed)}`,
  'stretch-too-wide': (places, guessed) =>
    `${count(places, 'Akkord ist', 'Akkorde sind')} für eine Hand zu weit: größer als eine Dezime.${byStaves(guessed)}`,
  'string-restruck-fast': (places) =>
    `Saiten werden ${atPlaces(places)} zu bald wieder gezupft, bevor sie klingen oder umgestellt werden können.`,
  'harmonic-out-of-range': (places) =>
    `${count(places, 'Flageolett liegt', 'Flageoletts liegen')} außerhalb der Lage, in der Flageoletts gut klingen.`,
  'too-many-harmonics': (places, guessed) =>
    `Eine Hand hat ${atPlaces(places)} mehr Flageoletts zugleich, als sie spielen kann.${byStaves(guessed)}`,
  'no-free-hand': (places) => `Für ${count(places, 'Klappenwechsel', 'Klappenwechsel')} ist keine Hand frei.`,
  'hand-too-busy': (places) =>
    `Für ${places} Klappenwechsel ist keine Zeit: Jeder kommt zu bald nach einem anderen.`,
  'other-hand-taken': (places) =>
    `Eine Hand, die spielt, muss ${count(places, 'Klappe', 'Klappen')} stellen, weil die andere keine Zeit hat.`,
  'lever-short-lead': (places) =>
    `${count(places, 'Klappe wird', 'Klappen werden')} erst knapp vor dem Zupfen gestellt.`,
  'lever-far-ahead': (places) =>
    `${count(places, 'Klappe wird', 'Klappen werden')} lange vor dem Ton gestellt.`,
  'foot-too-busy': (places) =>
    `Die Füße haben für ${places} Wechsel keine Zeit: Jeder kommt zugleich mit einer anderen Bewegung seines Fußes oder zu bald danach.`,
  'pedal-in-two-positions': (places) =>
    `Ein Pedal müsste ${atPlaces(places)} zugleich in zwei Stellungen stehen.`,
  'pedals-together': (places) => `Ein Fuß muss ${places}-mal zwei Nachbarpedale in einer Bewegung nehmen.`,
  'foot-crossed': (places) =>
    `Ein Fuß muss für ${places} Wechsel auf die andere Seite, weil der andere keine Zeit hat.`,
  'out-of-range': (places) => `Für Töne ${atPlaces(places)} hat die Harfe keine Saiten.`,
  'string-in-two-pitches': (places) => `Eine Saite müsste ${atPlaces(places)} zugleich zwei Tonhöhen geben.`,
  'quarter-tone': (places) =>
    `${count(places, 'Ton liegt', 'Töne liegen')} zwischen zwei Halbtönen, wo keine Saite gestimmt ist.`,
  'double-accidental': (places) =>
    `${count(places, 'Note', 'Noten')} mit Doppelvorzeichen werden auf Nachbarsaiten gespielt.`,
  'fixed-string-in-two-pitches': (places) =>
    `${count(places, 'Ton fehlt', 'Töne fehlen')}: Ihre Saiten ändert kein Pedal, und sie sind für dieses Stück anders gestimmt.`,
  'pitch-lost-by-retuning': (places) =>
    `${count(places, 'Ton', 'Töne')} gibt keine Saite, weil Saiten für dieses Stück umgestimmt sind.`,
  'octaves-differ': (places) =>
    `Oktaven eines Tons sind ${atPlaces(places)} verschieden notiert: Hier hat jede Saite ihre Klappe, auf der Pedalharfe bewegt ein Pedal beide.`,
  'ringing-string-moved': (places) =>
    `${places} Wechsel müssen gemacht werden, während ihre Saiten noch klingen.`,
};
