/** What tringle is, in one sentence: the description in package.json says the same. */
export const PURPOSE = 'Works out the pedal or lever changes of a harp part and prints them into the score.';
