import { LOOK_METHODS } from '@ullage/trail';

/** The words of a search method. */
export const methodWordsOf = (id: string): string => LOOK_METHODS.find((method) => method.id === id)?.words ?? id;
