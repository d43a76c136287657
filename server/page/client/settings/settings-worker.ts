import {
  describeSetting,
  findShortestWay,
  readWantedSounds,
  searchSettings,
} from '../../../../engine/index.ts';
import type { SettingAnswer, SettingQuestion } from './setting-messages.ts';

// The names of chords and scales are many: they are kept out of the page's own code, which the first view loads.
const answer = (question: SettingQuestion): SettingAnswer => {
  const { origin, footRestSeconds } = question;
  if (question.kind === 'contents') {
    const { setting } = question;
    const way = findShortestWay(origin, setting, footRestSeconds);
    return { kind: 'contents', contents: { ...describeSetting(setting), way } };
  }
  const { text } = question;
  const wanted = readWantedSounds(text);
  const found = wanted.ok
    ? {
        sounds: wanted.value.sounds,
        search: searchSettings(wanted.value.sounds, origin, footRestSeconds),
      }
    : null;
  return { kind: 'search', sound: { text, found } };
};

addEventListener('message', ({ data }: MessageEvent<SettingQuestion>) => postMessage(answer(data)));
