import { foldLabel } from '../words/labels.ts';

/**
 * What words over a staff mean for the whole ensemble: a tempo, one that changes step by step, an order to all players,
 * or a character that may be part of a tempo (“Tranquillo”) or one player's own (“tranquillo”).
 */
export type WordsKind = 'tempo' | 'gradual' | 'order' | 'character';

/** Longer words are an explanation. */
const LONGEST_TEMPO = 120;

/**
 * What Italian, German, French, English and Spanish scores have for it, without accents; common practice, from memory.
 *
 * @example kindOfWords('Un peu moins vite') // 'tempo'
 */
export const kindOfWords = (text: string): WordsKind | null => {
  if (text.length > LONGEST_TEMPO) return null;
  const folded = foldWords(text);
  if (FIGURE.test(text)) return 'tempo';
  if (ORDERS.test(folded)) return 'order';
  const words = folded.split(/[^\p{L}\p{N}]+/u).filter((word) => word !== '');
  if (words.some((word) => TECHNIQUE.test(word))) return null;
  if (STRINGENDO.test(folded)) return 'gradual';
  const gradual = words.findIndex((word) => GRADUAL.test(word));
  // “Lebhaft und drängend” is a tempo, “rit. molto” is none.
  const isTempo = words.slice(0, gradual).some((word) => NEGATIONS.has(word) || TEMPO.has(word));
  if (gradual >= 0) return isTempo ? 'tempo' : 'gradual';
  if (words.some((word) => TEMPO.has(word)) || PHRASES.test(folded)) return 'tempo';
  if (!words.some((word) => CHARACTER.test(word))) return null;
  return words.some((word) => COMPARING.has(word)) ? 'tempo' : 'character';
};

/** For comparing with the words below, which have no accents. */
const foldWords = (text: string): string => foldLabel(text).replaceAll('ß', 'ss');

/** A note value of a metronome mark and its figure. */
const FIGURE = /[\uECA0-\uECB7\u2669\u266A]\s*=\s*\d/u;

const listed = (text: string): ReadonlySet<string> => new Set(text.trim().split(/\s+/u));

const TEMPO = listed(`
  largo larghetto larghissimo lento lentamente lentissimo adagio adagietto adagissimo andante andantino moderato
  allegretto allegro allegrissimo vivace vivacissimo vivacemente vivo presto prestissimo tempo mosso moto rubato doppio animato liberamente marcia
  langsam langsamer schnell schneller massig massiger bewegt bewegter lebhaft lebhafter rasch rascher eilig ruhig ruhiger
  gemachlich gehend fliessend fliessender schleppend schleppen zeitmass hauptzeitmass munter hurtig gemessen belebt belebter
  eilen geschwind frei marschmassig
  lent lente lentement modere moderement anime vif vivement vite rapide rapidement mouvement mouvt presser allant librement
  slow slower slowly fast faster quick quicker quickly lively livelier brisk briskly moderate moderately unhurried freely
  despacio rapido moderadamente animado deprisa tiempo libremente
`);

/** Words that set a tempo only together. */
const PHRASES =
  /^(?:tres |plus |un peu |assez |plus ou moins )?large$|^(?:sehr |etwas |noch )?breit(?:er)?$|^grave\b|\bgrave$|^a l'aise$|^in time\b|^(?:very |more )?broad(?:ly)?$|^steady\b|\bwie zuvor\b|\bcome (?:prima|sopra)\b|\bl'?istesso\b|\blo stesso\b|^alla breve$|^(?:un )?poco (?:piu|meno)$|^(?:un peu|encore) (?:plus|moins)$|^sans rigueur\b|\bcon movimiento\b|^mas (?:vivo|lento)\b|^(?:half|double) time\b/u;

