// Draws the picture of the first view: an invented passage as a composer hands it in, and as a harpist reads it.
import { writeFileSync } from 'node:fs';
import { openScore, planPart } from '../../dist/engine/index.js';
import { createAnnotator } from '../../dist/render/index.js';

const note = (name, duration, type, { staff = 1, beam = '', sign = '' } = {}) => {
  const [, step, accidental, octave] = /^([A-G])([#b]?)(\d)$/.exec(name);
  const alter = { '#': '<alter>1</alter>', b: '<alter>-1</alter>', '': '' }[accidental];
  return (
    `<note><pitch><step>${step}</step>${alter}<octave>${octave}</octave></pitch><duration>${duration}</duration>` +
    `<voice>${staff}</voice><type>${type}</type>${sign && `<accidental>${sign}</accidental>`}<staff>${staff}</staff>` +
    `${beam && `<beam number="1">${beam}</beam>`}</note>`
  );
};

/** Four eighth notes under one beam; a name may be followed by the accidental that is printed. */
const four = (staff, ...names) =>
  names
    .map((each, i) => {
      const [name, sign = ''] = each.split(' ');
      return note(name, 1, 'eighth', { staff, sign, beam: ['begin', 'continue', 'continue', 'end'][i] });
    })
    .join('');

const BACK = '<backup><duration>8</duration></backup>';

const HEAD =
  '<attributes><divisions>2</divisions><key><fifths>-3</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time>' +
  '<staves>2</staves><clef number="1"><sign>G</sign><line>2</line></clef><clef number="2"><sign>F</sign><line>4</line></clef>' +
  '</attributes><direction><direction-type><words/></direction-type><sound tempo="72"/></direction>';

const PASSAGE =
  '<?xml version="1.0" encoding="UTF-8"?><score-partwise version="4.0"><part-list><score-part id="P1">' +
  '<part-name print-object="no">Harp</part-name></score-part></part-list><part id="P1">' +
  `<measure number="1">${HEAD}${four(1, 'G4', 'Bb4', 'Eb5', 'G5')}${four(1, 'F5', 'D5', 'Bb4', 'F4')}` +
  `${BACK}${note('Eb2', 4, 'half', { staff: 2 })}${note('Bb2', 4, 'half', { staff: 2 })}</measure>` +
  `<measure number="2">${four(1, 'Eb4', 'A4 natural', 'C5', 'Eb5')}${four(1, 'D5', 'A4', 'F#4 sharp', 'D4')}` +
  `${BACK}${note('C3', 4, 'half', { staff: 2 })}${note('D3', 4, 'half', { staff: 2 })}</measure>` +
  `<measure number="3">${four(1, 'D4', 'G4', 'B4 natural', 'D5')}${note('G5', 4, 'half')}` +
  `${BACK}${note('G2', 8, 'whole', { staff: 2 })}</measure></part></score-partwise>`;

/** A slip of paper on which the passage is one line, and of it what the line takes. In millimetres. */
const PAPER = { widthMm: 150, heightMm: 100 };
const LINE = { xMm: 8, yMm: 16, widthMm: 134, heightMm: 44 };

/** CSS counts 96 px an inch. */
const inPx = (mm) => (mm * 96) / 25.4;

const must = (result) => {
  if (!result.ok) throw new Error(JSON.stringify(result));
  return result.value;
};

const drawPassage = async () => {
  const score = must(openScore(new TextEncoder().encode(PASSAGE)));
  const { engrave } = await createAnnotator();
  const { pages } = must(await engrave(score, planPart(score, {}), { paper: PAPER }, 'svg'));
  const size = `width="${PAPER.widthMm}mm" height="${PAPER.heightMm}mm"`;
  if (!pages[0].includes(size)) throw new Error('the page does not say its size as it did');
  // What is shown of the page are outlines: no letters are set there, and the font would weigh as much as a third.
  return (
    pages[0]
      .replace(/<style type="text\/css">@font-face[^<]*<\/style>/, '')
      .replace(
        size,
        `width="${LINE.widthMm}mm" height="${LINE.heightMm}mm" ` +
          `viewBox="${inPx(LINE.xMm)} ${inPx(LINE.yMm)} ${inPx(LINE.widthMm)} ${inPx(LINE.heightMm)}"`,
      )
      // The page itself keeps its size.
      .replace(
        '<svg class="definition-scale"',
        `$& width="${inPx(PAPER.widthMm)}" height="${inPx(PAPER.heightMm)}"`,
      )
  );
};

/** A drawing without the groups of a class. */
const withoutGroups = (svg, className) => {
  const start = svg.search(new RegExp(`<g [^>]*class="${className}`));
  if (start === -1) return svg;
  let depth = 0;
  for (const tag of svg.slice(start).matchAll(/<g\b[^>]*>|<\/g>/g)) {
    depth += tag[0] === '</g>' ? -1 : 1;
    if (depth === 0) {
      return withoutGroups(svg.slice(0, start) + svg.slice(start + tag.index + tag[0].length), className);
    }
  }
  throw new Error(`a group ${className} without an end`);
};

/** Writes `before.svg` and `after.svg` into a folder. */
export const drawFirstPicture = async (folder) => {
  const after = await drawPassage();
  writeFileSync(`${folder}/after.svg`, after);
  writeFileSync(`${folder}/before.svg`, withoutGroups(after, 'pedal-marking'));
};
