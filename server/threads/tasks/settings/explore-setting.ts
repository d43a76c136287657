import {
  nameBarIn,
  nameBarOrCount,
  parseSetting,
  pedalOptionsFor,
  readWantedSounds,
  type Setting,
  searchSettings,
  settingAtQuarters,
  toNumber,
  type WantedSounds,
} from '../../../../engine/index.ts';
import {
  reportSetting,
  type SettingAtBarChoice,
  type SettingChoice,
  type SettingPlace,
  type SettingReport,
} from '../../../api/answers/settings.ts';
import { fail, type Outcome } from '../../../service-problem.ts';
import type { ScoreFile } from '../../job.ts';
import { planScore } from '../plan-score.ts';
import type { StageClock } from '../stage-clock.ts';
import { offerNearestSounds } from './nearest-sounds.ts';

/** @returns `bad-option` for what are not seven note names */
export const readSettingOption = (option: string, value: string): Outcome<Setting> => {
  const read = parseSetting(value);
  if (read.ok) return read;
  const expected = 'it must be seven note names, such as “D C# Bb | E F# G Ab”';
  return fail({ code: 'bad-option', option, value, expected });
};

/** @returns `bad-option` for a sound that is not known, with the nearest that are */
export const readSoundOption = (value: string): Outcome<WantedSounds> => {
  const wanted = readWantedSounds(value);
  if (wanted.ok) return wanted;
  const expected = `it must be a chord, a scale or a list of notes; the closest known sounds are ${offerNearestSounds(value)}`;
  return fail({ code: 'bad-option', option: 'sound', value, expected });
};

type Wishes = Pick<SettingChoice, 'to' | 'sound' | 'footRestSeconds'>;

const NOTHING = { ok: true, value: null } as const;

const answerAbout = (setting: Setting, at: SettingPlace | null, wishes: Wishes): Outcome<SettingReport> => {
  const to = wishes.to === undefined ? NOTHING : readSettingOption('to', wishes.to);
  if (!to.ok) return to;
  const wanted = wishes.sound === undefined ? NOTHING : readSoundOption(wishes.sound);
  if (!wanted.ok) return wanted;
  const { footRestSeconds } = pedalOptionsFor(wishes).weights;
  const found = wanted.value === null ? null : searchSettings(wanted.value.sounds, setting, footRestSeconds);
  const question = { setting, at, to: to.value, wanted: wanted.value, footRestSeconds };
  return { ok: true, value: reportSetting(question, found) };
};

/** What a setting holds, and what is near it. */
export const exploreSetting = (choice: SettingChoice): Outcome<SettingReport> => {
  const setting = readSettingOption('setting', choice.setting);
  return setting.ok ? answerAbout(setting.value, null, choice) : setting;
};

/** The same of the setting with which the first notes of a bar are played. */
export const exploreSettingAtBar = async (
  file: ScoreFile,
  choice: SettingAtBarChoice,
  clock: StageClock,
): Promise<Outcome<SettingReport>> => {
  const { bar: named, to: _to, sound: _sound, ...planned } = choice;
  const outcome = await planScore(file, planned, clock);
  if (!outcome.ok) return outcome;
  const { score, plan } = outcome.value;
  if (plan.kind === 'lever') {
    return fail({
      code: 'unsupported',
      feature: 'A setting of pedals on a lever harp',
      advice: 'Choose a pedal harp with the option instrument.',
    });
  }
  const nameBar = nameBarIn(score);
  const bar =
    score.bars.find(({ index }) => nameBar(index) === named) ??
    score.bars.find(({ number }) => number === named);
  if (bar === undefined) {
    const [first, last] = [nameBarOrCount(score, 0), nameBarOrCount(score, score.bars.length - 1)];
    const expected = `it must be the printed number of a bar; the score has bars ${first} to ${last}`;
    return fail({ code: 'bad-option', option: 'bar', value: named, expected });
  }
  return answerAbout(
    settingAtQuarters(plan.plan, toNumber(bar.onset)),
    { bar: bar.number, barName: nameBar(bar.index) },
    choice,
  );
};
