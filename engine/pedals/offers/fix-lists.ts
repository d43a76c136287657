/** A fix of one place. */
type OfPlace<Fix> = Fix & {
  /** Whether the list of a passage has one that does as much. */
  readonly atAll: boolean;
};

/** Places and passages of an answer, as far as their lists go by them. */
interface Listed<Fix, Place extends { readonly fixes: readonly OfPlace<Fix>[] }> {
  readonly places: readonly Place[];
  readonly passages: readonly {
    readonly places: readonly number[];
    readonly fixes: readonly (NoInfer<Fix> & { readonly places: readonly number[] })[];
  }[];
}

/** Fixes that are told together: those of a place, or of a passage for several of its places at once. */
export interface FixList<Fix, Place, Passage> {
  /** Null for those of one place. */
  readonly passage: Passage | null;
  /** For a place, the passage whose fixes mend it too; null where there is none. */
  readonly inPassage: Passage | null;
  /** The places that the fixes are for. */
  readonly places: readonly Place[];
  /** Of a passage, with those of its places that each is for. */
  readonly fixes: readonly (Fix & { readonly places?: readonly number[] })[];
}

/**
 * In which lists people are told of fixes: for a passage before its places, and of these what its list does not have
 * already. A place of which nothing is left to tell has no list.
 */
export const fixLists = <
  Fix,
  Place extends { readonly fixes: readonly OfPlace<Fix>[] },
  Answer extends Listed<Fix, Place>,
>({
  places,
  passages,
}: Answer & Listed<Fix, Place>): readonly FixList<Fix, Place, Answer['passages'][number]>[] =>
  places.flatMap((place, at) => {
    const own = place.fixes.filter(({ atAll }) => !atAll);
    const inPassage = passages.find((passage) => passage.places.includes(at)) ?? null;
    const isTold = own.length === 0 && inPassage !== null;
    return [
      ...passages
        .filter((passage) => passage.places[0] === at)
        .map((passage) => ({
          passage,
          inPassage: null,
          places: passage.places.map((each) => places[each]!),
          fixes: passage.fixes,
        })),
      ...(isTold ? [] : [{ passage: null, inPassage, places: [place], fixes: own }]),
    ];
  });
