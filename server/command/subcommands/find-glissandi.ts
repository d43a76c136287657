import { glissandoOptions } from '../../api/answers/glissandi.ts';
import { anyProblemMessage } from '../../service-problem.ts';
import { computeGlissandi } from '../../threads/tasks/compute.ts';
import { readChoice } from '../arguments/choice.ts';
import type { GlissandiCommand } from '../arguments/commands.ts';
import { type CommandResult, EXIT } from '../exit.ts';
import { EVERY_ROOT, oneLine, tabulate } from '../summary.ts';

const MOST_SHOWN = 12;

/** Prints settings for a glissando. */
export const findGlissandi = async (
  command: GlissandiCommand,
  print: (line: string) => void,
): Promise<CommandResult> => {
  const choice = await readChoice(glissandoOptions, command.options);
  if (!choice.ok) return choice.ending;
  const found = computeGlissandi(choice.value);
  if (!found.ok) return { code: EXIT.usage, message: anyProblemMessage(found.problem) };
  if (command.json) {
    print(JSON.stringify(found.value, null, 2));
    return { code: EXIT.done };
  }
  const { sound, notes, exact, nearest } = found.value;
  const shown = exact.length > 0 ? exact : nearest;
  const onAnyRoot = notes.length === 0;
  print(`${oneLine(sound)}: ${onAnyRoot ? EVERY_ROOT : notes.join(' ')}`);
  print(
    exact.length > 0
      ? `Settings that give exactly this sound: ${exact.length}`
      : 'No setting gives exactly this sound. The closest are:',
  );
  const rows = shown
    .slice(0, MOST_SHOWN)
    .map(({ sound: onRoot, setting, moves, doubled, outOfOrder, missing, foreign }) => [
      onRoot,
      setting,
      choice.value.from === undefined ? '' : `${moves}`,
      doubled.map((pair) => pair.join('=')).join(' '),
      outOfOrder ? 'yes' : '',
      missing.join(' '),
      foreign.join(' '),
    ]);
  const heads = ['sound', 'setting', 'moves', 'same pitch', 'out of order', 'missing', 'foreign'];
  const first = onAnyRoot ? 0 : 1;
  const columns = exact.length > 0 ? 5 : heads.length;
  for (const line of tabulate(
    heads.slice(first, columns),
    rows.map((row) => row.slice(first, columns)),
  ))
    print(line);
  if (shown.length > MOST_SHOWN) print(`and ${shown.length - MOST_SHOWN} more (--json lists all)`);
  return { code: EXIT.done };
};
