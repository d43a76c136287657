/** Places and passages of an answer, as far as their lists go by them. */
interface Listed<Fix, Place extends { readonly fixes: readonly Fix[] }> {
  readonly places: readonly Place[];
  readonly passages: readonly { readonly places: readonly number[]; readonly fixes: readonly Fix[] }[];
}

/** Fixes that are told together: those of a place, or of a passage for all of its places at once. */
export interface FixList<Fix, Place, Passage> {
  /** Null for those of one place. */
  readonly passage: Passage | null;
  /** The places that each of the fixes is for. */
  readonly places: readonly Place[];
  readonly fixes: readonly Fix[];
}

/**
 * In which lists people are told of fixes: for a passage before its places, and of these what its list does not have
 * already. A place of which nothing is left to tell has no list.
 */
export const fixLists = <
  Fix extends { readonly atAll: boolean },
  Place extends { readonly fixes: readonly Fix[] },
  Answer extends Listed<Fix, Place>,
>({
  places,
  passages,
}: Answer & Listed<Fix, Place>): readonly FixList<Fix, Place, Answer['passages'][number]>[] =>
  places.flatMap((place, at) => {
    const own = place.fixes.filter(({ atAll }) => !atAll);
    const isTold = own.length === 0 && passages.some((passage) => passage.places.includes(at));
    return [
      ...passages
        .filter((passage) => passage.places[0] === at)
        .map((passage) => ({
          passage,
          places: passage.places.map((each) => places[each]!),
          fixes: passage.fixes,
        })),
      ...(isTold ? [] : [{ passage: null, places: [place], fixes: own }]),
    ];
  });
