/** Items and questions are both counted, and neither is the other. */
export const ITEM_WORDS =
  'An item is the smallest thing asked, such as the place of a step or one number; one question may be about several.';
