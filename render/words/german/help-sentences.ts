import type { NoteNames } from '../../../engine/index.ts';
import {
  type ChangedNotes,
  capitalize,
  isHigher,
  type NoteOfTwo,
  nameHeardString,
} from '../../../engine/index.ts';
import { exactWithComma } from '../decimal-comma.ts';
import type { HelpSentences } from '../finding-words.ts';
import { count, inBar, list } from './phrases.ts';

const SIDES = { left: 'linken', right: 'rechten' } as const;
const TECHNICIAN =
  'Eine Saite über ihre Tonhöhe zu stimmen belastet Saite und Resonanzdecke: vorher eine Harfentechnikerin oder einen Harfentechniker fragen.';

/** Names of ornaments from memory. */
const REPEATED = {
  tremolo: 'Das Tremolo auf',
  glissando: 'Das Glissando von',
  trill: 'Den Triller auf',
  ornament: 'Die Verzierung auf',
} as const;

const inBars = (bars: ChangedNotes['bars']): string => {
  const spans = bars.map(({ from, until }) => (from === until ? from : `${from}–${until}`));
  return spans.length === 1 && spans[0] === bars[0]!.from ? inBar(spans[0]) : `in den Takten ${list(spans)}`;
};

const ofTwo = (which: NoteOfTwo, pitch: string): string =>
  ({
    either: `eine der beiden Noten ${pitch}`,
    first: `das erste ${pitch}`,
    grace: `den Vorschlag ${pitch}`,
    second: `das zweite ${pitch}`,
    only: `das ${pitch}`,
  })[which];

const atBeats = (beats: readonly string[]): string =>
  beats.length === 0 ? '' : `, ${beats.length === 1 ? 'Zählzeit' : 'Zählzeiten'} ${list(beats)}`;

const STAVES = { 'upper-staff': 'des oberen Systems', 'lower-staff': 'des unteren Systems' } as const;

const changed = (
  { from, to, bars, beats, isGrace, twin, ornament, notes }: ChangedNotes,
  names: NoteNames,
): string => {
  const name = list(from.map(names.pitch));
  const note = `${isGrace ? 'den Vorschlag ' : twin === 'main-note' ? 'die Hauptnote ' : ''}${name}`;
  const plain =
    twin === null || twin === 'main-note'
      ? note
      : twin === 'either'
        ? ofTwo('either', name)
        : `${note} ${STAVES[twin]}`;
  const what =
    ornament === null
      ? plain
      : `${REPEATED[ornament.what]} ${plain} mit ${list(ornament.neighbours.map(names.pitch))}`;
  const often = notes === from.length ? '' : ` (${count(notes, 'Note', 'Noten')})`;
  return to === null
    ? `${what} ${inBars(bars)}${atBeats(beats)} weglassen${often}.`
    : `${what} ${inBars(bars)}${atBeats(beats)} als ${list(to.map(names.pitch))} schreiben${often}.`;
};

