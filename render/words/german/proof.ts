import { withComma } from '../decimal-comma.ts';
import type { AdviceSentences } from '../finding-words.ts';
import { type ProofPhrases, proofSentences } from '../proof-phrases.ts';
import type { Words } from '../worded.ts';
import { list } from './phrases.ts';

const place = (bar: string, beat: string): string => `Takt ${bar}, Zählzeit ${beat}`;

const PHRASES: ProofPhrases = {
  noMarkings: {
    pedal: 'Die Stimme hat keine Pedalangaben, also gibt es nichts zu prüfen.',
    lever: 'Die Stimme hat keine Klappenangaben, also gibt es nichts zu prüfen.',
  },
  unclear: {
    pedal: (words) => `Die Worte „${words}“ scheinen Pedale zu nennen, aber es ist nicht klar, welche.`,
    lever: (words) =>
      `Die Worte „${words}“ scheinen von Klappen zu sprechen, aber es ist nicht klar, von welchen.`,
  },
  unknown: (letters) =>
    `Niemand kann wissen, wie hier ${letters.length === 1 ? 'das Pedal' : 'die Pedale'} ${list(letters)} ${letters.length === 1 ? 'steht' : 'stehen'}: Keine Angabe hat es gesagt.`,
  ornamentOn: (note) => `die Verzierung auf ${note}`,
  by: (where) => (where === null ? 'vom Anfang her' : `nach der Angabe in ${place(where.bar, where.beat)}`),
  times: (passes) => (passes.length === 0 ? '' : ` beim ${list(passes.map((each) => `${each}.`))} Mal`),
  stillHeld: (change, note, needed) =>
    `${change} ist zu früh angegeben: ${note} wird noch gehalten und braucht ${needed}.`,
  soundsWrong: (note, times, { needed, stands, by }) =>
    `${note} klingt${times} falsch: Nötig ist ${needed}, aber ${by} steht ${stands}.`,
  soundsWrongOnReturn: (note, bar, { needed, stands, by }) =>
    `${note} klingt falsch, wenn die Musik zu Takt ${bar} zurückkehrt: Nötig ist ${needed}, aber ${by} steht ${stands}.`,
  tooQuick: (foot, change, note, bar, seconds) =>
    `Der ${foot === 'left' ? 'linke' : 'rechte'} Fuß kann ${change} nicht rechtzeitig für ${note} in Takt ${bar} stellen: Nach seinem letzten Wechsel fehlen ${withComma(seconds, 2)} s.`,
  contradict: (first, second) =>
    `Hier ist nicht zu sagen, was gilt: Eine Angabe sagt ${first}, eine andere ${second}.`,
  needless: {
    stands: {
      pedal: (change) => `${change} ist angegeben, aber das Pedal steht schon so.`,
      lever: (change) => `${change} ist angegeben, aber die Klappe steht schon so.`,
    },
    unasked: {
      pedal: (change) =>
        `${change} ist angegeben, aber keine Note braucht es, bevor das Pedal wieder wechselt.`,
      lever: (change) =>
        `${change} ist angegeben, aber keine Note braucht es, bevor die Klappe wieder wechselt.`,
    },
    twice: (change) => `${change} ist hier zweimal angegeben.`,
  },
  bends: (change, note) =>
    `${change} ist angegeben, während ${note} noch klingt, und würde den Ton verbiegen.`,
  late: (change, note) =>
    `${change} kommt für ${note} noch rechtzeitig, ist aber später angegeben als nötig.`,
  early: (change, note) => `${change} ist lange vor ${note} angegeben, so dass man es sich merken muss.`,
  glissando: (sounding, expected) =>
    `Nach den Angaben klingt das Glissando ${list(sounding)}, seine Noten und die Vorzeichen sagen aber ${list(expected)}.`,
  noSuchLever: (name) => `${name} ist angegeben, aber diese Harfe hat auf so einer Saite keine Klappe.`,
  notInTuning: (name, tuning) =>
    `${name} ist angegeben, aber in der Stimmung ${tuning} gibt keine Klappe diesen Ton.`,
  startUntold:
    'Keine Angabe sagt, wie die Klappen am Anfang stehen: Angenommen ist, was die Vorzeichen verlangen.',
  noHand: (change, note, bar) =>
    `Keine Hand ist frei, um ${change} zwischen der Angabe und ${note} in Takt ${bar} zu stellen.`,
  tooClose: (change, note, bar) =>
    `${change} ist zu nah bei einem anderen Wechsel angegeben: Keine Hand schafft beide vor ${note} in Takt ${bar}.`,
};