const GRADUAL =
  /^(?:rit|ritard|ritardando|ritardato|riten|ritenuto|ritenendo|rall|rallent|rallentando|accel|acceler|accelerando|allarg|allargando|stringendo|animando|affrett|affrettando|slarg|slargando|slentando|slent|incalzando|stretto|trattenuto|tratten|precipitando|zuruckhalten|zuruckhaltend|zuruckgehalten|verbreitern|verbreiternd|verlangsamen|verlangsamend|beschleunigen|beschleunigend|drangen|drangend|nachlassen|nachlassend|eilend|treibend|cedez|ceder|cede|cedant|ralentir|ralentissez|ralentissant|ralenti|retenez|retenir|retenu|retenant|retardez|retardant|animez|animant|pressez|pressant|serrez|serrant|serre|accelerez|accelerant|elargissez|elargissant|elargir|slowing|slacken|slackening|broaden|broadening|hurrying|quickening|accelerating|retardando|retardar|acelerando|acelerar|ralentizando|reteniendo|apresurando)$/u;

/** “string.” alone or with a measure: else it is a string. */
const STRINGENDO = /^(?:e |poco |molto |poco a poco |sempre )*string\.?(?: (?:e|molto|poco|sempre)\b.*)?$/u;

/** “non riten.”, “sans ralentir”, “nicht eilend”: the tempo stays. */
const NEGATIONS = listed('non nicht ohne sans senza not without sin no pas kein keine');

const COMPARING = listed(
  'piu meno poco molto plus moins peu tres assez mehr weniger etwas noch sehr immer sempre more less mas menos tempo',
);

const CHARACTER =
  /^(?:tranquillo|steigernd|agitato|maestoso|sostenuto|calando|morendo|perdendosi|perdendo|calmo|calmato|calme|souple|feierlich|getragen|grazioso|gracieux|scherzando|appassionato|energico|pesante|giocoso|misterioso|mysterieux|decide|gai|soutenu|innig|heiter|scorrevole|majestic|calm|calmly|tranquilo|majestuoso|agite|sereno|spirito|brio|fuoco|precipitato|largamente)$/u;

/** Words that tell a player how to do something, however fast. */
const TECHNIQUE =
  /^(?:gliss|glissando|glissandi|trem|tremolo|vib|vibr|vibrato|bow|bows|bowed|arco|pizz|pizzicato|archet|bogen|mute|muted|sord|sordino|sordina|sourdine|dampfer|stick|sticks|mallet|mallets|beater|beaters|baguette|baguettes|schlagel|pedal|ped|corde|strings|saite|saiten|roll|trill|trille|flutter|repeat|repeats)$/u;

/** Orders to go on without a pause, as a player reads them at the end of a movement (common practice, no source). */
const GOING_ON =
  'att?ac{1,2}a|enchaine[zr]|(?:sans|senza|sin|ohne|without(?: a)?|no) (?:interruption|interruzione|interrupcion|unterbrechung|pausa|pause|break)';

const BEGINS_GOING_ON = new RegExp(`^(?:${GOING_ON}|segue)(?!\\p{L})`, 'u');

/** Whether words ask all to go on without a pause. */
export const askToGoOn = (text: string): boolean => BEGINS_GOING_ON.test(foldWords(text));

/** Where a piece ends that returns to its beginning. */
const FINE = 'fine|fin|ende';

const IS_FINE = new RegExp(`^(?:${FINE})[.:!]?$`, 'u');

export const isFine = (text: string): boolean => IS_FINE.test(foldWords(text).trim());

/** Orders to all: how the music goes on, stops or returns. */
const ORDERS = new RegExp(
  `^(?:(?:${GOING_ON})(?: subito)?(?: il seguente)?|${FINE}|${String.raw`g\.? ?p\.?|general ?pause|generalpause|grand pause|pausa generale|gran pausa|lunga|lunga pausa|long silence|silence|d\. ?c\..*|d\. ?s\..*|da capo.*|dal segno.*|to coda.*|al coda.*|alla coda.*|coda|senza misura|recit\.?|recitativo?|recitatif|rezitativ|tacet al fine|segue(?: (?:subito|il|la|no?).*)?`})[.:!]?$`,
  'u',
);
