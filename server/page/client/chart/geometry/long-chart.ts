import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { STRINGS } from '../../../strings/strings.ts';
import { useNaming } from '../../downloads/naming.ts';
import { saveFile } from '../../downloads/save-file.ts';
import { pictureOf } from '../chart-picture.ts';
import { useChartWindow, WHOLE_CHART } from './chart-window.ts';

/** Keeps the focus on the move that has it while plans change: moves are counted anew in each. */
export const useKeptFocus = (
  drawing: { readonly current: SVGSVGElement | null },
  /** Another one where moves are counted anew. */
  plan: unknown,
  chosen: number | undefined,
) => {
  const inside = useRef(false);
  useLayoutEffect(() => {
    if (!inside.current || chosen === undefined) return;
    drawing.current?.querySelector<SVGElement>(`[data-move="${chosen}"]`)?.focus({ preventScroll: true });
  }, [plan]);
  return {
    onFocusIn: () => {
      inside.current = true;
    },
    onFocusOut: ({ relatedTarget }: FocusEvent) => {
      if (!(relatedTarget instanceof Node) || !drawing.current?.contains(relatedTarget))
        inside.current = false;
    },
  };
};

/** Of a long chart only what is near the view is drawn, but a move that is gone to, and all of it for the picture. */
export const useLongChart = ({
  pane,
  drawing,
  width,
  total,
  height,
}: {
  readonly pane: { readonly current: HTMLElement | null };
  readonly drawing: { readonly current: SVGSVGElement | null };
  readonly width: number;
  readonly total: number;
  /** Of the chart, in px. */
  readonly height: number;
}) => {
  const naming = useNaming();
  const seen = useChartWindow(pane, width, total);
  const [wanted, setWanted] = useState<number | null>(null);
  const [saving, setSaving] = useState(false);
  useLayoutEffect(() => {
    if (wanted === null) return;
    drawing.current?.querySelector<SVGElement>(`[data-move="${wanted}"]`)?.focus();
    setWanted(null);
  }, [wanted]);
  useLayoutEffect(() => {
    if (!saving) return;
    saveFile(pictureOf(drawing.current!, total, height), naming.ofPart(STRINGS.take.names.chart)('svg'));
    setSaving(false);
  }, [saving]);
  return {
    near: saving ? WHOLE_CHART : seen,
    wanted,
    goToMove: setWanted,
    savePicture: () => setSaving(true),
  };
};