const ADVICE: AdviceSentences = {
  'annotate-first': () => 'Zuerst die Stimme einrichten.',
  'name-pedals': () => 'Jedes Pedal mit Buchstaben und ♭, ♮ oder ♯ schreiben.',
  'name-levers': () =>
    'Jede Klappe mit Buchstaben, ♭, ♮ oder ♯ und der Oktave ihrer Saite schreiben, oder mit „up“ oder „down“.',
  'print-missing': ({ changes }, names) =>
    `Dafür ${changes.map(names.change).join(', ')} schreiben, wenn das gemeint ist: Es fehlt in diesem Takt.`,
  'print-levers-up': () => 'Vor der ersten Note schreiben, welche Klappen oben sind.',
  'note-against-note': ({ rival, other }, names) =>
    `Keine Angabe hilft, weil eine andere Note zugleich ${names.change(rival)} braucht: ${other === null ? 'weglassen' : `als ${names.pitch(other)} spielen`} oder einer anderen Harfe geben.`,
  'lever-against-lever': ({ rival }, names) =>
    `Keine Angabe hilft, weil eine andere Note zugleich ${names.lever(rival)} braucht: eine weglassen oder einer anderen Harfe geben.`,
  'respell-or-wait': () => 'Oder eine der Noten umdeuten, oder hier mehr Zeit nehmen.',
  'omit-or-wait': () => 'Oder für die Hand eine Note weglassen, oder hier mehr Zeit nehmen.',
  'too-many-mistakes': () =>
    'Es sind zu viele Fehler, um jede Abhilfe zu versuchen. Zuerst die anderen Korrekturen machen, dann noch einmal prüfen.',
};

const FIXES: Words['proof']['fixes'] = {
  place,
  fullSetting: 'die ganze Stellung',
  marking: (names) => `die Angabe ${names}`,
  add: (names, where) => `${names} in ${where} eintragen`,
  addSetting: (setting, where) => `die ganze Stellung ${setting} in ${where} eintragen`,
  print: (name, instead, where) => `${name} statt ${instead} in ${where} schreiben`,
  move: (marking, from, to) => `${marking} von ${from} nach ${to} verschieben`,
  remove: (marking, where) => `${marking} in ${where} streichen`,
  and: ', und ',
};

export const PROOF_WORDS: Words['proof'] = {
  nothing: 'Nichts ist falsch',
  faults: 'Fehler, und wie sie zu beheben sind',
  edits: 'Alle Korrekturen zusammen',
  inFile: 'In der Datei',
  right: {
    pedal: 'Jede Note findet ihr Pedal, und die Füße haben Zeit.',
    lever: 'Jede Note findet ihre Klappe, und für jeden Wechsel hat eine Hand Zeit.',
  },
  sentences: proofSentences(PHRASES),
  advice: ADVICE,
  fixes: FIXES,
  leverFixes: {
    ...{ place, add: FIXES.add, and: FIXES.and, list },
    words: (text, where) => `„${text}“ in ${where}`,
    smallNote: (text, where) => `der kleinen Note ${text} in ${where}`,
    print: (names, text) => `${names} in ${text} schreiben`,
    printInstead: (names, instead, text) => `${names} statt ${instead} in ${text} schreiben`,
    move: (names, text, to) => `${names} aus ${text} nach ${to} verschieben`,
    remove: (names, text) => `${names} aus ${text} streichen`,
  },
};