export const HELP_SENTENCES: HelpSentences = {
  'change-notes': ({ changes }, names) => changes.map((each) => capitalize(changed(each, names))).join(' '),
  'write-for': ({ from, to }, names) => `${names.pitch(from)} als ${names.pitch(to)} schreiben.`,
  'write-on-fixed-string': ({ to, string, tuned }, names) =>
    tuned
      ? `${names.pitch(to)} schreiben: Die Saite ${names.string(string)} ist für dieses Stück schon so gestimmt.`
      : `${names.pitch(to)} schreiben und die Saite ${names.string(string)} vor dem Stück so stimmen.`,
  'one-hand-only': ({ pitch, hand }, names) =>
    `${names.pitch(pitch)} nur mit der ${hand === 'left' ? 'linken' : 'rechten'} Hand spielen.`,
  'write-one-as': ({ which, pitch, to }, names) =>
    `${capitalize(ofTwo(which, names.pitch(pitch)))} als ${names.pitch(to)} schreiben.`,
  'leave-out-first': ({ pitch, isGrace }, names) =>
    `${capitalize(ofTwo(isGrace ? 'grace' : 'first', names.pitch(pitch)))} weglassen.`,
  'leave-one-out': () => 'Eine der Noten weglassen.',
  'into-range': ({ pitch, to }, names) => `${names.pitch(to)} statt ${names.pitch(pitch)} spielen.`,
  'octave-or-leave-out': ({ pitch, to }, names) =>
    `${names.pitch(pitch)} eine Oktave ${isHigher(to, pitch) ? 'höher' : 'tiefer'} spielen (${names.pitch(to)}) oder weglassen.`,
  'octave-stands-there': ({ pitch, to }, names) =>
    `${names.pitch(pitch)} weglassen: ${names.pitch(to)}, eine Oktave entfernt, steht schon da.`,
  'replace-note': () => 'Die Note durch eine andere ersetzen.',
  'or-leave-out': () => 'Oder die Note weglassen.',
  'leave-note-out': () => 'Die Note weglassen.',
  'ask-technician': () => TECHNICIAN,
  'retune-another': () => 'Stattdessen eine andere Saite umstimmen oder die Note durch eine andere ersetzen.',
  'retune-strings': ({ tuned, lost }, names) => {
    const strings = tuned.map(
      ({ string, cents }) =>
        `${names.string(string)} um ${Math.abs(cents)} Cent ${cents > 0 ? 'höher' : 'tiefer'}`,
    );
    const price =
      lost.length === 0
        ? 'Alle anderen Noten bleiben spielbar.'
        : `Dann gibt aber keine Saite ${list(lost.map(names.pitch))}.`;
    const raised = tuned.some(({ cents }) => cents > 0) ? ` ${TECHNICIAN}` : '';
    return `Vor dem Stück ${list(strings)} stimmen: ${price}${raised}`;
  },
  'retuning-is-no-help': () => 'Saiten umzustimmen hilft nicht.',
  'tune-to-play': ({ tuning, missingNotes, changes, withoutTime }, names) =>
    `Nach ${names.tuning(tuning)} stimmen, dann ist die Note spielbar; dem Stück fehlen dann ${count(missingNotes, 'Note', 'Noten')}, und es hat ${count(changes, 'Klappenwechsel', 'Klappenwechsel')}${withoutTime === 0 ? '' : `, davon ${withoutTime} ohne Zeit dafür`}.`,
  'no-tuning-helps': ({ note, isGiven }, names) =>
    isGiven
      ? `Eine andere Stimmung hilft nicht: Wo die Saiten jedes ${names.note(note)} geben, ist anderes ebenso oft nicht spielbar oder öfter.`
      : `Eine andere Stimmung hilft nicht: Keine gibt hier jedes ${names.note(note)}.`,
  'tune-instead': ({ tuning, changes }, names) =>
    changes === 0
      ? `Stattdessen nach ${names.tuning(tuning)} stimmen: Dann wechselt keine Klappe.`
      : `Stattdessen nach ${names.tuning(tuning)} stimmen: Dann hat eine Hand für jeden Wechsel Zeit (${changes} im ganzen Stück).`,
  'write-in-key': ({ tonic }, names) =>
    `Die Harfenstimme in ${names.majorKey(tonic)} oder der parallelen Molltonart schreiben.`,
  'change-marking': ({ needed }, names) => `Die Angabe in ${names.change(needed)} ändern.`,
  'state-glissando': ({ what, glissandi }) =>
    `${what === 'setting' ? 'Die Pedalstellung' : 'Die Töne'} ${glissandi === 1 ? 'des Glissandos' : 'dieser Glissandi'} in den Noten angeben.`,
  'damp-earlier': ({ letter, sounding }, names) =>
    `${sounding.length === 0 ? `Das frühere ${names.letter(letter)}` : list(sounding.map((each) => nameHeardString(each, names)))} vor dem Wechsel dämpfen oder kürzer halten.`,
  'damp-string': () => 'Die Saite vor dem Wechsel dämpfen oder ihre Note kürzer halten.',
  'move-harmonic': ({ range }, names) =>
    `Das Flageolett auf eine Saite von ${names.string(range.lowest)} bis ${names.string(range.highest)} legen oder als gewöhnliche Note spielen.`,
  'more-time': () => 'Hier mehr Zeit nehmen.',
  'more-time-or-second-harp': () => 'Hier mehr Zeit nehmen oder eine Note einer anderen Harfe geben.',
  'more-time-or-leave-out': () =>
    'Hier mehr Zeit nehmen oder eine Note auf einer der beiden Saiten weglassen.',
  'more-time-for-feet': () =>
    'Hier mehr Zeit nehmen, Noten auf Nachbarsaiten spielen oder die Stelle mit einer anderen Harfe teilen.',
  'more-time-for-hands': () => 'Hier mehr Zeit nehmen oder so stimmen, dass weniger Klappen wechseln.',
  'unhurried-at': ({ percent }) => `Bei ${percent} % des Tempos sind diese Wechsel ohne Eile.`,
  'more-time-for-lever': () =>
    'Der Hand, die die Klappe stellt, mehr Zeit geben oder die Note einen Augenblick später spielen.',
  'rest-before-note': ({ seconds }) =>
    `Einer Hand vor der Note ${exactWithComma(seconds)} s Pause geben oder die Note in einer anderen Oktave spielen.`,
  'rest-for-hand': ({ hand }) => `Der ${SIDES[hand]} Hand hier eine Pause geben.`,
  'second-harp': () => 'Eine der Noten einer anderen Harfe geben.',
  'end-earlier': ({ what, on, before }, names) =>
    `${REPEATED[what]} ${names.pitch(on)} vor dem ${names.pitch(before)} beenden.`,
  'other-hand-takes': ({ hand, pitches }, names) =>
    `${list(pitches.map(names.pitch))} mit der ${SIDES[hand]} Hand spielen.`,
  'leave-out-of-chord': ({ notes, isBroken }) =>
    `${isBroken ? 'Aus dem Akkord' : 'Den Akkord brechen oder'} ${count(notes, 'Note', 'Noten')} weglassen.`,
  'break-chord': () => 'Den Akkord brechen.',
  'leave-out-harmonic': () => 'Ein Flageolett weglassen oder eines als gewöhnliche Note spielen.',
  'tremolo-of-two': ({ pitches }, names) =>
    pitches === null
      ? 'Ein Tremolo zwischen zwei Noten schreiben.'
      : `Das Tremolo zwischen ${list(pitches.map(names.pitch))} schreiben, zwei Saiten mit demselben Ton.`,
  'shorten-quiet-passage': ({ without }) =>
    `Die Stelle ohne ${without === 'moves' ? 'Bewegungen' : 'Wechsel'} kürzen.`,
  'move-pin': () => 'Die Festlegung verschieben oder entfernen.',
  'pin-elsewhere': () => 'Eine der beiden Bewegungen an anderer Stelle festlegen.',
  'plan-one-player': () =>
    'Die Noten eines Spielers planen (Option „player“), wo Worte oder Hälse sagen, wessen Noten es sind.',
  'part-for-each-player': () =>
    'Für jeden Spieler eine Stimme mit seinen Noten allein anlegen und jede für sich planen.',
  'mark-players': () =>
    'Über die Noten „I“, „II“ oder „a 2“ schreiben oder jedem Spieler eine eigene Stimme im System geben.',
};
