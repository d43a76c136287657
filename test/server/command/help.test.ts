import { describe, expect, it } from 'vitest';
import { nameOptions } from '../../../server/api/requests/read-options.ts';
import { readArguments } from '../../../server/command/arguments/arguments.ts';
import { COMMAND_OPTIONS, COMMANDS, flagsOf } from '../../../server/command/arguments/command-flags.ts';
import { flagOf } from '../../../server/command/arguments/flags.ts';
import { writeCommandHelp, writeHelp } from '../../../server/command/arguments/help.ts';

describe.each(COMMANDS)('tringle %s --help', (name) => {
  const help = writeCommandHelp(name);

  it('is asked for so', () => {
    expect(readArguments([name, '--help'], {})).toEqual({
      ok: true,
      command: { kind: 'help', about: name },
    });
  });

  it('tells of that command as the help of all does, and of no other', () => {
    const [said] = help.split('\n\n');
    expect(writeHelp()).toContain(said);
    expect(help.match(/^ {2}tringle (\w+)/gm)?.filter((line) => !line.endsWith(` ${name}`))).toEqual([]);
  });

  it('tells of every flag that it takes', () => {
    const everywhere = ['help', 'version'];
    for (const [flag, { short }] of Object.entries(flagsOf(name))) {
      if (everywhere.includes(flag)) continue;
      const told = help.includes(`--${flag}`) || (short !== undefined && help.includes(`[-${short} `));
      expect(told, flag).toBe(true);
    }
  });

  it('tells of every option in words', () => {
    const options = COMMAND_OPTIONS[name];
    const told = help.split('\n').filter((line) => line.startsWith('  --'));
    for (const option of options === null ? [] : nameOptions(options)) {
      expect(told.some((line) => line.startsWith(`  --${flagOf(option.name)}`))).toBe(true);
    }
  });
});

it('the help of all lists every command', () => {
  for (const name of COMMANDS) expect(writeHelp()).toContain(`  tringle ${name} `);
});
