import { describe, expect, it } from 'vitest';
import { formatSetting } from '../../../engine/harp/setting.ts';
import type { Annotation } from '../../../render/annotation.ts';
import { annotateBytes } from '../annotate-bytes.ts';
import { annotator } from '../shared-annotator.ts';
import { meiScore } from '../small-score.ts';

const annotate = async (bytes: Uint8Array): Promise<Annotation> => {
  const annotated = await annotateBytes(annotator, bytes, {}, 'svg');
  if (!annotated.ok) throw new Error(JSON.stringify(annotated.problem));
  return annotated.value;
};

const wordsOf = ({ pages }: Annotation): string =>
  pages
    .join(' ')
    .replace(/<title>[^<]*<\/title>/g, '')
    .replace(/<[^>]*>/g, '')
    .replace(/[\s\u00A0]+/g, ' ');

const pedalPlan = ({ plan }: Annotation) => {
  if ('kind' in plan && plan.kind !== 'pedal') throw new Error('not a pedal plan');
  return 'plan' in plan ? plan.plan : plan;
};

describe('a playing technique', () => {
  // Names of techniques: common practice, no source.
  it.each(['près de la table', 'bisbigliando', 'pedal buzz', 'sons étouffés', 'ordinario', 'with nails'])(
    'that is only a word is left alone: %s',
    async (word) => {
      const dir = `<dir staff="1" tstamp="1" place="above">${word}</dir>`;
      const plain = await annotate(meiScore({ bars: ['c4.2 c#4.2/c3.1'] }));
      const marked = await annotate(meiScore({ bars: ['c4.2 c#4.2/c3.1'], events: { 0: dir } }));
      expect(wordsOf(marked)).toContain(word);
      expect(pedalPlan(marked).moves).toEqual(pedalPlan(plain).moves);
      expect(pedalPlan(marked).findings).toEqual(pedalPlan(plain).findings);
    },
  );

  it('on two strings of one pitch sets both of them: bisbigliando on C sharp and D flat', async () => {
    const tremolo = meiScore({ bars: ['c#4.2 db4.2/R'] });
    const text = new TextDecoder()
      .decode(tremolo)
      .replace(
        /<note pname="c" oct="4" accid="s" dur="2"\/><note pname="d" oct="4" accid="f" dur="2"\/>/,
        '<fTrem unitdur="32"><note pname="c" oct="4" accid="s" dur="1"/><note pname="d" oct="4" accid="f" dur="1"/></fTrem>',
      );
    expect(text).toContain('fTrem');
    const plan = pedalPlan(await annotate(new TextEncoder().encode(text)));
    expect(formatSetting(plan.initial)).toContain('D♭ C♯');
    expect(plan.findings.filter(({ severity }) => severity === 'stop')).toEqual([]);
    expect(plan.respellings).toEqual([]);
  });

  it('a pedal slide moves the pedal while its string rings, and is no fault', async () => {
    const slide = meiScore({ bars: ['c4.2 c#4.2/R'] });
    const text = new TextDecoder()
      .decode(slide)
      .replace('<note pname="c" oct="4" accid.ges="n"', '<note xml:id="from" pname="c" oct="4" accid.ges="n"')
      .replace('<note pname="c" oct="4" accid="s"', '<note xml:id="to" pname="c" oct="4" accid="s"')
      .replace('</measure>', '<gliss startid="#from" endid="#to"/></measure>');
    const plan = pedalPlan(await annotate(new TextEncoder().encode(text)));
    expect(plan.moves.map(({ letter, to }) => [letter, to])).toEqual([['C', 1]]);
    expect(plan.findings.map(({ code }) => code)).not.toContain('ringing-string-moved');
  });
});
