import { type Choices, cleanChoices } from '../options/choices.ts';
import { browserMemory } from './browser-memory.ts';

const NAME = 'tringle-choices';

/** What was chosen last for the pedal harp. */
export const recallChoices = (): Choices => {
  try {
    return cleanChoices(JSON.parse(browserMemory.getItem(NAME) ?? '{}'), 'pedal');
  } catch {
    // Memory that is shut off or spoilt remembers nothing.
    return {};
  }
};

/** How the strings are tuned is a matter of one piece, and not remembered for the next. */
export const rememberChoices = ({ scordatura: _, ...lasting }: Choices): void => {
  try {
    browserMemory.setItem(NAME, JSON.stringify(lasting));
  } catch {
    // Memory is full or shut off: the choice holds until the page is left.
  }
};
