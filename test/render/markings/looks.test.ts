import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseSetting } from '../../../engine/harp/setting.ts';
import { DEFAULT_LEVER_OPTIONS } from '../../../engine/levers/options.ts';
import { planLevers } from '../../../engine/levers/plan.ts';
import { drawMarking } from '../../../render/draw/draw-marking.ts';
import { DEFAULT_ENGRAVING } from '../../../render/engraving-options.ts';
import { chooseLeverMarkings } from '../../../render/levers/lever-markings.ts';
import { LEVER_LOOK_NAMES, LEVER_LOOKS } from '../../../render/looks/lever-looks.ts';
import { SETTING_LOOK_NAMES, SETTING_LOOKS } from '../../../render/looks/setting-looks.ts';
import type { Marking } from '../../../render/markings/markings.ts';
import { annotateOptions } from '../../../server/api/requests/options.ts';
import { writeHelp } from '../../../server/command/arguments/help.ts';
import { smallPart } from '../../part-builder.ts';
import { PLAIN_SETTING } from '../marking-builder.ts';

const filesIn = (folder: string): string[] =>
  readdirSync(new URL(`../../../render/looks/${folder}/`, import.meta.url)).map((file) =>
    file.replace(/\.ts$/, ''),
  );

const GIVEN = parseSetting('D C# Bb | E F# G A');
if (!GIVEN.ok) throw new Error('no setting');

const SETTING: Marking = {
  kind: 'setting',
  id: 'marking-1',
  at: { num: 0, den: 1 },
  bar: 0,
  beat: { num: 1, den: 1 },
  graceNote: null,
  setting: GIVEN.value,
  changed: ['C'],
  ...PLAIN_SETTING,
};

describe('the looks of full settings', () => {
  it('have every file of their folder, and no others', () => {
    expect([...SETTING_LOOK_NAMES].sort()).toEqual(filesIn('settings').sort());
  });

  it('are told apart by what they draw, and each asks for room', () => {
    const drawn = SETTING_LOOK_NAMES.map((settingLook) =>
      drawMarking(SETTING, { settingLook, naming: 'english', language: 'english', circleChanged: true }),
    );
    expect(new Set(drawn.map(({ body }) => body)).size).toBe(drawn.length);
    for (const { box } of drawn) expect(Math.min(box.widthVu, box.heightVu)).toBeGreaterThan(0);
  });

  it.each(SETTING_LOOK_NAMES)('name %s to people and to programs', (name) => {
    const { label, meaning } = SETTING_LOOKS[name].words;
    expect(label).toMatch(/^(as|in) /);
    expect(annotateOptions.shape.settingLook.meta()?.description).toContain(`${name}: ${meaning}`);
    expect(annotateOptions.safeParse({ settingLook: name }).success).toBe(true);
    expect(writeHelp()).toContain(name);
  });
});

describe('the looks of lever changes', () => {
  it('have every file of their folder, and no others', () => {
    expect([...LEVER_LOOK_NAMES].sort()).toEqual(filesIn('levers').sort());
  });

  it.each(LEVER_LOOK_NAMES)('name %s to people and to programs', (name) => {
    expect(annotateOptions.shape.leverLook.meta()?.description).toContain(
      `${name}: ${LEVER_LOOKS[name].words.meaning}`,
    );
    expect(annotateOptions.safeParse({ leverLook: name }).success).toBe(true);
    expect(writeHelp()).toContain(name);
  });

  it.each(LEVER_LOOK_NAMES)('print %s as the kind of mark that it says', (name) => {
    const score = smallPart({ upper: 'F4/1 C5/1 C5/1 C5/1 | C5/1 C5/1 C5/1 F#4/1' });
    const { profile } = DEFAULT_LEVER_OPTIONS;
    const plan = planLevers(score, { ...DEFAULT_LEVER_OPTIONS, tuning: profile.tuning });
    const kinds = chooseLeverMarkings(score, plan, profile, { leverLook: name, changeWords: false }).map(
      ({ kind }) => kind,
    );
    expect(kinds).toEqual(['levers', LEVER_LOOKS[name].kind]);
  });

  it('print a change by name where a note has nothing to stand before', () => {
    const hostless = LEVER_LOOKS.notes.mark(
      planLevers(smallPart({ upper: 'F4/1 r/3 | F#4/4' }), {
        ...DEFAULT_LEVER_OPTIONS,
        tuning: DEFAULT_LEVER_OPTIONS.profile.tuning,
      }).moves,
      'marking-2',
      () => null,
    );
    expect(hostless.kind).toBe('lever-change');
    expect(hostless.changes.map(({ alter }) => alter)).toEqual([1]);
  });

  it('begin with the usual one', () => {
    expect([SETTING_LOOK_NAMES[0], LEVER_LOOK_NAMES[0]]).toEqual([
      DEFAULT_ENGRAVING.settingLook,
      DEFAULT_ENGRAVING.leverLook,
    ]);
  });
});
