/** What the user looks at: a marking on the page, a move in the chart, or a finding. */
export type Spot =
  | { readonly kind: 'marking'; readonly id: string }
  /** Index into the plan's moves. */
  | { readonly kind: 'move'; readonly move: number }
  /** Index into the plan's findings. */
  | { readonly kind: 'finding'; readonly finding: number };

/** Where the user chose it: that view need not scroll to it. */
export type View = 'score' | 'chart' | 'findings';

export interface Selection {
  readonly spot: Spot;
  readonly origin: View;
}
