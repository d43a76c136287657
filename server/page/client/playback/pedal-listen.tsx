import { useMemo } from 'preact/hooks';
import { formatSetting, performPart } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import { type HarpPicture, type ListenControls, ListenPanel } from './listen-panel.tsx';
import { PedalBox, PedalLine } from './pedal-box.tsx';
import { keyOfState, pedalBoxAt } from './pedal-box-state.ts';

/** The open player of a part for the pedal harp. */
export const PedalListen = ({ part, ...controls }: ListenControls & { readonly part: PlannedPart }) => {
  const { plan, omitted } = part;
  const hearing = part.slowedHearing ?? part.hearing;
  const performance = useMemo(() => performPart(hearing, plan, omitted), [hearing, plan, omitted]);
  const pictureAt = useMemo(
    () =>
      (seconds: number, tempo: number): HarpPicture => {
        const state = pedalBoxAt(performance, seconds, { plan, tempo });
        return {
          key: keyOfState(state),
          picture: (
            <>
              <PedalBox state={state} />
              <PedalLine state={state} />
            </>
          ),
          spoken: STRINGS.listen.pedalsStand(STRINGS.spoken(formatSetting(state.setting))),
        };
      },
    [performance, part],
  );
  return (
    <ListenPanel
      {...controls}
      part={part}
      performance={performance}
      pictureAt={pictureAt}
      say={STRINGS.listen.say}
      actions={STRINGS.listen.heard.pedals}
    />
  );
};
