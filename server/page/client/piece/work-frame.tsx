import type { ComponentChildren } from 'preact';
import { useMemo } from 'preact/hooks';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import type { DecisionHistory } from '../decisions/history/decision-history.ts';
import { RestoredLine } from '../decisions/history/restored-line.tsx';
import { NamingProvider, namingOf } from '../downloads/naming.ts';
import { FollowedLine } from '../opening/followed-line.tsx';
import type { Choices } from '../options/choices.ts';
import type { OpenedPart } from '../planner/engine-messages.ts';
import type { ReadPart } from '../planner/planned-part.ts';
import type { AskedProof } from '../proof/asked-proof.ts';
import { MarkingsLine } from '../proof/markings-line.tsx';
import { type ScreenLayout, ScreenLayoutProvider } from '../score/screen-layout.ts';
import type { ScoreFile } from '../service/annotate-request.ts';
import { PieceHeader, type PieceHeaderProps } from './piece-header.tsx';

/** What is worked on, as the header tells and undoes it. */
export interface FramedWork
  extends Pick<PieceHeaderProps, 'history' | 'troubles' | 'solved' | 'kept' | 'act'> {
  readonly layout: ScreenLayout;
  /** The steps that it was opened with; null where there are none. */
  readonly before: DecisionHistory | null;
  readonly actions: Pick<DecisionActions, 'startOver'>;
}

export interface WorkFrameProps {
  readonly work: FramedWork;
  readonly heading: Omit<PieceHeaderProps, keyof FramedWork | 'progress' | 'picker' | 'children'>;
  readonly progress: PieceHeaderProps['progress'];
  readonly opened: Pick<OpenedPart, 'origin' | 'decisions'> & { readonly part: ReadPart };
  readonly file: ScoreFile;
  readonly choices: Choices;
  /** Null where the file brings no markings. */
  readonly proof: AskedProof | null;
  readonly picker: ComponentChildren;
  readonly dropping: boolean;
  readonly isForLevers?: boolean;
  readonly children: ComponentChildren;
}

/** An open piece: its header, and the views of it. */
export const WorkFrame = ({
  work,
  heading,
  progress,
  opened,
  file,
  choices,
  proof,
  picker,
  dropping,
  isForLevers = false,
  children,
}: WorkFrameProps) => {
  const { layout, before, actions, history, troubles, solved, kept, act } = work;
  const isOfThisVisit = layout.view.isHanded || (before !== null && before.latest !== null);
  const naming = useMemo(() => namingOf(file, opened.part), [file, opened.part]);
  return (
    <ScreenLayoutProvider value={layout}>
      <NamingProvider value={naming}>
        <div class={`workspace${isForLevers ? ' levers' : ''}${dropping ? ' dropping' : ''}`}>
          <PieceHeader {...heading} {...{ history, troubles, solved, kept, act, progress, picker }}>
            <FollowedLine />
            {!isOfThisVisit && <RestoredLine {...{ opened, actions }} given={file.decided} />}
            {proof !== null && <MarkingsLine {...{ proof, file, choices }} part={opened.part} />}
          </PieceHeader>
          {children}
        </div>
      </NamingProvider>
    </ScreenLayoutProvider>
  );
};
