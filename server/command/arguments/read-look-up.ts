import { HANDOUT_NAMES } from '../../../render/pure.ts';
import { glissandoOptions } from '../../api/answers/glissandi.ts';
import { settingAtBarOptions, settingOptions } from '../../api/answers/settings.ts';
import { handoutLook } from '../../api/requests/handouts.ts';
import { findNearest } from '../../api/requests/nearest-word.ts';
import { readNamed } from '../../api/requests/read-options.ts';
import { anyProblemMessage } from '../../service-problem.ts';
import { outputKind } from '../output-files.ts';
import type { Environment, Parsed } from './commands.ts';
import { flagsFor, optionsAmong, type Words } from './flags.ts';
import { readAddress } from './read-address.ts';
import { readGiven, wrong } from './read-given.ts';

export const readGlissandi = ({ values, positionals, switches }: Words): Parsed => {
  if (positionals.length === 0)
    return wrong('glissandi needs a chord, a scale or a list of notes, such as "C whole tone"');
  const from = values.get('from');
  const named = readNamed(glissandoOptions, [
    ['sound', positionals.join(' ')],
    ...(from === undefined ? [] : [['from', from] as const]),
  ]);
  if (!named.ok) return wrong(anyProblemMessage(named.problem));
  const options = { named: named.value, file: null };
  return { ok: true, command: { kind: 'glissandi', json: switches.has('json'), options } };
};

/** With a bar the words name a score; without one they are the setting itself. */
export const readSetting = (words: Words): Parsed => {
  const { positionals, values, switches } = words;
  const json = switches.has('json');
  const example = 'such as tringle setting "D C# Bb | E F# G Ab", or a score with --bar';
  if (positionals.length === 0) return wrong(`setting needs seven note names, ${example}`);
  if (values.has('bar')) {
    const given = readGiven(settingAtBarOptions, words);
    if (!given.ok) return given;
    const [input = '', ...more] = positionals;
    if (more.length > 0)
      return wrong(`with --bar, setting takes one file, but “${more.join('”, “')}” came after “${input}”`);
    return { ok: true, command: { kind: 'setting', input, json, options: given.options } };
  }
  const alone = Object.keys(flagsFor(settingOptions));
  const further = [...values.keys()].find((name) => !alone.includes(name));
  if (further !== undefined) return wrong(`--${further} belongs to a score: name its bar with --bar`);
  const named = readNamed(settingOptions, [
    ['setting', positionals.join(' ')],
    ...optionsAmong(settingOptions, words),
  ]);
  if (!named.ok) return wrong(anyProblemMessage(named.problem));
  return {
    ok: true,
    command: { kind: 'setting', input: null, json, options: { named: named.value, file: null } },
  };
};

export const readHandout = (words: Words): Parsed => {
  const given = readGiven(handoutLook, words);
  if (!given.ok) return given;
  const [word, ...more] = words.positionals;
  const names = HANDOUT_NAMES.join(', ');
  if (word === undefined) return wrong(`handout needs a name: ${names}`);
  if (more.length > 0)
    return wrong(`handout takes one name, but “${more.join('”, “')}” came after “${word}”`);
  const name = HANDOUT_NAMES.find((each) => each === word);
  if (name === undefined) {
    const nearest = findNearest(word, HANDOUT_NAMES);
    return wrong(
      `there is no handout “${word}”. ${nearest === null ? `They are ${names}.` : `Did you mean “${nearest}”?`}`,
    );
  }
  const output = words.values.get('output') ?? `${name}.pdf`;
  const form = outputKind(output);
  if (form !== 'pdf' && form !== 'svg')
    return wrong(`the name “${output}” does not say what kind of file to write: end it with .pdf or .svg`);
  return { ok: true, command: { kind: 'handout', name, output, form, options: given.options } };
};

export const readServe = ({ values, positionals }: Words, environment: Environment): Parsed => {
  if (positionals.length > 0) return wrong(`serve takes no file, but was given “${positionals[0]}”`);
  const address = readAddress(values, environment);
  return address.ok ? { ok: true, command: { kind: 'serve', address: address.value } } : address;
};
