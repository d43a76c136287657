/** What the user looks at: a marking or a note on the page, a move in the chart, a finding, or a place. */
export type Spot =
  | { readonly kind: 'marking'; readonly id: string }
  /** Index into the plan's moves. */
  | { readonly kind: 'move'; readonly move: number }
  /** Index into the plan's findings. */
  | { readonly kind: 'finding'; readonly finding: number }
  /** Id of a note of the part. */
  | { readonly kind: 'note'; readonly id: string }
  /** Index into the bars. */
  | { readonly kind: 'place'; readonly bar: number; readonly quarters: number };

/** Where the user chose it: that view need not scroll to it. What a new plan brought, no view scrolls to. */
export type View = 'score' | 'chart' | 'detail' | 'findings' | 'decisions' | 'plan';

export interface Selection {
  readonly spot: Spot;
  readonly origin: View;
}
