import { useState } from 'preact/hooks';
import {
  formatChange,
  formatSetting,
  isLetter,
  type Letter,
  type NeighbourSetting,
  type Setting,
  type SettingWay,
} from '../../../../engine/index.ts';
import { SETTING_STRINGS } from '../../strings/setting-strings.ts';
import { STRINGS } from '../../strings/strings.ts';
import { TableHead } from '../controls/table-head.tsx';
import { PedalBox } from '../playback/pedal-box.tsx';
import { HeldSounds } from './held-sounds.tsx';
import { PedalFields } from './pedal-fields.tsx';
import { useSettingAnswers } from './setting-answers.ts';
import { SoundSearch } from './sound-search.tsx';
import { StringsPicture } from './strings-picture.tsx';

const words = SETTING_STRINGS;

/** A setting that moves are counted from, and the printed number of the bar at which the pedals stand so. */
export interface SettingOrigin {
  readonly setting: Setting;
  readonly bar: string | null;
}

export interface SettingExplorerProps {
  /** Where the pedals stand at the bar that is looked at; all naturals without a score. */
  readonly standing: SettingOrigin;
  readonly footRestSeconds: number;
  readonly onClose: () => void;
}

const namePairs = (pairs: readonly (readonly [Letter, Letter])[], setting: Setting): string[] =>
  pairs.map((pair) => pair.map((letter) => formatChange(letter, setting[letter])).join(' = '));

const Way = ({ way }: { readonly way: SettingWay }) => (
  <p role="status" class="way">
    {way.moves === 0 ? (
      words.way.none
    ) : (
      <>
        {words.way.length(way.moves, way.seconds)}
        {way.steps
          .map(({ moves }) =>
            moves.map(({ letter, to, foot }) => words.way.move(formatChange(letter, to), foot)).join(' + '),
          )
          .join(', ')}
        {'. '}
        {way.moves > 1 && words.way.why}
      </>
    )}
  </p>
);

interface NeighboursProps {
  readonly neighbours: readonly NeighbourSetting[];
  readonly onTake: (setting: Setting) => void;
}

const Neighbours = ({ neighbours, onTake }: NeighboursProps) => (
  <details class="neighbours">
    <summary>{words.neighbours.heading}</summary>
    <div class="table-pane">
      <table>
        <TableHead columns={words.neighbours.columns} />
        <tbody>
          {neighbours.map(({ letter, to, foot, setting, adds, takes, doubles, gains }) => (
            <tr key={formatChange(letter, to)}>
              <th scope="row">
                <button type="button" onClick={() => onTake(setting)}>
                  {formatChange(letter, to)}
                </button>
              </th>
              <td>{words.neighbours.foot(foot)}</td>
              <td>{adds.join(' ')}</td>
              <td>{takes.join(' ')}</td>
              <td>{namePairs(doubles, setting).join(', ')}</td>
              <td>{words.neighbours.more(gains.map(({ name }) => name))}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  </details>
);

/** Where moves are counted from, and other places to count them from. */
const Origin = ({
  origin,
  standing,
  setting,
  onTake,
  onCountFrom,
}: {
  readonly origin: SettingOrigin;
  readonly standing: SettingOrigin;
  /** The one that is looked at. */
  readonly setting: Setting;
  readonly onTake: (setting: Setting) => void;
  readonly onCountFrom: (origin: SettingOrigin) => void;
}) => {
  const atOrigin = formatSetting(setting) === formatSetting(origin.setting);
  const isElsewhere = standing.bar !== origin.bar || standing.setting !== origin.setting;
  return (
    <>
      <p class="origin">
        {words.origin(origin.bar)}: <span class="names">{formatSetting(origin.setting)}</span>
      </p>
      <p class="row">
        <button type="button" disabled={atOrigin} onClick={() => onTake(origin.setting)}>
          {words.back}
        </button>{' '}
        <button type="button" disabled={atOrigin} onClick={() => onCountFrom({ setting, bar: null })}>
          {words.startHere}
        </button>{' '}
        {standing.bar !== null && isElsewhere && (
          <button type="button" onClick={() => onCountFrom(standing)}>
            {words.takeBar(standing.bar)}
          </button>
        )}
      </p>
    </>
  );
};

/** The pedals of a setting, to be moved, and those that the way to it moves marked. */
const Pedals = ({
  setting,
  way,
  onChange,
}: {
  readonly setting: Setting;
  /** Null until it is known. */
  readonly way: SettingWay | null;
  readonly onChange: (setting: Setting) => void;
}) => {
  const moved = (way?.steps ?? []).flatMap(({ moves }) => moves.map(({ letter }) => letter));
  return (
    <>
      <PedalBox state={{ setting, coming: [], moved, tooClose: [], busyFeet: [] }} />
      <PedalFields setting={setting} onChange={onChange} />
    </>
  );
};

/** A setting, what it holds, what is near it, and the way to it. */
export const SettingExplorer = ({ standing, footRestSeconds, onClose }: SettingExplorerProps) => {
  const [origin, setOrigin] = useState<SettingOrigin>(standing);
  const [setting, setSetting] = useState<Setting>(standing.setting);
  const [shown, setShown] = useState<string | null>(null);
  const [wanted, setWanted] = useState('');
  const { contents, sound, failed } = useSettingAnswers(setting, wanted, origin.setting, footRestSeconds);
  const strings = contents?.sounds.find(({ key }) => key === shown)?.strings ?? [];
  const marked = new Set(strings.map((name) => name.slice(0, 1)).filter(isLetter));
  const countFrom = (from: SettingOrigin): void => {
    setOrigin(from);
    setSetting(from.setting);
  };
  return (
    <div class="setting-explorer">
      <button type="button" class="close" onClick={onClose}>
        {words.close}
      </button>
      <Pedals setting={setting} way={contents?.way ?? null} onChange={setSetting} />
      {failed && <p role="alert">{STRINGS.viewFailed}</p>}
      {contents !== null && <Way way={contents.way} />}
      <Origin {...{ origin, standing, setting }} onTake={setSetting} onCountFrom={countFrom} />
      {contents !== null && (
        <p>
          {words.doubled(namePairs(contents.doubled, contents.setting))}{' '}
          {contents.outOfOrder && words.outOfOrder}
        </p>
      )}
      <details class="strings" open={shown !== null}>
        <summary>{words.strings}</summary>
        <StringsPicture setting={setting} marked={marked} />
      </details>
      {contents !== null && <HeldSounds sounds={contents.sounds} shown={shown} onShow={setShown} />}
      <SoundSearch sound={sound} onAsk={setWanted} onTake={setSetting} />
      {contents !== null && <Neighbours neighbours={contents.neighbours} onTake={setSetting} />}
    </div>
  );
};
